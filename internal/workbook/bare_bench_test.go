package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/flate"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/workbook/alternatives"
	"github.com/evapbook/evapbook/internal/workbook/costs"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
	"github.com/evapbook/evapbook/internal/xlsx"
	"github.com/evapbook/evapbook/internal/xlsx/rowflate"
)

// A bare writer, for BenchmarkWrite: the cells of a finished workbook, held in
// memory, as XML into the packer of internal/xlsx and nothing else. No styles, charts or names, no
// formula filled in, nothing computed: what no writer of these cells can leave
// out. Its rows are those of the workbook byte for byte (bareOf checks).

// bareChunk is how much is handed to the compressor at once, as in internal/xlsx.
const bareChunk = 1 << 18

type bareSheet struct {
	name string // of the part
	rows []bareRow
}

type bareRow struct {
	number int
	attrs  string // after the number, such as the height
	cells  []bareCell
}

// bareCell is a cell in the file's terms. Numbers are held as such and text
// without escapes, so that both are formatted while the clock runs.
type bareCell struct {
	letters string
	style   int    // 0 is none
	kind    string // t of the cell: "", "b", "str", "inlineStr"
	empty   bool
	f       string // the tag <f ...>, "" without a formula
	formula string // "" in the followers of a shared one
	num     float64
	digits  int    // of a cached result; -1 for the shortest exact form
	text    string // of kinds str and inlineStr
	t       string // the tag <t ...>, of kind inlineStr
}

var bareParts = regexp.MustCompile(`^xl/worksheets/sheet\d+\.xml$`)

// bareOf takes the cells out of a finished workbook. It fails where the bare
// writer would not write the same rows, or not compress them as the workbook is.
func bareOf(b *testing.B, file []byte) []bareSheet {
	b.Helper()
	var sheets []bareSheet
	rows := map[string]string{}
	packed := map[string]uint64{}
	for _, f := range sheetParts(b, file) {
		packed[f.Name] = f.CompressedSize64
		rows[f.Name] = rowsOf(b, f)
		sheets = append(sheets, bareSheet{f.Name, parseRows(b, rows[f.Name])})
	}
	require.Greater(b, len(sheets), 20)
	var again bytes.Buffer
	require.NoError(b, writeBare(&again, sheets, false))
	for _, f := range sheetParts(b, again.Bytes()) {
		require.True(b, rows[f.Name] == rowsOf(b, f), "%s: the bare writer writes other cells", f.Name)
		if packed[f.Name] > 1<<20 { // what else is in a small part weighs too much
			// 0.2 %: level 7 makes 1 % less, level 3 makes 18 % more; see internal/xlsx.
			require.InEpsilon(b, packed[f.Name], f.CompressedSize64, 0.002, "%s: compressed size", f.Name)
		}
	}
	return sheets
}

func sheetParts(b *testing.B, file []byte) (parts []*zip.File) {
	b.Helper()
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(b, err)
	for _, f := range z.File {
		if bareParts.MatchString(f.Name) {
			parts = append(parts, f)
		}
	}
	return parts
}

// rowsOf is the content of <sheetData>.
func rowsOf(b *testing.B, f *zip.File) string {
	b.Helper()
	r, err := f.Open()
	require.NoError(b, err)
	all, err := io.ReadAll(r)
	require.NoError(b, err)
	return inside(string(all), "<sheetData>", "</sheetData>")
}

// parseRows reads what internal/xlsx writes, not any sheet there may be.
func parseRows(b *testing.B, data string) []bareRow {
	b.Helper()
	var rows []bareRow
	for data != "" {
		var row, tag string
		row, data, _ = strings.Cut(data, "</row>")
		tag, row, _ = strings.Cut(row, ">")
		number, attrs, _ := strings.Cut(strings.TrimPrefix(tag, `<row r="`), `"`)
		n, err := strconv.Atoi(number)
		require.NoError(b, err)
		r := bareRow{number: n, attrs: attrs}
		for row != "" {
			var c, body string
			c, row, _ = strings.Cut(row, ">")
			if !strings.HasSuffix(c, "/") {
				body, row, _ = strings.Cut(row, "</c>")
			}
			r.cells = append(r.cells, parseBare(b, c, body))
		}
		rows = append(rows, r)
	}
	return rows
}

var unescapeBare = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&")

// parseBare reads one cell: its tag without the end and what is inside.
func parseBare(b *testing.B, tag, body string) bareCell {
	b.Helper()
	ref, attrs, _ := strings.Cut(strings.TrimPrefix(tag, `<c r="`), `"`)
	c := bareCell{letters: strings.TrimRight(ref, "0123456789"), kind: inside(attrs, ` t="`, `"`), empty: body == "", digits: -1}
	c.style, _ = strconv.Atoi(inside(attrs, ` s="`, `"`))
	if strings.HasPrefix(body, "<f") {
		end := strings.IndexByte(body, '>') + 1
		c.f, body = body[:end], body[end:]
		if !strings.HasSuffix(c.f, "/>") {
			var f string
			f, body, _ = strings.Cut(body, "</f>")
			c.formula = unescapeBare.Replace(f)
		}
	}
	switch value := inside(body, "<v>", "</v>"); c.kind {
	case "str":
		c.text = unescapeBare.Replace(value)
	case "inlineStr":
		c.t = "<t" + inside(body, "<is><t", ">") + ">"
		c.text = unescapeBare.Replace(inside(body, c.t, "</t>"))
	default:
		if c.empty {
			break
		}
		var err error
		c.num, err = strconv.ParseFloat(value, 64)
		require.NoError(b, err, ref)
		if c.f != "" && strconv.FormatFloat(c.num, 'g', 15, 64) == value {
			c.digits = 15
		}
	}
	return c
}

func inside(s, from, to string) string {
	_, s, ok := strings.Cut(s, from)
	if !ok {
		return ""
	}
	s, _, _ = strings.Cut(s, to)
	return s
}

// writeBare writes the sheets as a zip archive. With piped, formatting runs
// beside compressing, as in internal/xlsx; otherwise all is one thread.
func writeBare(w io.Writer, sheets []bareSheet, piped bool) error {
	z := zip.NewWriter(w)
	many := false
	z.RegisterCompressor(zip.Deflate, func(out io.Writer) (io.WriteCloser, error) {
		if many {
			return rowflate.NewWriter(out), nil
		}
		return flate.NewWriter(out, 6)
	})
	for i := range sheets {
		many = len(sheets[i].rows) > 8000
		out, err := z.Create(sheets[i].name)
		if err != nil {
			return err
		}
		if !piped {
			err = sheets[i].write(out)
		} else {
			r, pipe := io.Pipe()
			go func() { pipe.CloseWithError(sheets[i].write(pipe)) }()
			_, err = io.CopyBuffer(out, r, make([]byte, bareChunk+1<<16))
			r.CloseWithError(err) // lets the formatting end
		}
		if err != nil {
			return err
		}
	}
	return z.Close()
}

func (s *bareSheet) write(out io.Writer) error {
	b := make([]byte, 0, bareChunk+1<<16)
	b = append(b, "<worksheet><sheetData>"...)
	for i := range s.rows {
		b = s.rows[i].append(b)
		if len(b) >= bareChunk {
			if _, err := out.Write(b); err != nil {
				return err
			}
			b = b[:0]
		}
	}
	_, err := out.Write(append(b, "</sheetData></worksheet>"...))
	return err
}

func (r *bareRow) append(b []byte) []byte {
	var digits [8]byte
	row := strconv.AppendInt(digits[:0], int64(r.number), 10)
	b = append(append(append(b, `<row r="`...), row...), '"')
	b = append(append(b, r.attrs...), '>')
	for i := range r.cells {
		b = r.cells[i].append(b, row)
	}
	return append(b, "</row>"...)
}

func (c *bareCell) append(b, row []byte) []byte {
	b = append(append(append(b, `<c r="`...), c.letters...), row...)
	if c.style != 0 {
		b = strconv.AppendInt(append(b, `" s="`...), int64(c.style), 10)
	}
	if c.empty {
		return append(b, `"/>`...)
	}
	if c.kind != "" {
		b = append(append(b, `" t="`...), c.kind...)
	}
	b = append(append(b, `">`...), c.f...)
	if c.formula != "" {
		b = append(appendBareText(b, c.formula), "</f>"...)
	}
	switch c.kind {
	case "inlineStr":
		b = append(append(b, "<is>"...), c.t...)
		return append(appendBareText(b, c.text), "</t></is></c>"...)
	case "str":
		b = appendBareText(append(b, "<v>"...), c.text)
	default:
		b = c.appendNumber(append(b, "<v>"...))
	}
	return append(b, "</v></c>"...)
}

func (c *bareCell) appendNumber(b []byte) []byte {
	if i := int64(c.num); math.Abs(c.num) < 1e12 && float64(i) == c.num {
		return strconv.AppendInt(b, i, 10)
	}
	return strconv.AppendFloat(b, c.num, 'g', c.digits, 64)
}

func appendBareText(b []byte, s string) []byte {
	for {
		i := strings.IndexAny(s, "&<>")
		if i < 0 {
			return append(b, s...)
		}
		b = append(b, s[:i]...)
		switch s[i] {
		case '&':
			b = append(b, "&amp;"...)
		case '<':
			b = append(b, "&lt;"...)
		default:
			b = append(b, "&gt;"...)
		}
		s = s[i+1:]
	}
}

// computeVariants does what Write does for the figures that no formula gives:
// some hundred other houses and coolers carried through the year.
func computeVariants(c *figures.Case) error {
	for _, lay := range []func(*figures.Case, *sheet.Page) error{costs.Money, alternatives.Whatif} {
		p := &sheet.Page{Sheet: (&xlsx.Book{}).AddSheet("any")}
		p.Title("", "", "", "")
		if err := lay(c, p); err != nil {
			return err
		}
	}
	return nil
}

// benchmarkBeside does everything in turn, so that a change in what else the
// machine does falls on all alike, and reports how they compare.
func benchmarkBeside(b *testing.B, c *figures.Case, sheets []bareSheet) {
	var full, bare, piped, variants time.Duration
	timed := func(sum *time.Duration, f func() error) {
		from := time.Now()
		require.NoError(b, f())
		*sum += time.Since(from)
	}
	for b.Loop() {
		timed(&full, func() error { return Write(io.Discard, c) })
		timed(&bare, func() error { return writeBare(io.Discard, sheets, false) })
		timed(&piped, func() error { return writeBare(io.Discard, sheets, true) })
		timed(&variants, func() error { return computeVariants(c) })
	}
	b.ReportMetric(0, "ns/op") // the sum of all four says nothing
	b.ReportMetric(full.Seconds()*1000/float64(b.N), "full-ms")
	b.ReportMetric(bare.Seconds()*1000/float64(b.N), "bare-ms")
	b.ReportMetric(full.Seconds()/bare.Seconds(), "full/bare")
	b.ReportMetric(full.Seconds()/piped.Seconds(), "full/piped")
	b.ReportMetric(variants.Seconds()/full.Seconds(), "whatif/full")
}
