package cli

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/gocarina/gocsv"

	"github.com/evapbook/evapbook/internal/csvcell"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/plaintext"
	"github.com/evapbook/evapbook/internal/reading"
	"github.com/evapbook/evapbook/internal/units"
)

// judgedRow is a row of the answer. Temperatures are in the unit named.
type judgedRow struct {
	Site          string `csv:"site"`
	Date          string `csv:"date"`
	Unit          string `csv:"unit"`
	Outdoor       string `csv:"outdoor"`
	WetBulb       string `csv:"wet_bulb"`
	Supply        string `csv:"supply"`
	Effectiveness string `csv:"effectiveness"`
	Low           string `csv:"effectiveness_low"`
	High          string `csv:"effectiveness_high"`
	Expected      string `csv:"expected_supply"`
	Gap           string `csv:"gap"`
	Verdict       string `csv:"verdict"`
	Cause         string `csv:"likeliest_cause"`
	Note          string `csv:"note"`
}

// batch judges a table of visits. Rows that cannot be read are all named, and
// then nothing is written.
func (o *readingOptions) batch() error {
	if o.output != "" {
		if err := checkOutputs([]output{{path: o.output, ending: ".csv"}}, o.force, o.csv); err != nil {
			return err
		}
	}
	t, err := o.readVisits()
	if err != nil {
		return err
	}
	judged, err := t.judge(&o.Written)
	if err != nil {
		return err
	}
	write := func(w io.Writer) error { return csvcell.Marshal(judged, w, o.raw) }
	if o.output == "" {
		return write(o.out)
	}
	return writer{force: o.force, standard: o.out}.file(o.output, write)
}

// visitTable is a CSV file with the place of each of its cells. It is the
// CSVReader that gocsv is given.
type visitTable struct {
	name  string
	csv   *csv.Reader
	heads []string
	lines [][]int // of each cell of the rows after the headings
	rows  []reading.Written
}

func (o *readingOptions) readVisits() (*visitTable, error) {
	in, name := o.in, "standard input"
	if o.csv != standard {
		f, err := openInput(o.csv, largestVisits)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in, name = f, o.csv
	}
	raw, err := readAll(in, name, largestVisits)
	if err != nil {
		return nil, err
	}
	text, _, err := plaintext.UTF8(raw)
	if err != nil {
		return nil, hint.With(fmt.Errorf("%s: %w", name, err), "save it as UTF-8")
	}
	return readVisits(text, name)
}

// largestVisits is the largest table of visits, in bytes: some hundred thousand.
const largestVisits = 16 << 20

func readVisits(text []byte, name string) (*visitTable, error) {
	t := &visitTable{name: name, csv: csv.NewReader(bytes.NewReader(text))}
	t.csv.TrimLeadingSpace = true
	t.csv.Comma = separator(text)
	if err := gocsv.UnmarshalCSV(t, &t.rows); err != nil {
		return nil, t.explain(err)
	}
	if len(t.rows) == 0 {
		return nil, t.explain(gocsv.ErrEmptyCSVFile)
	}
	return t, nil
}

// separator is what stands between the cells: where spreadsheet programs write
// decimal commas it is a semicolon; a table copied from one has tabs.
func separator(text []byte) rune {
	headings, _, _ := bytes.Cut(text, []byte("\n"))
	for _, r := range ";\t" {
		if bytes.ContainsRune(headings, r) && !bytes.ContainsRune(headings, ',') {
			return r
		}
	}
	return ','
}

// explain says an error of reading CSV with its place.
func (t *visitTable) explain(err error) error {
	var pe *csv.ParseError
	switch {
	case errors.Is(err, gocsv.ErrEmptyCSVFile):
		return hint.With(fmt.Errorf("%s: no rows", t.name), "the first line names the columns, such as site,altitude,outdoor,rh,supply")
	case errors.As(err, &pe) && errors.Is(pe.Err, csv.ErrFieldCount):
		return hint.With(fmt.Errorf("%s:%d:1: the row has not as many cells as the %d headings", t.name, pe.Line, len(t.heads)), "put text with commas in double quotes")
	case errors.As(err, &pe):
		return fmt.Errorf("%s:%d:%d: %w", t.name, pe.Line, pe.Column, pe.Err)
	default:
		return fmt.Errorf("%s: %w", t.name, err)
	}
}

// ReadAll implements gocsv.CSVReader. It checks the headings, so that a
// misspelt one does not pass for an empty column.
func (t *visitTable) ReadAll() ([][]string, error) {
	var all [][]string
	for {
		row, err := t.Read()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		all = append(all, row)
	}
}

// Read implements gocsv.CSVReader.
func (t *visitTable) Read() ([]string, error) {
	row, err := t.csv.Read()
	if err != nil {
		return nil, err
	}
	for t.heads != nil && strings.Join(row, "") == "" { // spreadsheet programs write them below a table
		if row, err = t.csv.Read(); err != nil {
			return nil, err
		}
	}
	if t.heads != nil {
		lines := make([]int, len(row))
		for i := range lines {
			lines[i], _ = t.csv.FieldPos(i)
		}
		t.lines = append(t.lines, lines)
		return row, nil
	}
	for i, h := range row {
		row[i] = columnName(h)
		if at := slices.Index(row[:i], row[i]); row[i] != "" && at >= 0 {
			return nil, &csv.ParseError{Line: 1, Column: i + 1, Err: hint.With(fmt.Errorf("column %s is there already, as column %d", row[i], at+1), "keep one of the two")}
		}
		if row[i] != "" && !slices.Contains(visitColumns(), row[i]) {
			return nil, &csv.ParseError{Line: 1, Column: i + 1, Err: hint.With(fmt.Errorf("no column is called %q", h), "columns are site, date, note and those named like the flags, such as wet_bulb")}
		}
	}
	t.heads = row
	return row, nil
}

// columnName is a heading as columns are named: wet_bulb for "Wet bulb" too.
func columnName(heading string) string {
	name := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(heading, "\ufeff")))
	return strings.NewReplacer("-", "_", " ", "_").Replace(name)
}

// visitColumns are the names of the columns a table of visits may have; note is
// for people.
func visitColumns() []string {
	all := []string{"site", "date"}
	for _, f := range new(reading.Written).Fields() {
		all = append(all, f.Name)
	}
	return append(all, "note")
}

// judge judges every row; the mistakes of all are reported together.
func (t *visitTable) judge(defaults *reading.Written) ([]judgedRow, error) {
	const most = 5 // a screen must not be filled by one wrong column
	var judged []judgedRow
	var mistakes []error
	for i := range t.rows {
		row := &t.rows[i]
		row.Fill(defaults)
		v, c, err := row.Parse(func(field string, err error) error { return t.at(i, field, err) })
		var r *reading.Result
		if err == nil {
			if r, err = reading.Judge(v, c); err != nil {
				err = t.at(i, "", err)
			}
		}
		if err != nil {
			mistakes = append(mistakes, err)
			continue
		}
		judged = append(judged, judgedOf(row, r))
	}
	if n := len(mistakes); n > 0 {
		if n > most {
			mistakes = append(mistakes[:most], fmt.Errorf("and %d more", n-most))
		}
		return nil, errors.Join(mistakes...)
	}
	return judged, nil
}

// at puts file, line and column before an error of a cell; the column is that
// of a spreadsheet, counted from 1.
func (t *visitTable) at(row int, field string, err error) error {
	if i := slices.Index(t.heads, field); i >= 0 {
		return fmt.Errorf("%s:%d:%d: column %s: %w", t.name, t.lines[row][i], i+1, field, err)
	}
	if field != "" {
		err = fmt.Errorf("no column %s: %w", field, err)
	}
	return fmt.Errorf("%s:%d:1: %w", t.name, t.lines[row][0], err)
}

func judgedOf(row *reading.Written, r *reading.Result) judgedRow {
	u := units.Temperature.Unit(row.Units().Temperature)
	temp := func(c float64) string { return cell(u.FromSI(c), 1) }
	j := judgedRow{
		Site: row.Site, Date: row.Date, Unit: strings.TrimPrefix(u.Symbol, "°"),
		Outdoor: temp(r.Visit.Outdoor), WetBulb: temp(r.WetBulb), Supply: temp(r.Visit.Supply),
		Effectiveness: cell(r.Effectiveness.Value, 2), Low: cell(r.Effectiveness.Low, 2), High: cell(r.Effectiveness.High, 2),
		Expected: temp(r.Expected), Gap: cell(r.Gap.Value*u.Scale, 1), Verdict: string(r.Verdict), Note: strings.Join(r.NotesIn(row.Units().Temperature), "; "),
	}
	if len(r.Causes) > 0 {
		j.Cause = r.Causes[0].What
	}
	return j
}

// cell writes a number; nothing where there is none.
func cell(v float64, decimals int) string {
	if v != v {
		return ""
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}
