package startup

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/weather"
)

func sampleYear(t testing.TB) *weather.Series {
	t.Helper()
	r, name := sample.Open()
	s, err := weather.Read(r, name, weather.Options{})
	require.NoError(t, err)
	return s
}

// The sample moved by half a year under its calendar, as a place of the same
// climate south of the equator has it: the years begin in July there, so that
// all days stand where they stood, but for 182 days being no half of 365.
func TestSouthernPlan(t *testing.T) {
	const halfYear = 182
	north := sampleYear(t)
	south := *north
	south.Station.Latitude = -north.Station.Latitude
	south.Hours = make([]weather.Hour, len(north.Hours))
	for i := range south.Hours {
		south.Hours[i] = north.Hours[(i+halfYear*24)%len(north.Hours)]
		south.Hours[i].Time = north.Hours[i].Time
	}
	n, err := Visit(north, job.New())
	require.NoError(t, err)
	s, err := Visit(&south, job.New())
	require.NoError(t, err)
	require.False(t, n.South)
	require.True(t, s.South)
	a, b := n.Years[0], s.Years[0]
	for name, days := range map[string][2]int{
		"last freeze": {a.LastFreeze, b.LastFreeze}, "first freeze": {a.FirstFreeze, b.FirstFreeze}, "first need": {a.FirstNeed, b.FirstNeed},
		"opens": {a.Opens, b.Opens}, "closes": {a.Closes, b.Closes}, "last need": {a.LastNeed, b.LastNeed},
	} {
		require.InDelta(t, days[0], days[1], 2, name)
	}
	plan := PlanOf(s.Years, FreezeMargin)
	up, down := Date(plan.StartUp.Best, 2027, true), Date(plan.CloseDown.Best, 2027, true)
	require.Equal(t, 2027, up.Year(), "start-up in the spring of the year in which summer begins: %v", up)
	require.Equal(t, 2028, down.Year(), "close-down in the autumn after it: %v", down)
}

// Files of one station are one place, whatever their order; a year twice counts
// once, and says so.
func TestJoin(t *testing.T) {
	a := &Place{Name: "A", Latitude: 40, Longitude: -100, Years: []Year{{Label: "2019"}, {Label: "2020"}}}
	b := &Place{Name: "B", Latitude: 41, Longitude: -100, Years: []Year{{Label: "2019"}}}
	a2 := &Place{Name: "A", Latitude: 40, Longitude: -100, Years: []Year{{Label: "2020"}, {Label: "2021"}}}
	got := Join([]*Place{a, b, a2})
	require.Equal(t, []*Place{a, b}, got)
	require.Len(t, a.Years, 3)
	require.Len(t, a.Notes, 1)
}

// The plan of the sample agrees with its own days: what is planned lies outside
// the freezes of the file and before and after the season.
func TestSamplePlan(t *testing.T) {
	p, err := Visit(sampleYear(t), job.New())
	require.NoError(t, err)
	plan := PlanOf(p.Years, FreezeMargin)
	y := p.Years[0]
	require.Equal(t, y.LastFreeze+FreezeMargin+1, plan.StartUp.From)
	require.Equal(t, y.Opens-1, plan.StartUp.By)
	require.Equal(t, y.Closes+1, plan.CloseDown.From)
	require.Equal(t, y.FirstFreeze-FreezeMargin-1, plan.CloseDown.By)
}
