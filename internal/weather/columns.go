package weather

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// ColumnName says which heading of a file holds a quantity or the time.
type ColumnName struct {
	Key     string // such as time, temperature_c or relative_humidity
	Heading string // as the file prints it
}

// quantityNames are the keys of quantities, before a unit is added to them.
var quantityNames = [quantities]string{"temperature", "relative_humidity", "dew_point", "wet_bulb", "pressure", "ghi"}

// columnKey begins a new assignment: commas and = may stand in headings, too.
var columnKey = regexp.MustCompile(`(?i)(?:^|,)\s*((?:time|date|year|month|day|hour|minute|temperature|relative_humidity|humidity|dew_point|wet_bulb|pressure|ghi)(?:_[a-z0-9]+)*)\s*=`)

// ParseColumns reads assignments such as
// "time=Date,temperature_c=Temp (F),relative_humidity=RH". Keys are time, or
// date and hour, or year, month, day, hour and minute; temperature, relative_humidity, dew_point, wet_bulb, pressure
// and ghi, each with its unit behind an underscore where the heading does not
// name one; the time may be time_utc and time_ending.
func ParseColumns(text string) ([]ColumnName, error) {
	at := columnKey.FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 || at[0][0] != 0 {
		return nil, fmt.Errorf("columns %q: no assignment such as time=Date,temperature_c=Temp,relative_humidity=RH", clip(text, 60))
	}
	var out []ColumnName
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		c := ColumnName{Key: strings.ToLower(text[m[2]:m[3]]), Heading: strings.TrimSpace(text[m[1]:end])}
		if c.Heading == "" {
			return nil, fmt.Errorf("columns: %s= has no heading behind it", c.Key)
		}
		if _, err := c.role(); err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

// addColumns adds to the columns stated those that common names give for what
// was not stated: the time as a whole, and each quantity by itself. A humidity
// stated stands alone, for it was chosen.
func addColumns(stated, guessed []ColumnName) []ColumnName {
	has := map[string]bool{}
	for _, n := range stated {
		if r, err := n.role(); err == nil {
			has[r.group()] = true
		}
	}
	out := slices.Clone(stated)
	for _, n := range guessed {
		r, err := n.role()
		used := slices.ContainsFunc(stated, func(s ColumnName) bool { return strings.EqualFold(s.Heading, n.Heading) })
		if err == nil && !used && !has[r.group()] {
			out = append(out, n)
		}
	}
	return out
}

// group is what a stated column stands for among those guessed.
func (r role) group() string {
	switch {
	case !r.measured:
		return "time"
	case isHumidity(r.key):
		return "humidity"
	}
	return r.key
}

// role is what a column is for.
type role struct {
	key      string // of record
	quantity quantity
	measured bool   // holds a quantity, not the time
	unit     string // from the key, may be empty
	utc      bool
	local    bool
	ending   bool
}

// role reads the key of an assignment.
func (c ColumnName) role() (role, error) {
	key := c.Key
	if rest, ok := strings.CutPrefix(key, "humidity"); ok {
		key = "relative_humidity" + rest
	}
	for q, name := range quantityNames {
		if rest, ok := strings.CutPrefix(key, name); ok {
			u := strings.TrimPrefix(rest, "_")
			if _, known := unitWords[q][u]; u != "" && !known {
				return role{}, fmt.Errorf("columns: %s: %q is no unit of %s", c.Key, u, limits[q].name)
			}
			return role{key: quantityKeys[q], quantity: quantity(q), measured: true, unit: u}, nil
		}
	}
	words := strings.Split(key, "_")
	r := role{key: words[0]}
	if r.key == "time" {
		r.key = "clock"
	}
	for _, w := range words[1:] {
		switch w {
		case "utc", "gmt":
			r.utc = true
		case "local", "lst":
			r.local = true
		case "ending":
			r.ending = true
		case "beginning":
		default:
			return role{}, fmt.Errorf("columns: %s: %q is not known; utc, local, ending or beginning may follow", c.Key, w)
		}
	}
	return r, nil
}

// guessColumns finds what the headings call by common names.
func guessColumns(headings []string) []ColumnName {
	cut := make([]heads, len(headings))
	for i, h := range headings {
		cut[i] = cutHeading(h)
	}
	find := func(words []string, unit quantity) int {
		for _, w := range words {
			for i, h := range cut {
				_, fits := unitWords[max(unit, 0)][h.unit]
				if h.name == w && (unit < 0 || h.unit == "" || fits) {
					return i
				}
			}
		}
		return -1
	}
	var out []ColumnName
	add := func(key string, i int) {
		if i >= 0 {
			out = append(out, ColumnName{key, headings[i]})
		}
	}
	stamp := slices.Concat(timeWords, []string{"dateutc", "timeutc", "datetimeutc"})
	date, clock, whole := find(dateWords, -1), find(clockWords, -1), find(stamp, -1)
	year, month, day := find([]string{"year", "yyyy", "yr"}, -1), find([]string{"month", "mm", "mo"}, -1), find([]string{"day", "dd", "dy"}, -1)
	switch {
	case year >= 0 && month >= 0 && day >= 0 && clock >= 0:
		add("year", year)
		add("month", month)
		add("day", day)
		add("hour", clock)
		add("minute", find([]string{"minute", "min"}, -1))
	case date >= 0 && clock >= 0:
		add("date", date)
		add("hour", clock)
	case whole >= 0:
		add("time", whole)
	default:
		add("time", date)
	}
	for q, words := range nameWords {
		add(quantityNames[q], find(words, quantity(q)))
	}
	return out
}
