package weather

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// table holds the wanted columns of a file as text. It is the CSVReader that
// gocsv is given: the first record it delivers are the keys, in file order.
type table struct {
	scan     *scanner
	layout   *layout
	headings []string // all of the file
	picked   []pick
	keys     []string
	rows     [][]string
	lines    []int // file line on which each row starts
	served   int   // records already given to gocsv by Read

	stationAt int      // field that names the station, -1 if none
	stations  []string // those seen

	sourceAt int    // field that says where the dry bulb is from, -1 if none
	sources  []byte // its first sign, by row
	rejected int    // values that the field behind them calls wrong

	wrong flaws // cells and rows that cannot be read
}

// pick is a wanted column found in the file.
type pick struct {
	key     string
	heading string // as the file prints it
	index   int    // 0-based field number in the file
	unit    unit
	missing []float64
	wrong   string // as in column
}

// pick finds the wanted columns among the headings and names every missing one
// at once.
func (l *layout) pick(s *scanner, headings []string, line int) (*table, error) {
	t := &table{scan: s, layout: l, headings: headings, sourceAt: -1, stationAt: stationColumn(headings)}
	if s.doc.station != "" && t.stationAt < 0 {
		return nil, &Error{File: s.name, Line: line, Text: "has no column of stations to look for " + clip(s.doc.station, 40) + " in", Hint: "leave --station out"}
	}
	if l.source != "" {
		t.sourceAt = slices.Index(headings, l.source)
	}
	var missing []string
	humidity := false
	for _, c := range l.columns {
		p, twice := c.find(headings)
		switch {
		case twice:
			return nil, &Error{File: s.name, Line: line, Column: p.index + 1, Heading: p.heading, Text: "the heading occurs twice", Hint: "delete or rename one of the two columns"}
		case p.index >= 0:
			p.wrong = c.wrong
			p.missing = slices.Concat(l.missing, c.missing, s.doc.missing)
			t.picked = append(t.picked, p)
			humidity = humidity || isHumidity(c.key)
		case c.need:
			missing = append(missing, c.names())
		}
	}
	if !humidity {
		missing = append(missing, l.humidityNames())
	}
	if len(missing) > 0 {
		return nil, &Error{File: s.name, Line: line, Text: "missing " + strings.Join(missing, " and "), Hint: "headings seen: " + clip(strings.Join(headings, ", "), 400)}
	}
	slices.SortFunc(t.picked, func(a, b pick) int { return a.index - b.index })
	for _, p := range t.picked {
		t.keys = append(t.keys, p.key)
	}
	return t, nil
}

// find looks for a column by any of its headings; case and blanks around do
// not count. The index is -1 where none is there.
func (c *column) find(headings []string) (p pick, twice bool) {
	for _, want := range c.headings {
		found := -1
		for i, h := range headings {
			if !strings.EqualFold(strings.TrimSpace(h), want.name) {
				continue
			}
			if found >= 0 && !c.repeats {
				return pick{key: c.key, heading: h, index: i}, true
			}
			if found < 0 {
				found = i
			}
		}
		if found >= 0 {
			return pick{key: c.key, heading: headings[found], index: found, unit: want.unit}, false
		}
	}
	return pick{index: -1}, false
}

func (c *column) names() string {
	names := make([]string, len(c.headings))
	for i, h := range c.headings {
		names[i] = fmt.Sprintf("%q", h.name)
	}
	return "column " + strings.Join(names, " or ")
}

func isHumidity(key string) bool {
	return key == quantityKeys[relHum] || key == quantityKeys[dewPoint] || key == quantityKeys[wetBulb]
}

func (l *layout) humidityNames() string {
	var all column
	for _, c := range l.columns {
		if isHumidity(c.key) {
			all.headings = append(all.headings, c.headings...)
		}
	}
	return "a humidity column (" + strings.TrimPrefix(all.names(), "column ") + ")"
}

// load cuts the next rows of the file, up to limit, down to the wanted columns;
// more is false at the end of the table.
func (t *table) load(limit int) (more bool, err error) {
	t.rows, t.lines, t.sources, t.served = t.rows[:0], t.lines[:0], t.sources[:0], 0
	k := len(t.picked)
	last := max(t.picked[k-1].index, t.sourceAt, t.stationAt)
	if t.picked[k-1].wrong != "" {
		last++
	}
	t.scan.enough = last + 1
	if t.layout.strict {
		t.scan.enough = 0
	}
	var cells []string // one backing array for a block of rows
	for len(t.rows) < limit {
		fields, line, ok, err := t.scan.next()
		if err != nil {
			return false, err
		}
		if !ok || t.layout.end != nil && t.layout.end(fields) {
			return false, nil
		}
		if e := t.misfit(fields, line, last); e != nil {
			t.wrong.add(e)
			continue
		}
		if t.stationAt >= 0 && !t.wanted(fields[t.stationAt]) {
			continue
		}
		if len(cells) < k {
			cells = make([]string, 1024*k)
		}
		row := cells[:k:k]
		cells = cells[k:]
		for j := range t.picked {
			row[j] = fields[t.picked[j].index]
			if w := t.picked[j].wrong; w != "" && strings.Contains(w, fields[t.picked[j].index+1]) {
				row[j] = ""
				t.rejected++
			}
			if t.layout.clean != nil {
				row[j] = t.layout.clean(t.picked[j].key, row[j])
			}
		}
		if t.sourceAt >= 0 {
			t.sources = append(t.sources, firstSign(fields[t.sourceAt]))
		}
		t.rows = append(t.rows, row)
		t.lines = append(t.lines, line)
	}
	return true, nil
}

// misfit says of a row that has not the columns of the headings what is wrong.
func (t *table) misfit(fields []string, line, last int) *Error {
	switch n := len(fields); {
	case n <= last:
		return &Error{File: t.scan.name, Line: line, Text: fmt.Sprintf("the row has %d columns, the headings need %d", n, last+1), Hint: "the file may be cut short, or a cell holds the separator without quotes"}
	case t.layout.strict && n > len(t.headings) && !blank(fields[len(t.headings):]):
		return &Error{File: t.scan.name, Line: line, Text: fmt.Sprintf("the row has %d columns, the headings are %d", n, len(t.headings)), Hint: "decimal commas in a file separated by commas? save it with decimal points, or with semicolons"}
	}
	return nil
}

// firstSign is the first byte of a cell, 0 for an empty one.
func firstSign(cell string) byte {
	if cell == "" {
		return 0
	}
	return cell[0]
}

// ReadAll implements gocsv.CSVReader.
func (t *table) ReadAll() ([][]string, error) {
	return append([][]string{t.keys}, t.rows...), nil
}

// Read implements gocsv.CSVReader.
func (t *table) Read() ([]string, error) {
	t.served++
	switch {
	case t.served == 1:
		return t.keys, nil
	case t.served-2 < len(t.rows):
		return t.rows[t.served-2], nil
	}
	return nil, io.EOF
}

// position is where a key stands among the picked columns, -1 if absent.
func (t *table) position(key string) int {
	return slices.Index(t.keys, key)
}

// errorAt places a flaw of one cell; p is the position among picked columns.
func (t *table) errorAt(row, p int, text, hint string) *Error {
	e := &Error{File: t.scan.name, Text: text, Hint: hint}
	if row >= 0 && row < len(t.lines) {
		e.Line = t.lines[row]
	}
	if p >= 0 && p < len(t.picked) {
		e.Column = t.picked[p].index + 1
		e.Heading = t.picked[p].heading
	}
	return e
}

// impossible is a value, in SI, outside the physical limits.
func (t *table) impossible(row int, q quantity, v float64) outlier {
	p := t.position(quantityKeys[q])
	l := limits[q]
	hint := "correct the cell, or leave it empty if nothing was measured"
	if m := t.picked[p].missing; len(m) > 0 {
		hint = fmt.Sprintf("correct the cell, or write the missing code %g if nothing was measured", m[0])
	}
	text := fmt.Sprintf("%s is not a possible %s (%.6g to %.6g %s)", strings.TrimSpace(t.rows[row][p]), l.name, l.lo*l.scale, l.hi*l.scale, l.si)
	return outlier{q, t.errorAt(row, p, text, hint), v * l.scale}
}
