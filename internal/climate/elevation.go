package climate

import (
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/psychro"
)

// doubtfulHeight is how far in m recorded pressures may stand from the stated
// elevation before it is doubted. At true elevations yearly means of dry
// western stations stand up to 100 m low of the standard atmosphere (Golden
// 821 against 812 hPa, Leadville 706 against 699).
const doubtfulHeight = 120

// noteElevation doubts a station elevation that the file's own pressures do
// not fit: the whole wet-bulb calculation hangs on their ratio to the site's.
func (c *Climate) noteElevation() {
	sum, n := 0.0, 0
	for i := range c.Hours {
		if h := &c.Hours[i]; !h.Missing {
			sum += h.StationP
			n++
		}
	}
	if !c.ElevationKnown || c.PressureEstimated > 0 || n == 0 {
		return
	}
	fits := heightOf(sum / float64(n))
	if math.Abs(fits-c.StationElevation) > doubtfulHeight {
		c.Notes = append(c.Notes, fmt.Sprintf("the pressures in the file fit a height of about %.0f m, not its elevation of %.0f m; if the elevation is wrong, state it with --elevation", math.Round(fits/10)*10, c.StationElevation))
	}
}

// heightOf is the height in m at which the standard atmosphere has pressure p
// in Pa: eq. 1 solved for z.
func heightOf(p float64) float64 {
	return (1 - math.Pow(p/psychro.SeaLevelPressure, 1/5.2559)) / 2.25577e-5
}
