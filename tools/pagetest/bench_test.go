package pagetest

import (
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// openBench is the page with the sample's weather, warm: a browser compiles what
// runs often a second time, better, while it runs.
func openBench(b *testing.B) *tab {
	t := open(b, 1280, 900, "")
	value[bool](t, `(document.getElementById("elsewhere").open = true)`)
	t.run(chromedp.Click(chromedp.CSS("#sample")))
	t.answered()
	for i := range 20 {
		t.changeSetpoint(i)
	}
	return t
}

// changeSetpoint enters another setpoint and gives the time until the answer to
// it stands on the page, measured there.
func (b *tab) changeSetpoint(i int) time.Duration {
	ms := value[float64](b, fmt.Sprintf(`new Promise((resolve) => {
		const field = document.getElementById("in-house.setpoint"), began = performance.now();
		const seen = new MutationObserver(() => {
			if (document.documentElement.dataset.busy !== "no") return;
			seen.disconnect();
			resolve(performance.now() - began);
		});
		seen.observe(document.documentElement, {attributeFilter: ["data-busy"]});
		field.value = "%d"; field.dispatchEvent(new Event("change", {bubbles: true}));
	})`, 78+i%3))
	return time.Duration(ms * float64(time.Millisecond))
}

// BenchmarkChange is one change of an input, to the answer drawn.
func BenchmarkChange(b *testing.B) {
	t := openBench(b)
	var sum time.Duration
	n := 0
	for b.Loop() {
		sum += t.changeSetpoint(n)
		n++
	}
	b.ReportMetric(float64(sum.Microseconds())/1000/float64(n), "ms/change")
}

// BenchmarkWorkbook is from the click to the file.
func BenchmarkWorkbook(b *testing.B) {
	t := openBench(b)
	name := value[string](t, `window.lastAnswer.file`)
	for i := 0; b.Loop(); i++ {
		value[bool](t, `(document.getElementById("get-book").click(), true)`)
		if i == 0 {
			t.download(name + ".xlsx")
		} else {
			t.download(fmt.Sprintf("%s (%d).xlsx", name, i))
		}
	}
}
