package weather

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// dateOrder is which of day and month comes first in dates with the year last.
type dateOrder int

const (
	orderUnknown dateOrder = iota
	monthFirst
	dayFirst
)

// stamps reads the time columns of files of no particular format and keeps
// what they say about the zone.
type stamps struct {
	order  dateOrder
	zoned  int     // stamps with an offset or a Z
	plain  int     // stamps without
	lowest float64 // smallest offset seen, hours: standard time
	offset bool    // an offset was written, not only Z
	hour24 bool    // hours run to 24
	hour0  bool
}

// read takes date and clock, or both in one column.
func (s *stamps) read(date, clock string) (time.Time, error) {
	date, clock = strings.TrimSpace(date), strings.TrimSpace(clock)
	text := clock
	if date != "" {
		if d, rest, ok := strings.Cut(date, " "); ok && strings.Trim(rest, "0:. ") == "" {
			date = d // a date that a spreadsheet wrote with midnight behind it
		}
		text = date + " " + clock
	}
	if t, ok := unixSeconds(text); ok {
		s.zoned++
		return t, nil
	}
	text, zone, zoned := cutZone(text)
	date, clock = cutStamp(text)
	year, month, day, err := s.date(date)
	if err != nil {
		return time.Time{}, err
	}
	hour, minute, err := anyClock(clock)
	if err != nil {
		return time.Time{}, err
	}
	s.hour24, s.hour0 = s.hour24 || hour == 24, s.hour0 || hour == 0
	t, err := civil(year, month, day, hour, minute)
	if err != nil || !zoned {
		s.plain++
		return t, err
	}
	s.zoned++
	if zone != 0 || s.offset {
		s.lowest, s.offset = min(s.lowest, zone), true
		if s.zoned == 1 {
			s.lowest = zone
		}
	}
	return t.Add(-time.Duration(zone * float64(time.Hour))), nil
}

// readParts takes year, month, day and hour from columns of their own.
func (s *stamps) readParts(r *record) (time.Time, error) {
	s.plain++
	s.hour24, s.hour0 = s.hour24 || r.Hour == 24, s.hour0 || r.Hour == 0
	return civil(int(r.Year), int(r.Month), int(r.Day), int(r.Hour), int(r.Minute))
}

// unixSeconds knows seconds since 1970, as some services write them.
func unixSeconds(s string) (time.Time, bool) {
	if len(s) != 9 && len(s) != 10 {
		return time.Time{}, false
	}
	n, err := strconv.ParseInt(s, 10, 64)
	if err != nil || n < 1e8 {
		return time.Time{}, false
	}
	return time.Unix(n, 0).UTC(), true
}

// cutZone takes Z or an offset such as -07:00 off the end.
func cutZone(s string) (rest string, hours float64, ok bool) {
	if r, z := strings.CutSuffix(s, "Z"); z {
		return r, 0, true
	}
	if r, z := strings.CutSuffix(s, " UTC"); z {
		return r, 0, true
	}
	i := len(s) - 6
	if i < 10 || s[i] != '+' && s[i] != '-' || s[i+3] != ':' {
		return s, 0, false
	}
	h, okH := digits(s[i+1 : i+3])
	m, okM := digits(s[i+4:])
	if !okH || !okM || h > 14 || m > 59 {
		return s, 0, false
	}
	hours = float64(h) + float64(m)/60
	if s[i] == '-' {
		hours = -hours
	}
	return strings.TrimSpace(s[:i]), hours, true
}

// cutStamp parts date and clock at T or a blank; 20230701:1400 and
// 202307011400 have neither.
func cutStamp(s string) (date, clock string) {
	for _, sep := range []string{"T", " "} {
		if d, c, ok := strings.Cut(s, sep); ok {
			return d, strings.TrimSpace(c)
		}
	}
	if d, c, ok := strings.Cut(s, ":"); ok && len(d) == 8 {
		return d, c
	}
	if _, err := strconv.ParseInt(s, 10, 64); err == nil && (len(s) == 10 || len(s) == 12) {
		return s[:8], s[8:]
	}
	return s, ""
}

// date reads a date in any usual form.
func (s *stamps) date(text string) (year, month, day int, err error) {
	if len(text) == 8 {
		if n, ok := digits(text); ok {
			return n / 10000, n / 100 % 100, n % 100, nil
		}
	}
	p := dateParts(text)
	if p == nil {
		return 0, 0, 0, fmt.Errorf("%q is not a date such as 2023-07-01 or 07/01/2023", clip(text, 30))
	}
	if p[0] > 31 {
		return p[0], p[1], p[2], nil
	}
	if p[2] < 100 {
		return 0, 0, 0, fmt.Errorf("%q has a year of two digits", clip(text, 30))
	}
	if s.order == dayFirst {
		return p[2], p[1], p[0], nil
	}
	return p[2], p[0], p[1], nil
}

// dateParts are the three numbers of a date parted by / - or a point.
func dateParts(text string) []int {
	f := strings.FieldsFunc(text, func(r rune) bool { return r == '/' || r == '-' || r == '.' })
	if len(f) != 3 {
		return nil
	}
	out := make([]int, 3)
	for i := range f {
		n, ok := digits(f[i])
		if !ok {
			return nil
		}
		out[i] = n
	}
	return out
}

// anyClock reads 14:00, 2:00 PM, 14, 1400 or nothing.
func anyClock(s string) (hour, minute int, err error) {
	upper := strings.ToUpper(strings.TrimSpace(s))
	half := ""
	for _, h := range []string{"AM", "PM"} {
		if r, ok := strings.CutSuffix(upper, h); ok {
			upper, half = strings.TrimSpace(r), h
		}
	}
	upper = strings.TrimSuffix(upper, ".0")
	switch n, ok := digits(upper); {
	case upper == "":
	case ok && len(upper) <= 2:
		hour = n
	case ok && len(upper) <= 4:
		hour, minute = n/100, n%100
	default:
		if hour, minute, err = parseClock(upper); err != nil {
			return 0, 0, err
		}
	}
	if half != "" {
		if hour < 1 || hour > 12 {
			return 0, 0, fmt.Errorf("there is no time %q", clip(s, 30))
		}
		hour %= 12
		if half == "PM" {
			hour += 12
		}
	}
	return hour, minute, nil
}

// look finds the order of day and month from all dates of a file: a number
// over 12 can only be a day.
func (s *stamps) look(dates func(yield func(string) bool)) error {
	first, second, ambiguous := 0, 0, false
	for text := range dates {
		date, _ := cutStamp(strings.TrimSpace(text))
		p := dateParts(date)
		if p == nil || p[0] > 31 {
			continue
		}
		ambiguous = true
		first, second = max(first, p[0]), max(second, p[1])
	}
	switch {
	case !ambiguous:
	case first > 12 && second > 12:
		return fmt.Errorf("dates are written both day first and month first")
	case first > 12:
		s.order = dayFirst
	case second > 12:
		s.order = monthFirst
	default:
		return fmt.Errorf("no date tells whether day or month comes first")
	}
	return nil
}

// standard is the offset of standard time where stamps name their offsets.
func (s *stamps) standard() float64 {
	if !s.offset {
		return math.NaN()
	}
	return s.lowest
}
