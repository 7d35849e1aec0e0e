package weather

import (
	"fmt"
	"math"
	"strings"
)

// check refuses a place that is not on the earth; unknown values pass.
func (s *Station) check(file string, line int) error {
	for _, v := range []struct {
		name        string
		val, lo, hi float64
	}{
		{"latitude", s.Latitude, -90, 90},
		{"longitude", s.Longitude, -180, 180},
		{"elevation", s.Elevation, -500, 9000},
		{"UTC offset", s.UTCOffset, -12, 14},
	} {
		if v.val < v.lo || v.val > v.hi {
			return &Error{File: file, Line: line, Text: fmt.Sprintf("station %s %g is outside %g to %g", v.name, v.val, v.lo, v.hi), Hint: "correct the header line"}
		}
	}
	return nil
}

// zone is the UTC offset in hours; where the file does not state it, that of the
// US state, else that of the longitude. from says which of the two, empty for
// what is stated.
func (s *Station) zone() (offset float64, from string, ok bool) {
	if !math.IsNaN(s.UTCOffset) {
		return s.UTCOffset, "", true
	}
	if offset, ok := s.stateZone(); ok {
		return offset, "the state " + s.State, true
	}
	if !math.IsNaN(s.Longitude) {
		return math.Round(s.Longitude / 15), "the longitude", true
	}
	return math.NaN(), "", false
}

// InUnitedStates tells whether a country, as files give it, is the United
// States: there people read inch-pound units unless they say otherwise.
func InUnitedStates(country string) bool {
	switch strings.ToUpper(strings.TrimSpace(country)) {
	case "US", "USA", "UNITED STATES":
		return true
	}
	return false
}

// Region is the station's country with its state, as ISO 3166 writes them: "US-NV",
// "US" where the state is not known; outside the United States it is empty.
func (s *Station) Region() string {
	switch {
	case s.State != "":
		return "US-" + s.State
	case InUnitedStates(s.Country):
		return "US"
	}
	return ""
}

// usState is a state as a file names it, where it is one of two letters in the
// United States; Western Australia is WA too.
func usState(country, state string) string {
	if s := strings.ToUpper(strings.TrimSpace(state)); len(s) == 2 && InUnitedStates(country) {
		return s
	}
	return ""
}
