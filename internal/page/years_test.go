package page

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inventedYears is invented weather of so many years from 2011, hour by hour.
func inventedYears(n int) []byte {
	var b strings.Builder
	b.WriteString("# station: Ostrel Flat (invented)\n# latitude: 42\n# longitude: -105\n# elevation_m: 1372\n# utc_offset_h: -7\ntime,temperature_c,dew_point_c\n")
	for at := time.Date(2011, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() < 2011+n; at = at.Add(time.Hour) {
		season := math.Cos(2 * math.Pi * float64(at.YearDay()-200) / 365)
		day := math.Cos(2 * math.Pi * float64(at.Hour()-15) / 24)
		dry := 14 + 12*season + 8*day + float64(at.Year()%4)
		fmt.Fprintf(&b, "%s,%.1f,%.1f\n", at.Format("2006-01-02 15:04"), dry, min(dry-1, 5+8*season))
	}
	return []byte(b.String())
}

func BenchmarkAnswerOfYears(b *testing.B) {
	for _, n := range []int{1, 3, 10, 30} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var p Page
			must[Opened](b, &p, "weather", Source{Kind: "file", Name: "years.csv"}, inventedYears(n))
			setpoints := []string{"78 °F", "79 °F"}
			for i := 0; b.Loop(); i++ {
				result, _, ok := call(b, &p, "answer", Question{Units: "ip", Inputs: map[string]string{"house.setpoint": setpoints[i%2]}}, nil)
				require.True(b, ok, "%s", result)
			}
		})
	}
}

// Of several years what an input does not touch is kept: no answer shows it
// where it is touched. The story says how far the years lie apart.
func TestAnswersOfYearsStandAlone(t *testing.T) {
	file := inventedYears(3)
	fresh := func() *Page {
		p := new(Page)
		o, _ := must[Opened](t, p, "weather", Source{Kind: "file", Name: "years.csv"}, file)
		assert.Equal(t, 3, o.Years)
		return p
	}
	used := fresh()
	for _, inputs := range []map[string]string{
		{}, {"price.electricity": "0.3"}, {"price.electricity": "0.3", "cooler.kind": "two-stage"}, {"site.altitude": "9,000 ft"},
		{"site.altitude": "9,000 ft", "house.design_load": "9 kW"}, {"site.warmer": "3 °F"}, {"ac.capacity": "3 ton"}, {},
	} {
		q := Question{Units: "ip", Inputs: inputs}
		want, _ := must[Answer](t, fresh(), "answer", q, nil)
		got, _ := must[Answer](t, used, "answer", q, nil)
		require.Equal(t, want, got, inputs)
		require.Contains(t, strings.Join(got.Story, " "), "Over 3 years the cooler and the windows hold")
		require.Contains(t, string(got.Figures), `"2012"`)
	}
}
