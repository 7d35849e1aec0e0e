package pagetest

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
)

// Typed with the keyboard alone: letters, arrow, Enter. Then, without any
// network, the page opens again with the same answer, and a reading is judged.
// What went over the wire before is what we promise.
func TestTownThenOffline(t *testing.T) {
	b := open(t, 1280, 900, "")
	before := b.host.sent()
	t.Logf("%d bytes before a town is chosen", before)
	assert.Less(t, before, 12_000_000)
	b.run(chromedp.SendKeys(chromedp.CSS("#town"), "albuq"), chromedp.WaitVisible(chromedp.CSS("#town-list li")), chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.Enter))
	b.answered()
	assert.Equal(t, "Albuquerque, NM", value[string](b, `document.getElementById("town").value`))
	shown := b.figuresShown()
	same(t, figures(t, command(t, "write", "--place", "Albuquerque, NM", "--json", "--quiet", "-o", filepath.Join(t.TempDir(), "x.xlsx"))), shown)
	t.Logf("%d bytes for the town", b.host.sent()-before)
	assert.Less(t, b.host.sent()-before, 60_000)
	b.wait(`navigator.serviceWorker.controller !== null`)
	address := value[string](b, `location.hash`)

	b.host.close()
	b.load(address)
	b.answered()
	assert.Equal(t, shown, b.figuresShown(), "offline")
	b.run(chromedp.Click(chromedp.CSS("#to-cooler")))
	assert.Contains(t, value[string](b, `document.getElementById("visit-altitude").value`), ",")
	b.enter("visit-outdoor", "95")
	b.enter("visit-rh", "15")
	b.enter("visit-supply", "68")
	b.run(chromedp.Click(chromedp.CSS("#visit button[type=submit]")))
	b.wait(`document.querySelector("#judged strong") !== null`)
	b.picture("judged")
	b.run(chromedp.Click(chromedp.CSS("#get-readings")))
	csv := filepath.Join(t.TempDir(), "readings.csv")
	require.NoError(t, os.WriteFile(csv, b.download("readings.csv"), 0o644))
	judged := string(command(t, "reading", "--csv", csv))
	assert.Contains(t, judged, value[string](b, `document.querySelector("#judged strong").textContent`))
}

// A weather file that cannot be read says so as the command does; what was
// typed and answered before stays. An input that cannot be is marked.
func TestBadFileAndBadInput(t *testing.T) {
	b := open(t, 1280, 900, "#weather=sample&units=ip")
	b.answered()
	b.enter("in-house.floor_area", "1500")
	b.answered()
	sample, err := filepath.Abs("../../data/sample/ostrel-flat.csv")
	require.NoError(t, err)
	bad := filepath.Join(t.TempDir(), "airport.csv")
	require.NoError(t, os.WriteFile(bad, []byte("time,temperature_c,relative_humidity\n2026-01-01 00:00,3,50\nnonsense,4,50\n"), 0o644))
	b.run(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{bad}))
	b.wait(`document.getElementById("where-complaint").textContent !== ""`)
	text := value[string](b, `document.getElementById("where-complaint").innerText`)
	t.Log(text)
	assert.Contains(t, text, "airport.csv")
	assert.Equal(t, "1,500", value[string](b, `document.getElementById("in-house.floor_area").value`))
	b.enter("in-house.setpoint", "200")
	b.wait(`document.getElementById("in-house.setpoint").getAttribute("aria-invalid") === "true"`)
	const old = `document.getElementById("answer").classList.contains("old")`
	assert.True(t, value[bool](b, old))
	b.run(chromedp.Click(chromedp.CSS("#to-cooler")), chromedp.Click(chromedp.CSS("#to-house")), chromedp.EmulateViewport(900, 900), chromedp.EmulateViewport(1280, 900))
	b.picture("error")
	assert.True(t, value[bool](b, old), "drawn anew it is no newer")
	assert.Contains(t, value[string](b, `document.getElementById("complaints").innerText`), "outside")
	b.enter("in-house.setpoint", "")
	b.answered()
	assert.False(t, value[bool](b, old))
	assert.Empty(t, value[string](b, `document.getElementById("complaints").innerText`))
	b.run(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{sample}))
	b.wait(`document.getElementById("where-complaint").textContent === ""`)
	b.answered()
	assert.Equal(t, "1,500", value[string](b, `document.getElementById("in-house.floor_area").value`))
	assert.Empty(t, b.complaints())
}

// violation is what axe-core reports.
type violation struct {
	ID     string `json:"id"`
	Impact string `json:"impact"`
	Help   string `json:"help"`
	Nodes  []struct {
		HTML           string `json:"html"`
		FailureSummary string `json:"failureSummary"`
	} `json:"nodes"`
}

// axe-core (WCAG 2.2 A and AA, and best practices) finds nothing to complain of
// in any state of the page.
func TestAccessible(t *testing.T) {
	officetest.Require(t, officetest.NodePageTools)
	axe, err := os.ReadFile("node_modules/axe-core/axe.min.js")
	require.NoError(t, err)
	b := open(t, 1280, 900, "")
	check := func(state string) {
		t.Helper()
		found := value[[]violation](b, string(axe)+`;axe.run({resultTypes: ["violations"]}).then((r) => r.violations)`)
		for _, v := range found {
			t.Error(state, v.Impact, v.ID, v.Help, fmt.Sprintf("%.600v", v.Nodes))
		}
	}
	check("empty")
	value[bool](b, `(document.getElementById("elsewhere").open = true)`)
	b.run(chromedp.Click(chromedp.CSS("#sample")))
	b.answered()
	value[int](b, `document.querySelectorAll("details").forEach((d) => d.open = true), 1`)
	check("answered")
	b.enter("in-house.setpoint", "200")
	b.wait(`document.getElementById("in-house.setpoint").getAttribute("aria-invalid") === "true"`)
	check("wrong input")
	b.run(chromedp.EmulateViewport(360, 740))
	check("phone")
	b.run(chromedp.Click(chromedp.CSS("#to-cooler")))
	check("cooler")
	b.enter("visit-outdoor", "95")
	b.enter("visit-rh", "15")
	b.enter("visit-supply", "68")
	b.run(chromedp.Click(chromedp.CSS("#visit button[type=submit]")))
	b.wait(`document.querySelector("#judged strong") !== null`)
	check("judged")
}
