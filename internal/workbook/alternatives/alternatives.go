// Package alternatives sets other ways to cool the house beside that of the
// book: the sheets Options and What if, computed when the book is written.
package alternatives

import (
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/variants"
)

// coolerKinds are the kinds of cooler in the order of their columns.
var coolerKinds = []job.CoolerKind{job.Direct, job.Indirect, job.TwoStage}

// held is the share of the hours that need cooling which are held.
func held(v *variants.Variant) any {
	return figures.Ratio(float64(v.Hours.Held()), float64(v.Hours.Need()))
}

// movingAir is the same share with the hours that are comfortable in moving air.
func movingAir(v *variants.Variant) any {
	t := &v.Season.Totals
	return figures.Ratio(float64(t.Hours.Held()+t.Moving), float64(t.Hours.Need()))
}
