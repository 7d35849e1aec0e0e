package weather

import "time"

// clockChange tells whether an hour is one that clocks may skip or repeat: a
// Sunday night between one and three in the months when daylight-saving time
// begins or ends. Source: the rules of the IANA time zone database, simplified
// (a few countries change on other days).
func clockChange(t time.Time) bool {
	switch t.Month() {
	case time.March, time.April, time.September, time.October, time.November:
		return t.Weekday() == time.Sunday && t.Hour() >= 1 && t.Hour() <= 3
	}
	return false
}

// checkDaylight notes a file that otherwise has every hour and lacks one on a
// Sunday night in spring: clock time, not standard time. Files of reports have
// gaps of their own and are not judged.
func (o *observations) checkDaylight() {
	if o.utc || o.reports {
		return
	}
	var skipped []time.Time
	gaps := 0
	for i := 1; i < len(o.rows); i++ {
		before, here := o.rows[i-1].time, o.rows[i].time
		if here.Sub(before) != 2*time.Hour {
			if here.Sub(before) > time.Hour {
				gaps++
			}
			continue
		}
		if t := before.Add(time.Hour); clockChange(t) && t.Month() != time.November {
			skipped = append(skipped, t)
		} else {
			gaps++
		}
	}
	if len(skipped) == 0 || gaps > len(skipped) {
		return
	}
	o.notes = append(o.notes, Note{Kind: NoteClockChange, Places: []Place{{Time: skipped[0]}}})
}
