package weather

import "regexp"

// stateZones are the standard times of the states of the United States, hours
// ahead of UTC, that most of the state has; from memory of 49 CFR part 71.
var stateZones = map[string]float64{
	"CT": -5, "DE": -5, "DC": -5, "FL": -5, "GA": -5, "IN": -5, "KY": -5, "ME": -5, "MD": -5, "MA": -5, "MI": -5, "NH": -5, "NJ": -5, "NY": -5,
	"NC": -5, "OH": -5, "PA": -5, "RI": -5, "SC": -5, "TN": -6, "VT": -5, "VA": -5, "WV": -5,
	"AL": -6, "AR": -6, "IL": -6, "IA": -6, "KS": -6, "LA": -6, "MN": -6, "MS": -6, "MO": -6, "NE": -6, "ND": -6, "OK": -6, "SD": -6, "TX": -6, "WI": -6,
	"AZ": -7, "CO": -7, "ID": -7, "MT": -7, "NM": -7, "UT": -7, "WY": -7,
	"CA": -8, "NV": -8, "OR": -8, "WA": -8, "AK": -9, "HI": -10, "PR": -4, "VI": -4, "GU": 10,
}

// stateSplits are the meridians, degrees east, at which a state changes to the
// zone an hour earlier in the west (TN, OR: an hour later in the east). County lines
// are not straight: towns within half a degree may be on the other side. From
// memory; Indiana's corners are left out.
var stateSplits = map[string]struct{ east, step float64 }{
	"FL": {-85, -1}, "KY": {-86, -1}, "MI": {-87.7, -1}, "KS": {-101.4, -1}, "NE": {-101, -1}, "ND": {-101.2, -1}, "SD": {-100.6, -1}, "TX": {-105, -1},
	"TN": {-85.4, +1}, "OR": {-117.9, +1},
}

// northernIdaho is the latitude beyond which Idaho has Pacific time.
const northernIdaho = 45.5

// The Aleutian Islands west of 169°30' W, some of them beyond 180°, are an hour
// behind the rest of Alaska; the islands of the Bering Sea north of them are not.
const westernAleutians, aleutianNorth = -169.5, 55

// stateZone is the standard time at a station whose state is known.
func (s *Station) stateZone() (offset float64, ok bool) {
	offset, ok = stateZones[s.State]
	split := stateSplits[s.State]
	switch {
	case s.State == "ID" && s.Latitude > northernIdaho:
		offset--
	case s.State == "AK" && s.Latitude < aleutianNorth && (s.Longitude < westernAleutians || s.Longitude > 0):
		offset--
	case split.step < 0 && s.Longitude < split.east, split.step > 0 && s.Longitude > split.east:
		offset += split.step
	}
	return offset, ok
}

// stateInName is how NOAA writes a state behind a station's name.
var stateInName = regexp.MustCompile(`, ([A-Z]{2}) US$`)
