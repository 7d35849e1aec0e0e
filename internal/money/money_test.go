package money_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/money"
	"github.com/evapbook/evapbook/internal/season"
)

func compare(change func(*job.Job)) money.Comparison {
	j := job.New()
	j.Price.CoolerLife, j.Price.ACLife = 15, 15
	j.Price.CoolerInstalled, j.Price.ACInstalled = 0, 0
	j.Price.CoolerCare, j.Price.ACCare = 0, 0
	j.Price.Electricity = 1
	change(j)
	winter := climate.Hour{Start: time.Date(2023, time.January, 1, 12, 0, 0, 0, time.UTC)}
	s := &season.Season{Job: j, Climate: &climate.Climate{Hours: []climate.Hour{winter}}, Hours: []season.Hour{{RefKWh: 1}}}
	s.Totals.RefKWh = 1
	return money.Compare(s)
}

// Present-value factors of NIST Handbook 135: UPV 3 %/15 years 11.938, 5 %/15
// 10.380, 7 %/20 10.594; UPV* 3 %, 1 % growth, 15 years 12.868.
func TestPresentValueFactors(t *testing.T) {
	rows := []struct {
		discount, growth, years, want float64
	}{{0.03, 0, 15, 11.938}, {0.05, 0, 15, 10.380}, {0.07, 0, 20, 10.594}, {0.03, 0.01, 15, 12.868}}
	for _, r := range rows {
		c := compare(func(j *job.Job) {
			j.Price.Discount, j.Price.Escalation = r.discount, r.growth
			j.Price.CoolerLife, j.Price.ACLife = r.years, r.years
		})
		assert.InDelta(t, r.want, c.Options[money.Refrigerated].Present, 5e-4)
	}
}

// A machine of 10 years in a 15-year study is bought twice and has half its
// second price left; SPV 3 %/15 years is 0.6419 (NIST Handbook 135).
func TestReplacementAndResidual(t *testing.T) {
	c := compare(func(j *job.Job) {
		j.Price.Discount, j.Price.Escalation, j.Price.Electricity = 0.03, 0, 0
		j.Price.CoolerLife, j.Price.CoolerInstalled = 10, 1000
	})
	want := 1000 + 1000/math.Pow(1.03, 10) - 500*0.6419
	assert.Equal(t, 15, c.Years)
	assert.InDelta(t, want, c.Options[money.Cooler].Present, 0.05)
	assert.Equal(t, 2000., c.Options[money.Cooler].Cumulative[15])
}

func TestPayback(t *testing.T) {
	c := compare(func(j *job.Job) {
		j.Price.CoolerInstalled, j.Price.ACInstalled = 300, 100
		j.Price.ACCare = 50
	})
	assert.InDelta(t, 200./51, c.Payback(money.Cooler, money.Refrigerated), 1e-12)
	assert.InDelta(t, 300, c.Payback(money.Both, money.Refrigerated), 1e-9)
	assert.True(t, math.IsInf(c.Payback(money.Refrigerated, money.Cooler), 1), "cheaper to buy, dearer to run")
	assert.Zero(t, c.Payback(money.Cooler, money.Both))
}
