package pagetest

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page fits windows from a small phone to a wide screen: nothing stands out
// sideways. Pictures of all are kept to be looked at.
func TestFits(t *testing.T) {
	for _, w := range []struct {
		name          string
		width, height int
	}{{"phone", 360, 740}, {"tablet", 820, 1180}, {"desktop", 1600, 1000}} {
		t.Run(w.name, func(t *testing.T) {
			b := open(t, w.width, w.height, "#weather=sample&units=ip")
			b.answered("hours a year")
			b.picture(w.name)
			assert.LessOrEqual(t, value[int](b, `document.documentElement.scrollWidth`), w.width)
			b.run(chromedp.Click(chromedp.CSS("#to-cooler")))
			assert.LessOrEqual(t, value[int](b, `document.documentElement.scrollWidth`), w.width)
			b.picture(w.name + "-cooler")
			assert.Empty(t, b.complaints())
		})
	}
}

// Printed, the page is the answer without the form, on two sheets at most.
func TestPrints(t *testing.T) {
	b := open(t, 1200, 900, "#weather=sample&units=ip")
	b.answered("hours a year")
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPrintBackground()))
	require.NoError(t, err)
	require.NotEmpty(t, pdf)
	b.keep("print.pdf", pdf)
}
