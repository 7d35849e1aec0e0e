package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/inspect"
	"github.com/evapbook/evapbook/internal/weather"
)

// look opens a file with gaps allowed, for inspect reports what write would
// refuse; a file in UTC of an unknown place is looked at in UTC.
func (o *weatherFlags) look(path string, stdin io.Reader) (s *weather.Series, zoneless bool, err error) {
	flags := *o
	flags.allowGaps = true
	var input bytes.Buffer // of standard input, which can be read only once
	s, err = flags.open(path, io.TeeReader(stdin, &input))
	if err == nil || flags.utcOffset != "" || !askable(err, path) {
		return s, false, err
	}
	flags.utcOffset = "0"
	if s, again := flags.open(path, &input); again == nil {
		return s, true, nil
	}
	return nil, false, err
}

// openAsking opens a file to compute with. Where several things are neither in
// the file nor on the command line, one error asks for all of them.
func (o *weatherFlags) openAsking(path string, stdin io.Reader, altitudeKnown bool) (*weather.Series, error) {
	var input bytes.Buffer
	s, err := o.open(path, io.TeeReader(stdin, &input))
	if err == nil {
		return s, ask(s, false, o, altitudeKnown)
	}
	if !askable(err, path) {
		return nil, err
	}
	looked, zoneless, failed := o.look(path, &input)
	if failed != nil {
		return nil, err
	}
	if all := ask(looked, zoneless, o, altitudeKnown); all != nil {
		return nil, all
	}
	return nil, err
}

// askable tells whether an option would do and the file can be read once more to
// see which: a pipe cannot, and to wait for it would never end.
func askable(err error, path string) bool {
	flaw := new(weather.Error)
	if !errors.As(err, &flaw) || !flaw.Unsaid {
		return false
	}
	if path == "" || path == standard || isStation(path) {
		return true
	}
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// ask is one error for all that write must be told beside the file, nil where
// that is a single thing, which whoever needs it says better.
func ask(s *weather.Series, zoneless bool, o *weatherFlags, altitudeKnown bool) error {
	st := s.Station
	if !zoneless && !math.IsNaN(st.Latitude+st.Longitude+st.Elevation+st.UTCOffset) {
		return nil
	}
	var what, options []string
	for _, n := range inspect.Describe(s, zoneless).Needs {
		if n.Must && !(n.Of == inspect.Gaps && o.allowGaps) || n.Of == inspect.Elevation && !altitudeKnown {
			what, options = append(what, needed[n.Of].what), append(options, needed[n.Of].options)
		}
	}
	if len(what) < 2 {
		return nil
	}
	return hint.With(fmt.Errorf("%s: the file does not hold %s", s.Source.Name, strings.Join(what, ", nor ")), "add %s", strings.Join(options, " "))
}

// needed is how ask calls the needs, briefly for they stand together.
var needed = map[inspect.Subject]struct{ what, options string }{
	inspect.Zone:      {"its time zone", "--utc-offset HOURS"},
	inspect.Position:  {"its latitude and longitude (for the sun)", "--latitude DEGREES --longitude DEGREES"},
	inspect.Elevation: {"its elevation", "--elevation 1342m"},
	inspect.Gaps:      {"nine tenths of the warm half-year", "--allow-gaps"},
}
