package weather

import (
	"math"
	"slices"
	"strconv"
)

// assemble turns what a reader found into a checked series of whole days.
func assemble(raw *observations, opt Options) (*Series, error) {
	opt.override(&raw.station)
	if err := raw.weigh(); err != nil {
		return nil, err
	}
	raw.darken()
	if err := raw.toLocal(); err != nil {
		return nil, err
	}
	raw.sortReports()
	raw.onePerHour()
	raw.average()
	t, err := raw.order()
	if err != nil {
		return nil, err
	}
	raw.checkDaylight()
	t, err = raw.complete(t)
	if err != nil {
		return nil, err
	}
	if err := raw.judge(t); err != nil {
		return nil, err
	}
	s := &Series{Station: raw.station, Source: raw.source, parts: raw.parts, HourEnding: raw.hourEnding, Typical: t.typical, Notes: raw.notes}
	if s.Typical {
		s.note(raw.typicalNote())
	}
	choice, err := chooseHumidity(raw.file, t.rows, opt.Humidity)
	if err != nil {
		return nil, err
	}
	s.noteHumidity(choice, opt.Humidity)
	if err := s.belowDryBulb(raw.file, t.rows, choice.used); err != nil {
		return nil, err
	}
	flagged := slices.ContainsFunc(t.rows, func(r observation) bool { return r.filled })
	s.bridgeGaps(t.rows, choice)
	s.take(t.rows, choice)
	s.fitElevation(opt.Elevation != nil, raw.guessed)
	s.noteFilled(flagged)
	if err := s.checkSeason(raw.file, opt.AllowGaps); err != nil {
		return nil, err
	}
	s.checkClock()
	s.contradictions()
	s.tidyNames()
	return s, nil
}

func (s *Series) note(n Note) { s.Notes = append(s.Notes, n) }

// RecentFrom is the first of the ten warmest years on record of the whole earth,
// 2015 to 2024 (WMO, State of the Global Climate 2024, from memory). A typical
// year of older months only has colder summers than people now mostly have.
const RecentFrom = 2015

// typicalNote says which years the months of a typical year were taken from.
func (o *observations) typicalNote() Note {
	first, last := o.start(0).Year(), o.start(0).Year()
	for i := range o.rows {
		y := o.start(i).Year()
		first, last = min(first, y), max(last, y)
	}
	n := Note{Kind: NoteTypical, Of: strconv.Itoa(first), Other: strconv.Itoa(last)}
	if last < RecentFrom {
		n.Kind = NoteTypicalOld
	}
	return n
}

// humidityChoice is the column to compute with and the one kept beside it.
type humidityChoice struct {
	used, spare quantity
	hasSpare    bool
}

var humidityOf = map[quantity]Humidity{relHum: RelHum, dewPoint: DewPoint, wetBulb: WetBulb}

// chooseHumidity takes the preferred column that holds any value.
func chooseHumidity(file string, rows []observation, p Preference) (humidityChoice, error) {
	if !anyValue(rows, dryBulb) {
		return humidityChoice{}, fileError(file, "download it again with temperature included", "holds no dry-bulb temperature at all")
	}
	ranking := []quantity{relHum, dewPoint, wetBulb}
	if p == PreferDewPoint {
		ranking = []quantity{dewPoint, relHum, wetBulb}
	}
	var found []quantity
	for _, q := range ranking {
		if anyValue(rows, q) {
			found = append(found, q)
		}
	}
	if len(found) == 0 {
		return humidityChoice{}, fileError(file, "download it again with relative humidity or dew point included", "holds no humidity value at all")
	}
	if found[0] == relHum && inFractions(rows) {
		return humidityChoice{}, fileError(file, "write relative humidity in percent", "relative humidity never exceeds 1 %%, it looks like a fraction")
	}
	c := humidityChoice{used: found[0]}
	if len(found) > 1 {
		c.spare, c.hasSpare = found[1], true
	}
	return c, nil
}

// noteHumidity says where the preferred column is not in the file.
func (s *Series) noteHumidity(c humidityChoice, p Preference) {
	want := map[Preference]quantity{PreferRelHum: relHum, PreferDewPoint: dewPoint}
	if q, stated := want[p]; stated && q != c.used {
		s.note(Note{Kind: NoteHumidityAbsent, Of: limits[q].name, Other: limits[c.used].name})
	}
}

func anyValue(rows []observation, q quantity) bool {
	for i := range rows {
		if !math.IsNaN(rows[i].values[q]) {
			return true
		}
	}
	return false
}

// inFractions tells whether a day or more of relative humidity stays at or
// below 1 %: the driest hours on record are about 1 %, not whole days.
func inFractions(rows []observation) bool {
	n := 0
	for i := range rows {
		v := rows[i].values[relHum]
		if v > 0.01 {
			return false
		}
		if !math.IsNaN(v) {
			n++
		}
	}
	return n >= 24
}

// take copies the rows into the series.
func (s *Series) take(rows []observation, c humidityChoice) {
	s.Humidity = humidityOf[c.used]
	s.Hours = make([]Hour, len(rows))
	if c.hasSpare {
		s.SpareKind = humidityOf[c.spare]
		s.Spare = make([]float64, len(rows))
	}
	for i := range rows {
		v := &rows[i].values
		s.Hours[i] = Hour{Time: rows[i].time, DryBulb: v[dryBulb], Humidity: v[c.used], Pressure: v[pressure], GHI: v[irradiance], Filled: rows[i].filled}
		if c.hasSpare {
			s.Spare[i] = v[c.spare]
		}
	}
}
