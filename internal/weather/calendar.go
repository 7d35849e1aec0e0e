package weather

import "time"

// A place in the year is counted in hours of a leap year from 1 January 00:00,
// so that months of different years compare.
const (
	leapDayStart = (31 + 28) * 24 // 29 February 00:00
	leapDayEnd   = leapDayStart + 24
	leapHours    = 366 * 24
)

// daysBefore is the number of days before each month in a leap year.
var daysBefore = [12]int{0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335}

// yearHour is the place of t in a leap year, 0..8783.
func yearHour(t time.Time) int {
	_, month, day := t.Date()
	return (daysBefore[month-1]+day-1)*24 + t.Hour()
}

// atYearHour is the hour h of a leap year put into the given year.
func atYearHour(year, h int) time.Time {
	month := 12
	for daysBefore[month-1] > h/24 {
		month--
	}
	return time.Date(year, time.Month(month), h/24-daysBefore[month-1]+1, h%24, 0, 0, 0, time.UTC)
}

// epochHour counts whole hours since 1970, negative before.
func epochHour(t time.Time) int {
	sec := t.Unix()
	h := sec / 3600
	if sec%3600 < 0 {
		h--
	}
	return int(h)
}

func fromEpochHour(h int) time.Time { return time.Unix(int64(h)*3600, 0).UTC() }

// hourOfDay works for negative counts too.
func hourOfDay(h int) int { return (h%24 + 24) % 24 }
