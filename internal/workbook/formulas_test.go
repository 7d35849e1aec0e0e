package workbook

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// volatile functions are worked out anew whatever has changed; a workbook of
// 800,000 formulas must not hang on one. Source: the vendor's list for Excel.
var volatile = map[string]bool{"OFFSET": true, "INDIRECT": true, "NOW": true, "TODAY": true, "RAND": true, "RANDBETWEEN": true, "CELL": true, "INFO": true}

var (
	quoted   = regexp.MustCompile(`"(?:[^"]|"")*"`)
	calls    = regexp.MustCompile(`([A-Za-z_][A-Za-z0-9_.]*)\(`)
	cellRefs = regexp.MustCompile(`(?:([A-Za-z_]\w*|'[^']+')!)?\$?\b([A-Z]{1,3})\$?([0-9]+)(?::\$?([A-Z]{1,3})\$?([0-9]+))?\b`)
	whole    = regexp.MustCompile(`(?:^|[^A-Za-z0-9_$])\$?[A-Z]{1,3}:\$?[A-Z]{1,3}(?:[^A-Za-z0-9_(]|$)|(?:^|[^A-Za-z0-9_$])\$?[0-9]+:\$?[0-9]+`)
	literal  = regexp.MustCompile(`[0-9]*\.?[0-9]+(?:E[+-]?[0-9]+)?`)
)

// formulaRules checks formulas one by one against the cells of their book.
type formulaRules struct {
	filled map[string]map[officetest.Ref]bool // cells with something in them, by sheet
	seen   map[string]string                  // ranges already looked at: what is wrong with them
	never  map[float64]string                 // numbers that are inputs
}

func newFormulaRules(b *officetest.Book) *formulaRules {
	r := &formulaRules{filled: map[string]map[officetest.Ref]bool{}, seen: map[string]string{}, never: inputNumbers()}
	for _, s := range b.Sheets {
		cells := map[officetest.Ref]bool{}
		for _, c := range s.Cells {
			if c.HasFormula || c.Value != nil {
				cells[c.Ref] = true
			}
		}
		r.filled[s.Name] = cells
	}
	return r
}

// inputNumbers are the declared defaults as SI and as shown, where the number
// is one that nothing else in the trade is likely to be: four digits or more.
// The others are left to TestEveryInputMovesTheBook.
func inputNumbers() map[float64]string {
	all := map[float64]string{}
	for _, in := range job.Inputs() {
		if in.Default == "" || !in.Numeric() {
			continue
		}
		v, err := units.Parse(in.Kind, in.Default)
		if err != nil {
			panic(err)
		}
		for _, sys := range units.Systems {
			x := in.Kind.Unit(sys).FromSI(v)
			if digits := strings.Trim(strings.ReplaceAll(strconv.FormatFloat(x, 'f', -1, 64), ".", ""), "0"); len(digits) >= 4 {
				all[x] = in.Key
			}
		}
	}
	return all
}

// faults of one formula on a sheet.
func (r *formulaRules) faults(sheet, formula string) (out []string) {
	f := quoted.ReplaceAllString(formula, `""`)
	for _, m := range calls.FindAllStringSubmatch(f, -1) {
		if !xlsx.AllowedFunctions[m[1]] {
			out = append(out, m[1]+" is not an allowed function")
		}
		if volatile[m[1]] {
			out = append(out, m[1]+" is volatile")
		}
	}
	if m := whole.FindString(f); m != "" {
		out = append(out, "whole column or row "+m)
	}
	f = calls.ReplaceAllString(f, "(") // LOG10( is no cell
	for _, m := range cellRefs.FindAllStringSubmatch(f, -1) {
		if fault := r.reference(sheet, m); fault != "" {
			out = append(out, fault)
		}
	}
	for _, n := range literal.FindAllString(cellRefs.ReplaceAllString(f, ""), -1) {
		v, err := strconv.ParseFloat(n, 64)
		if key := r.never[v]; err == nil && key != "" {
			out = append(out, n+" is the default of "+key)
		}
	}
	return out
}

// reference says what is wrong with a reference: a cell of it is empty.
func (r *formulaRules) reference(sheet string, m []string) string {
	if m[1] != "" {
		sheet = strings.Trim(m[1], "'")
	}
	key := sheet + "!" + m[2] + m[3] + ":" + m[4] + m[5]
	if fault, known := r.seen[key]; known {
		return fault
	}
	first, err := officetest.ParseRef(m[2] + m[3])
	last := first
	if err == nil && m[4] != "" {
		last, err = officetest.ParseRef(m[4] + m[5])
	}
	fault := ""
	cells, ok := r.filled[sheet]
	switch {
	case err != nil:
		fault = m[0] + ": " + err.Error()
	case !ok:
		fault = m[0] + ": no such sheet"
	}
	for row := first.Row; row <= last.Row && fault == ""; row++ {
		for col := first.Col; col <= last.Col; col++ {
			if ref := (officetest.Ref{Row: row, Col: col}); !cells[ref] && !mayBeEmpty(sheet, ref) {
				fault = fmt.Sprintf("%s: %s!%s is empty", m[0], sheet, ref)
				break
			}
		}
	}
	r.seen[key] = fault
	return fault
}

// mayBeEmpty: an input of text that nobody has given, and the gaps between the
// groups of inputs.
func mayBeEmpty(sheet string, ref officetest.Ref) bool {
	const value, since = 2, 6 // columns of the sheet
	return sheet == "Inputs" && (ref.Col == value || ref.Col == since)
}

// Every formula of the file keeps to the functions all programs share, is not
// volatile, refers to no whole column and no empty cell, and holds no number
// that is an input. Of formulas shared by rows the first is looked at.
func TestFormulaRules(t *testing.T) {
	for _, k := range bookKinds[:3] {
		b := readBook(t, writeBook(t, k.compute(t, july)))
		r := newFormulaRules(b)
		formulas := 0
		for _, s := range b.Sheets {
			shown := 0
			for _, cell := range s.Cells {
				if cell.Formula == "" {
					continue
				}
				formulas++
				for _, fault := range r.faults(s.Name, cell.Formula) {
					if shown++; shown <= 5 {
						t.Errorf("%s!%s: %s in =%.200s", s.Name, cell.Ref, fault, cell.Formula)
					}
				}
			}
		}
		t.Logf("%s: %d formulas written out, %d different ranges", k.name, formulas, len(r.seen))
		require.Greater(t, formulas, 10_000)
	}
}

// The rules catch what they are for.
func TestFormulaRulesCatch(t *testing.T) {
	r := &formulaRules{seen: map[string]string{}, never: inputNumbers(),
		filled: map[string]map[officetest.Ref]bool{"A": {{Row: 1, Col: 1}: true, {Row: 2, Col: 1}: true}, "Working": {}}}
	for formula, want := range map[string]string{
		"SUM(A1:A2)*2":        "",
		`IF(A1="B7:B9","",1)`: "",
		"LOG10(A1)":           "",
		"XLOOKUP(A1,A2,A1)":   "not an allowed function",
		"_xlfn.MAXIFS(A1,A2)": "not an allowed function",
		"OFFSET(A1,1,0)":      "volatile",
		"NOW()":               "volatile",
		"SUM(A:A)":            "whole column",
		"SUM($A:$B)":          "whole column",
		"SUM(1:3)":            "whole column",
		"SUM(A1:A3)":          "A!A3 is empty",
		"Working!$B$9+1":      "Working!B9 is empty",
		"Gone!A1":             "no such sheet",
		"A1*0.3934":           "default of plant.co2",
	} {
		got := strings.Join(r.faults("A", formula), "; ")
		if want == "" {
			assert.Empty(t, got, formula)
		} else {
			assert.Contains(t, got, want, formula)
		}
	}
}
