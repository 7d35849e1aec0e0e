package xlsx

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// grids is a plan with an hourly grid on its own sheet, and a sheet with two.
func grids(t *testing.T) *plan {
	t.Helper()
	column := func(key string) GridColumn { return GridColumn{Key: key, Value: func(i int) any { return i }} }
	hours := &Grid{Row: 9, Col: 3, Rows: 8760, Columns: []GridColumn{column("t"), column("w"), column("far")}}
	days := &Grid{Name: "Days", Row: 5, Col: 1, Rows: 365, Columns: []GridColumn{column("tmax")}}
	months := &Grid{Name: "Months", Row: 5, Col: 27, Rows: 12, Columns: []GridColumn{column("sum")}}
	b := &Book{Sheets: []*Sheet{{Name: "Hours", Grids: []*Grid{hours}}, {Name: "Long", Grids: []*Grid{days, months}}}}
	p, err := b.plan()
	require.NoError(t, err)
	return p
}

func TestReferences(t *testing.T) {
	p := grids(t)
	hours, long := p.book.Sheets[0], p.book.Sheets[1]
	inHours := scope{sheet: hours, grid: hours.Grids[0], column: 2}
	inDays := scope{sheet: long, grid: long.Grids[0], column: 0}
	for _, c := range []struct {
		name, formula string
		scope         scope
		row           int
		want          string
	}{
		{"same row", "[t]+1", inHours, 0, "C9+1"},
		{"last row", "[t]+[w]", inHours, 8759, "C8768+D8768"},
		{"row before", "[w@-1]", inHours, 1, "D9"},
		{"row after", "[t@+2]", inHours, 0, "C11"},
		{"other sheet, same row", "[Hours.t]", inDays, 3, "Hours!C12"},
		{"other sheet, row before", "[Hours.t@-1]", inDays, 3, "Hours!C11"},
		{"own grid by its name", "[Hours.t]", inHours, 1, "C10"},
		{"grid names without capitals", "[HOURS.t]", inHours, 1, "C10"},
		{"whole column elsewhere", "SUM([Hours.t:])", inDays, 9, "SUM(Hours!$C$9:$C$8768)"},
		{"whole column here", "SUM([t:])", inHours, 9, "SUM($C$9:$C$8768)"},
		{"other grid of the sheet", "MAX([Months.sum:])", inDays, 0, "MAX($AA$5:$AA$16)"},
		{"one row", "[Hours.w#0]", inDays, 5, "Hours!$D$9"},
		{"last row by number", "[w#-1]", inHours, 5, "$D$8768"},
		{"some rows", "[Hours.w#24:47]", inDays, 5, "Hours!$D$33:$D$56"},
		{"running sum", "SUM([t#0]:[t])", inHours, 4, "SUM($C$9:C13)"},
		{"brackets in a text", `COUNTIF([t],"[h]:mm ""[x]""")`, inHours, 0, `COUNTIF(C9,"[h]:mm ""[x]""")`},
		{"ordinary cell", "[Hours.t:]", scope{sheet: long}, 0, "Hours!$C$9:$C$8768"},
		{"ordinary cell, only grid", "[t:]", scope{sheet: hours}, 0, "$C$9:$C$8768"},
		{"sheet always named", "[Hours.t:]", scope{sheet: hours, outside: true}, 0, "Hours!$C$9:$C$8768"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := p.compile(c.formula, c.scope)
			require.NoError(t, err)
			assert.NoError(t, f.covers(c.row))
			assert.Equal(t, c.want, f.text(c.row))
			assert.Equal(t, escapedElement(c.want), string(f.appendXML(nil, c.row)))
			assert.NoError(t, p.words.check(f.text(c.row)))
		})
	}
}

func escapedElement(s string) string { return string(appendEscaped(nil, s)) }

func TestReferenceFaults(t *testing.T) {
	p := grids(t)
	hours, long := p.book.Sheets[0], p.book.Sheets[1]
	inHours := scope{sheet: hours, grid: hours.Grids[0], column: 2}
	for _, c := range []struct {
		name, formula string
		scope         scope
		want          string
	}{
		{"no such column", "[x]", inHours, `Hours has no column "x"`},
		{"no such grid", "[Weeks.t]", inHours, `no grid "Weeks"`},
		{"itself", "[far]", inHours, "refers to its own cell"},
		{"itself in the whole", "SUM([far:])", inHours, "refers to its own cell"},
		{"not a reference", "[a b]", inHours, "is not a reference"},
		{"not closed", "SUM([t", inHours, "'[' without ']'"},
		{"text not closed", `"[t]`, inHours, "without closing quote"},
		{"row outside", "[t#8760]", inHours, "outside the grid's 8760 rows"},
		{"rows backwards", "[t#5:4]", inHours, "outside the grid's 8760 rows"},
		{"no row here", "[Hours.t]", scope{sheet: long}, "there is none here"},
		{"which grid", "[tmax:]", scope{sheet: long}, "has to name the grid"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := p.compile(c.formula, c.scope)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

func TestRowsATemplateCovers(t *testing.T) {
	p := grids(t)
	s := p.book.Sheets[0]
	f, err := p.compile("[t@-2]+[w@1]", scope{sheet: s, grid: s.Grids[0], column: 2})
	require.NoError(t, err)
	assert.Error(t, f.covers(1))
	assert.NoError(t, f.covers(2))
	assert.NoError(t, f.covers(8758))
	assert.Error(t, f.covers(8759))
}

func TestFormulaRules(t *testing.T) {
	v := vocabulary{sheets: map[string]bool{"inputs": true}, names: map[string]bool{"in_eff": true}}
	for _, good := range []string{
		"A1", "$A$1:$B$9*2", "Inputs!B2^2", "In_eff*1.5E-3", "IF(A1<=0,-1,+1)&\"=#REF! [x]\"", "TRUE", "SUM($A:$A)", "SUM($1:$3)",
		"{1,2;3,4}", "10%", "-2^2", "1e5+.5", "\"\"", "XFD1048576", "sum(a1)",
	} {
		assert.NoError(t, v.check(good), good)
	}
	for bad, want := range map[string]string{
		"=A1":              "begins with '='",
		"":                 "is empty",
		"SUM(A1":           "unbalanced",
		"A1)":              "unbalanced",
		"{1,2":             "unbalanced",
		`"a`:               "closing quote",
		"MAXIFS(A1,B1,1)":  "_xlfn.",
		"_xlfn.IFS(A1,1)":  "_xlfn.",
		"LET(x,1,x)":       "_xlfn.",
		"NOSUCH(1)":        "not among the allowed",
		"Outputs!A1":       `sheet "Outputs", which does not exist`,
		"'My sheet'!A1":    "outside a text",
		"Inputs!#REF!":     "outside a text",
		"In_ef":            "name In_ef, which is not defined",
		"XFE1":             "name XFE1",
		"A1048577":         "name A1048577",
		"SUM(In_eff[Col])": "outside a text",
		"A1+ü":             "outside a text",
		"ABS":              "name ABS",
		deep(65):           "nested deeper",
		long("+A1", 2_731): "has 8193 characters",
	} {
		assert.ErrorContains(t, v.check(bad), want, bad)
	}
}

func deep(n int) string { return long("(", n) + "1" + long(")", n) }

func long(s string, n int) string {
	out := make([]byte, 0, n*len(s))
	for range n {
		out = append(out, s...)
	}
	return string(out)
}
