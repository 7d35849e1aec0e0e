package page

import (
	"bytes"
	"fmt"

	"github.com/gocarina/gocsv"

	"github.com/evapbook/evapbook/internal/reading"
)

// Visit is a reading as entered at the cooler, by the columns of reading --csv.
type Visit map[string]string

// Visits are readings kept on the device.
type Visits struct {
	Rows []Visit `json:"rows"`
}

// Judged is a reading with its verdict, in the units it was entered in.
type Judged struct {
	Verdict string `json:"verdict"`
	Meaning string `json:"meaning"`
	Lines   []Line `json:"lines"`
}

// Line is one line of a reading; an empty label carries on the line before.
type Line struct {
	Label string `json:"label"`
	Text  string `json:"text"`
}

func (v Visit) written() reading.Written {
	w := reading.Written{Site: v["site"], Date: v["date"]}
	for _, f := range w.Fields() {
		*f.Text = v[f.Name]
	}
	return w
}

// judge judges a reading. An entry that is wrong is an error that begins with
// its name.
func judge(v Visit) (Reply, error) {
	w := v.written()
	key := ""
	visit, cooler, err := w.Parse(func(field string, err error) error { key = field; return err })
	if err != nil {
		return Reply{}, keyed{key, err}
	}
	r, err := reading.Judge(visit, cooler)
	if err != nil {
		return Reply{}, err
	}
	j := Judged{Verdict: string(r.Verdict), Meaning: r.Verdict.Meaning()}
	for _, l := range r.Lines(w.Units()) {
		if l.Label != "verdict" {
			j.Lines = append(j.Lines, Line{l.Label, l.Text})
		}
	}
	return Reply{Value: j}, nil
}

// keyed is an error about one entry.
type keyed struct {
	key string
	error
}

func (k keyed) Unwrap() error { return k.error }

// readingsFile is a table of readings that reading --csv takes.
func readingsFile(v Visits) (Reply, error) {
	rows := make([]reading.Written, 0, len(v.Rows))
	for _, r := range v.Rows {
		rows = append(rows, r.written())
	}
	var b bytes.Buffer
	if err := gocsv.Marshal(rows, &b); err != nil {
		return Reply{}, fmt.Errorf("the table of readings: %w", err)
	}
	return Reply{Value: map[string]string{"name": "readings.csv"}, File: b.Bytes()}, nil
}
