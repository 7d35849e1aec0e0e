package weather

import (
	"strings"
	"time"
)

// Meteostat hourly CSV, with headings or, as in the publisher's bulk files,
// without. UTC, blank is missing, the pressure is sea-level pressure and not
// read. Seen in a public repository only; no real file was at hand.
var meteostatLayout = layout{
	columns: []column{
		{key: "date", headings: []heading{{"date", nil}}, need: true},
		{key: "hour", headings: []heading{{"hour", nil}}, need: true},
		{key: "dry bulb", headings: []heading{{"temp", nil}}, need: true},
		{key: "dew point", headings: []heading{{"dwpt", nil}}},
		{key: "relative humidity", headings: []heading{{"rhum", percent}}},
	},
	stamp:   meteostatStamp,
	stampAt: "date",
}

var meteostatFields = []string{"date", "hour", "temp", "dwpt", "rhum"}

func isMeteostat(head []string) bool {
	named := hasHeadings(head[0], "date", "hour", "temp") && (hasHeadings(head[0], "rhum") || hasHeadings(head[0], "dwpt"))
	return named || meteostatHeadless(head[0])
}

func meteostatHeadless(line string) bool {
	f := strings.Split(line, ",")
	if len(f) != 13 {
		return false
	}
	_, _, _, err := parseISODate(f[0])
	_, ok := digits(f[1])
	return err == nil && ok
}

func meteostatStamp(r *record) (time.Time, error) {
	year, month, day, err := parseISODate(r.Date)
	if err != nil {
		return time.Time{}, err
	}
	return civil(year, month, day, int(r.Hour), 0)
}

func readMeteostat(doc *document) (*observations, error) {
	s := newScanner(doc, ',')
	headings, line := meteostatFields, 1
	if !meteostatHeadless(firstLines(doc.text, 1)[0]) {
		var err error
		if headings, line, err = s.heading("the headings"); err != nil {
			return nil, err
		}
	}
	rows, err := meteostatLayout.read(s, headings, line)
	if err != nil {
		return nil, err
	}
	return &observations{file: doc.name, station: unknownStation(), utc: true, rows: rows}, nil
}
