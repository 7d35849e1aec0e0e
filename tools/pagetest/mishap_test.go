package pagetest

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shown is the text of an element.
func (b *tab) shown(id string) string {
	b.Helper()
	return value[string](b, fmt.Sprintf(`document.getElementById(%q).innerText`, id))
}

// old tells whether the answer is marked as the one before.
func (b *tab) old() bool {
	b.Helper()
	return value[bool](b, `document.getElementById("answer").classList.contains("old")`)
}

// Whatever goes wrong is said, the answer before is marked as such, and nothing
// typed is lost: a broken link, files that are none, a town that does not come,
// a page loaded again.
func TestMishaps(t *testing.T) {
	b := open(t, 1280, 900, "#weather=sample&units=ip&no.such=1&house.setpoint=200+°F")
	b.wait(`document.getElementById("complaints").innerText.includes("outside")`)
	assert.Contains(t, b.shown("complaints"), "no.such, which is no input of this version")
	assert.Equal(t, "One input is wrong.", b.shown("state"), "there is no answer before")
	b.press("#complaints button.way")
	assert.Equal(t, "in-house.setpoint", value[string](b, `document.activeElement.id`))
	b.enter("in-house.setpoint", "79")
	b.enter("in-proposal.prepared_for", "A. Nobody")
	b.answered()
	value[bool](b, `(document.querySelector(".skip").click(), true)`)
	assert.Contains(t, value[string](b, `location.hash`), "setpoint", "a way within the page leaves the address alone")

	b.mishap("empty.csv", "", "empty.csv")
	b.mishap("photo.jpg", "\xff\xd8\xff\xe0\x00\x10JFIF\x00", "photo.jpg")
	b.dropped(`Object.defineProperty(new File(["x"], "huge.csv"), "size", {value: 3e8})`, "huge.csv has 300 MB")
	b.dropped(`Object.assign(new File([""], "folder"), {arrayBuffer: () => Promise.reject(new DOMException("", "NotFoundError"))})`, "it is a folder")
	assert.Equal(t, "79", value[string](b, `document.getElementById("in-house.setpoint").value`))

	b.host.lack(".bin")
	b.run(chromedp.SendKeys(chromedp.CSS("#town"), "Reno, NV"), chromedp.KeyEvent(kb.Enter))
	b.wait(`document.getElementById("where-complaint").innerText.includes("404")`)
	assert.True(t, b.old())
	b.host.lack("")
	b.run(chromedp.Focus(chromedp.CSS("#town")), chromedp.KeyEvent(kb.Enter))
	b.wait(`document.getElementById("where-complaint").innerText === ""`)
	b.answered()
	assert.Equal(t, "Reno, NV", value[string](b, `window.lastAnswer.site`))

	b.run(chromedp.Reload())
	b.wait(`document.documentElement.dataset.ready === "yes"`)
	b.answered()
	assert.Equal(t, "79", value[string](b, `document.getElementById("in-house.setpoint").value`))
	assert.Equal(t, "A. Nobody", value[string](b, `document.getElementById("in-proposal.prepared_for").value`))
	assert.NotContains(t, value[string](b, `location.href`), "Nobody")
	for _, c := range b.complaints() {
		assert.Contains(t, c, "404")
	}
	value[bool](b, `(location.hash = "1".repeat(1 << 20), true)`) // another address, much too long
	b.becomes(`document.getElementById("complaints").innerText.includes("too long")`)
}

// press clicks wherever the page is scrolled to, or is still scrolling.
func (b *tab) press(selector string) {
	b.Helper()
	value[bool](b, fmt.Sprintf(`(document.querySelector(%q).click(), true)`, selector))
}

// becomes is wait where the page itself is loaded again meanwhile.
func (b *tab) becomes(expression string) {
	b.Helper()
	for start := time.Now(); time.Since(start) < 5*time.Minute; time.Sleep(50 * time.Millisecond) {
		if is, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](expression)); err == nil && is {
			return
		}
	}
	b.Fatal(expression)
}

// mishap chooses a file that cannot be read.
func (b *tab) mishap(name, text, want string) {
	b.Helper()
	path := filepath.Join(b.TempDir(), name)
	require.NoError(b, os.WriteFile(path, []byte(text), 0o644))
	b.run(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
	b.wait(fmt.Sprintf(`document.getElementById("where-complaint").innerText.includes(%q)`, want))
	assert.True(b, b.old(), name)
	b.Log(b.shown("where-complaint"))
}

// dropped drops a file, given as JavaScript, on the page.
func (b *tab) dropped(file, want string) {
	b.Helper()
	value[bool](b, fmt.Sprintf(`(() => {
		const event = new Event("drop", {cancelable: true});
		event.dataTransfer = {files: [%s]};
		window.dispatchEvent(event);
		return event.defaultPrevented;
	})()`, file))
	b.wait(fmt.Sprintf(`document.getElementById("where-complaint").innerText.includes(%q)`, want))
}

// At the cooler: numbers keep their units where the page turns to the others,
// the altitude follows the town, the twenty-first reading is announced, and a
// device that keeps nothing says so.
func TestAtTheCooler(t *testing.T) {
	b := open(t, 360, 740, "#weather=town&place=Albuquerque%2C+NM&units=ip")
	b.answered()
	field := func(name string) string {
		return value[string](b, fmt.Sprintf(`document.getElementById("visit-%s").value`, name))
	}
	judge := func() {
		t.Helper()
		value[bool](b, `(document.getElementById("judged").replaceChildren(), document.querySelector("#visit button[type=submit]").click(), true)`)
		b.wait(`document.getElementById("judged").innerText !== ""`)
	}
	b.press("#to-cooler")
	b.enter("visit-outdoor", "1000")
	b.enter("visit-rh", "15")
	b.enter("visit-supply", "68")
	judge()
	assert.Contains(t, b.shown("judged"), "outdoor temperature 538 °C (1000 °F) is outside")
	assert.Equal(t, "judged-head", value[string](b, `document.activeElement.id`), "a phone shows what it means")
	b.enter("visit-outdoor", "95")
	judge()
	good := b.shown("judged")
	value[bool](b, `(document.querySelector("input[name=units][value=si]").click(), true)`)
	b.answered()
	assert.Equal(t, []string{"4,957 ft", "95 °F", "68 °F"}, []string{field("altitude"), field("outdoor"), field("supply")})
	for range 19 {
		judge()
		assert.Equal(t, good, b.shown("judged"))
	}
	assert.Contains(t, b.shown("kept"), "The next reading takes the place of the oldest of these 20")
	value[bool](b, `(document.getElementById("to-house").click(), true)`)
	b.enter("town", "Leadville, CO")
	b.wait(`window.lastAnswer.site === "Leadville, CO"`)
	b.answered()
	b.enter("in-cooler.kind", "two-stage")
	b.answered()
	b.press("#to-cooler")
	assert.Equal(t, []string{"3,097 m", "Leadville, CO", "two-stage"}, []string{field("altitude"), field("site"), field("cooler")})
	value[bool](b, `(Storage.prototype.setItem = () => { throw new DOMException("", "QuotaExceededError"); }, true)`)
	judge()
	assert.Contains(t, b.shown("kept"), "This browser keeps nothing")
	assert.Equal(t, int64(20), value[int64](b, `document.querySelectorAll("#kept li").length`))
	assert.Empty(t, b.complaints())
}
