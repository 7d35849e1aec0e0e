package reading

import (
	"errors"
	"fmt"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/psychro"
)

// Limits of what a thermometer at a cooler can show, °C: past the coldest
// morning of a cooler's season and the hottest shade on record (56.7 °C, WMO).
const (
	coldest = -20.0
	hottest = 60.0
)

// check refuses what is no reading, with the mistake that is likeliest.
func (v *Visit) check() error {
	for _, t := range v.temperatures() {
		if err := checkTemperature(t.name, t.c); err != nil {
			return err
		}
	}
	in, _ := job.Find("site.altitude")
	if !(v.Altitude >= in.Min && v.Altitude <= in.Max) {
		err := fmt.Errorf("altitude %.0f m is outside %.0f to %.0f m", v.Altitude, in.Min, in.Max)
		if feet := v.Altitude * 0.3048; v.Altitude > in.Max && feet <= in.Max {
			return hint.With(err, "was %.0f ft meant?", v.Altitude)
		}
		return err
	}
	if h := v.Humidity; h.Measure == RelHum && (h.Value < 0 || h.Value > 1) {
		err := fmt.Errorf("relative humidity %.0f %% is outside 0 to 100 %%", 100*h.Value)
		if h.Value <= 100 && h.Value > 2 { // 150 % is no 1.5 %
			return hint.With(err, "was %g%% meant? write the percent sign", h.Value)
		}
		return err
	}
	return nil
}

type named struct {
	name string
	c    float64
}

func (v *Visit) temperatures() []named {
	all := []named{{"outdoor temperature", v.Outdoor}, {"supply temperature", v.Supply}}
	switch v.Humidity.Measure {
	case WetBulb:
		all = append(all, named{"wet bulb", v.Humidity.Value})
	case DewPoint:
		all = append(all, named{"dew point", v.Humidity.Value})
	}
	return all
}

func checkTemperature(name string, c float64) error {
	low := coldest
	if name == "dew point" {
		low = psychro.MinTemperature // deserts go far below
	}
	if c >= low && c <= hottest {
		return nil
	}
	err := fmt.Errorf("%s %.0f °C (%.0f °F) is outside %.0f to %.0f °C (%.0f to %.0f °F)", name, c, c*1.8+32, low, hottest, low*1.8+32, hottest*1.8+32)
	if f := (c - 32) / 1.8; c > hottest && f >= low && f <= hottest {
		return hint.With(err, "was %.4g °F meant?", c)
	}
	if n := c*1.8 + 32; c < low && n >= low && n <= hottest {
		return hint.With(err, "was %.4g °C meant?", n)
	}
	return err
}

// flawed explains an error of moist air in the words of a reading.
func flawed(v *Visit, err error) error {
	if errors.Is(err, psychro.ErrSupersaturated) {
		name := "wet bulb"
		if v.Humidity.Measure == DewPoint {
			name = "dew point"
		}
		return hint.With(fmt.Errorf("%s %.1f °C (%.1f °F) is above the outdoor temperature %.1f °C (%.1f °F)", name, v.Humidity.Value, v.Humidity.Value*1.8+32, v.Outdoor, v.Outdoor*1.8+32), "are the two exchanged, or one in another unit?")
	}
	return err
}
