package job

import (
	"errors"
	"fmt"
	"math"

	"github.com/evapbook/evapbook/internal/units"
)

// Resolve derives the inputs that were not stated, from the weather station
// and from other inputs, and checks that the inputs agree. Elevation is in m,
// NaN where the file has none; then the altitude must have been stated. The
// capacity of the air conditioner is left to the season. A field of an input
// with a rule counts only when it was stated by Set or SetSI.
func (j *Job) Resolve(station string, elevation float64) error {
	if !j.Stated("site.name") || j.Site.Name == "" {
		j.Site.Name = station
	}
	if !j.Stated("site.altitude") {
		if math.IsNaN(elevation) {
			return errors.New("the altitude of the site is not known: the weather file has no elevation\nhint: give --altitude, e.g. --altitude 5430ft")
		}
		j.Site.Altitude = elevation
	}
	for _, in := range inputs {
		if in.Rule == nil || in.Rule.Value == nil || j.Stated(in.Key) {
			continue
		}
		*in.number(j) = in.Rule.Value(j)
	}
	return j.Validate()
}

// Validate checks every value of a resolved job against its range and the
// inputs against each other. All disagreements are reported at once.
func (j *Job) Validate() error {
	var errs []error
	for _, in := range inputs {
		if in.number == nil || in.Pending(j) {
			continue
		}
		if err := in.check(in.SI(j), in.Kind.Show(in.SI(j), units.SI)); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w%s", in.Key, err, j.derivedHint(in)))
		}
	}
	return errors.Join(append(errs, j.agree()...)...)
}

// derivedHint says where a value came from that the user did not state.
func (j *Job) derivedHint(in Input) string {
	if in.Rule == nil || j.Stated(in.Key) {
		return ""
	}
	return "\nhint: it was not stated and is " + in.Rule.Text + "; state " + in.Key
}

// agree lists the rules that span several inputs.
func (j *Job) agree() []error {
	var errs []error
	if j.AC.IndoorWetBulb >= j.House.Setpoint {
		errs = append(errs, fmt.Errorf("ac.indoor_wet_bulb: %s is not below house.setpoint, %s\nhint: air entering the coil is never wetter than saturated; state both",
			both(units.Temperature, j.AC.IndoorWetBulb), both(units.Temperature, j.House.Setpoint)))
	}
	if j.Stated("ac.eer2") && j.Stated("ac.seer2") && j.AC.EER2 > j.AC.SEER2 {
		errs = append(errs, fmt.Errorf("ac.eer2: %g is above ac.seer2, %g\nhint: the full-load figure on a hot day is the lower one; are they swapped?", j.AC.EER2, j.AC.SEER2))
	}
	return errs
}

// both shows a value in the two unit systems.
func both(k units.Kind, v float64) string {
	return k.Show(v, units.SI) + " (" + k.Show(v, units.IP) + ")"
}
