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
	b := open(t, 1600, 1000, "#weather=sample&units=ip")
	b.answered()
	for _, w := range []struct {
		name          string
		width, height int64
	}{{"desktop", 1600, 1000}, {"tablet", 820, 1180}, {"phone", 360, 740}} {
		b.run(chromedp.Click(chromedp.CSS("#to-house")), chromedp.EmulateViewport(w.width, w.height))
		b.wait(`document.querySelector("#particulars svg").clientWidth <= innerWidth`)
		b.picture(w.name)
		assert.LessOrEqual(t, value[int64](b, `document.documentElement.scrollWidth`), w.width, w.name)
		b.run(chromedp.Click(chromedp.CSS("#to-cooler")))
		b.picture(w.name + "-cooler")
		assert.LessOrEqual(t, value[int64](b, `document.documentElement.scrollWidth`), w.width, w.name)
	}
	b.run(chromedp.Click(chromedp.CSS("#to-house")), chromedp.EmulateViewport(1200, 900))
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPrintBackground()))
	require.NoError(t, err)
	b.keep("print.pdf", pdf)
	assert.Empty(t, b.complaints())
}
