package job

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/units"
)

// Resolve derives the inputs that were not stated, from the weather station
// and from other inputs, and checks that the inputs agree. Elevation is in m,
// NaN where the file has none; then the altitude must have been stated. Region is
// the station's in ISO 3166, such as "US-NV", or "US"; empty elsewhere. The
// capacity of the air conditioner is left to the season. A field of an input
// with a rule counts only when it was stated by Set or SetSI.
func (j *Job) Resolve(station string, elevation float64, region string) error {
	j.region = region
	if !j.Stated("site.name") || j.Site.Name == "" {
		j.Site.Name = station
	}
	if !j.Stated("site.altitude") {
		if math.IsNaN(elevation) {
			return hint.With(errors.New("the altitude of the site is not known: the weather file has no elevation"), "give --altitude, e.g. --altitude 5430ft")
		}
		j.Site.Altitude = elevation
	}
	for _, in := range inputs {
		if in.Rule == nil || j.Stated(in.Key) {
			continue
		}
		switch {
		case in.Rule.Value != nil:
			*in.number(j) = in.Rule.Value(j)
		case in.Rule.Word != nil:
			in.word(j).set(in.Rule.Word(j))
		}
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
			errs = append(errs, j.derived(in, fmt.Errorf("%s: %w", in.Key, err)))
		}
	}
	return errors.Join(append(errs, j.agree()...)...)
}

// derived says of a value that the user did not state where it came from.
func (j *Job) derived(in Input, err error) error {
	if in.Rule == nil || j.Stated(in.Key) {
		return err
	}
	return hint.With(err, "it was not stated and is %s; state %s", in.Rule.Text, in.Key)
}

// agree lists the rules that span several inputs.
func (j *Job) agree() []error {
	var errs []error
	if j.AC.IndoorWetBulb >= j.House.Setpoint {
		errs = append(errs, hint.With(fmt.Errorf("ac.indoor_wet_bulb: %s is not below house.setpoint, %s", both(units.Temperature, j.AC.IndoorWetBulb), both(units.Temperature, j.House.Setpoint)), "air entering the coil is never wetter than saturated; state both"))
	}
	if sign := j.Price.Currency; utf8.RuneCountInString(sign) > 4 || strings.ContainsAny(sign, "0123456789.,\"\\;[]") {
		errs = append(errs, hint.With(fmt.Errorf("price.currency: %q is not a sign that can stand before an amount", sign), "write a sign such as $ or €, or three letters"))
	}
	if j.Stated("ac.eer2") && j.Stated("ac.seer2") && j.AC.EER2 > j.AC.SEER2 {
		errs = append(errs, hint.With(fmt.Errorf("ac.eer2: %g is above ac.seer2, %g", j.AC.EER2, j.AC.SEER2), "the full-load figure on a hot day is the lower one; are they swapped?"))
	}
	return errs
}

// both shows a value in the two unit systems.
func both(k units.Kind, v float64) string {
	return k.Show(v, units.SI) + " (" + k.Show(v, units.IP) + ")"
}
