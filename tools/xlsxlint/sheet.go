package main

import (
	"math"
	"path"
	"strconv"
	"strings"
)

// The children of worksheet in their order. Source: ISO/IEC 29500-1, 18.3.1.99.
var order = strings.Fields(`sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges
	scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations
	hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors
	smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls webPublishItems AlternateContent
	tableParts extLst`)

const longestText = 32767 // characters of a cell

// sheetLint is one sheet under examination.
type sheetLint struct {
	*lint
	part       string
	rels       map[string]relation
	tables     []table
	merges     []box
	filter     *box
	place      map[string]int // of an element in order
	last       int            // place of the last child
	row, col   int            // of the last cell
	tableParts int
	headings   map[[2]int]string // texts of cells in rows where tables begin, by row and column
}

type table struct {
	box
	name    string
	columns []string
}

// shared stands for a text in another part, which is not looked up.
const shared = "\x00"

func (l *lint) sheet(part string) {
	s := &sheetLint{lint: l, part: part, rels: l.relations(part), place: map[string]int{}, last: -1, headings: map[[2]int]string{}}
	for i, name := range order {
		s.place[name] = i
	}
	for _, r := range s.rels {
		if r.kind == "table" {
			s.readTable(r.target)
		}
	}
	l.walk(part, s.element)
	s.checkTables()
}

func (s *sheetLint) readTable(part string) {
	var t table
	seen := map[string]bool{}
	s.walk(part, func(e *element) {
		switch e.Name.Local {
		case "table":
			t.box, _ = rangeOf(e.attr("ref"))
			t.name = e.attr("displayName")
		case "tableColumn":
			c := e.attr("name")
			if seen[strings.ToLower(c)] {
				s.say("%s: column %q twice", part, c)
			}
			seen[strings.ToLower(c)] = true
			t.columns = append(t.columns, c)
		}
	})
	key := strings.ToLower(t.name)
	if s.lint.tables[key] || s.names[key] {
		s.say("table name %s twice", t.name)
	}
	s.lint.tables[key] = true
	if len(t.columns) != t.col2-t.col1+1 {
		s.say("table %s: %d columns in a range of %d", t.name, len(t.columns), t.col2-t.col1+1)
	}
	s.tables = append(s.tables, t)
}

func (s *sheetLint) element(e *element) {
	name := e.Name.Local
	if e.depth == 2 {
		at, ok := s.place[name]
		if !ok || at < s.last || at == s.last && name != "conditionalFormatting" {
			s.say("%s: element %s out of order or twice", s.part, name)
		}
		s.last = at
	}
	switch name {
	case "row":
		r, _ := strconv.Atoi(e.attr("r"))
		if r <= s.row {
			s.say("%s: row %d after %d", s.part, r, s.row)
		}
		s.row, s.col = r, 0
	case "c":
		s.cell(e)
	case "mergeCell":
		s.merge(e.attr("ref"))
	case "autoFilter":
		if b, ok := rangeOf(e.attr("ref")); ok {
			s.filter = &b
		}
	case "dataValidation":
		s.validation(e)
	case "cfvo":
		if !strings.Contains(" num percent max min formula percentile autoMin autoMax ", " "+e.attr("type")+" ") {
			s.say("%s: cfvo type %q", s.part, e.attr("type"))
		}
	case "pageMargins":
		for _, a := range e.Attr {
			if f, err := strconv.ParseFloat(a.Value, 64); err != nil || !(f >= 0) {
				s.say("%s: margin %s=%q", s.part, a.Name.Local, a.Value)
			}
		}
	case "tablePart", "drawing", "legacyDrawing", "hyperlink":
		if id := e.attr("id"); id != "" && s.rels[id] == (relation{}) {
			s.say("%s: %s %s has no relation", s.part, name, id)
		}
		if name == "tablePart" {
			s.tableParts++
		}
	}
}

func (s *sheetLint) merge(ref string) {
	b, ok := rangeOf(ref)
	if !ok {
		s.say("%s: %q is no range to merge", s.part, ref)
	}
	for _, m := range s.merges {
		if m.meets(b) {
			s.say("%s: merged ranges overlap at %s", s.part, ref)
		}
	}
	for _, t := range s.tables {
		if t.meets(b) {
			s.say("%s: merged range %s inside table %s", s.part, ref, t.name)
		}
	}
	s.merges = append(s.merges, b)
}

func (s *sheetLint) validation(e *element) {
	at, kind := e.attr("sqref"), e.attr("type")
	var v struct {
		First string `xml:"formula1"`
	}
	if err := e.take(&v); err != nil {
		s.say("%s: data validation of %s: %v", s.part, at, err)
		return
	}
	if kind != "" && kind != "none" && v.First == "" {
		s.say("%s: data validation of %s without a formula", s.part, at)
	}
	if kind == "list" && strings.HasPrefix(v.First, `"`) && len(v.First)-2 > 255 {
		s.say("%s: list of the data validation of %s has more than 255 characters", s.part, at)
	}
}

func (s *sheetLint) checkTables() {
	if s.tableParts != len(s.tables) {
		s.say("%s: %d tableParts for %d tables", s.part, s.tableParts, len(s.tables))
	}
	for i, t := range s.tables {
		for _, other := range s.tables[:i] {
			if other.meets(t.box) {
				s.say("%s: tables %s and %s overlap", s.part, other.name, t.name)
			}
		}
		if s.filter != nil && s.filter.meets(t.box) {
			s.say("%s: filter of the sheet over table %s", s.part, t.name)
		}
		for k, c := range t.columns {
			if h := s.headings[[2]int{t.row1, t.col1 + k}]; h != c && h != shared {
				s.say("table %s: cell %q heads column %q", t.name, h, c)
			}
		}
	}
}

// content is what a cell element holds.
type content struct {
	Formula *struct {
		Kind string `xml:"t,attr"`
		Text string `xml:",chardata"`
	} `xml:"f"`
	Value  *string `xml:"v"`
	Inline struct {
		Text string `xml:"t"`
	} `xml:"is"`
}

func (s *sheetLint) cell(e *element) {
	ref, kind := e.attr("r"), e.attr("t")
	at := path.Base(s.part) + "!" + ref
	var c content
	if err := e.take(&c); err != nil {
		s.say("%s: %v", at, err)
		return
	}
	col, row, ok := cell(ref)
	if !ok || row != s.row || col <= s.col {
		s.say("%s: cell out of order or twice, in row %d", at, s.row)
	}
	s.col = col
	if style, _ := strconv.Atoi(e.attr("s")); style >= max(s.styles, 1) {
		s.say("%s: style %d of %d", at, style, s.styles)
	}
	value := ""
	if c.Value != nil {
		value = *c.Value
	}
	s.value(at, kind, value, &c)
	if len(value) > longestText || len(c.Inline.Text) > longestText {
		s.say("%s: text of more than %d characters", at, longestText)
	}
	if f := c.Formula; f != nil && (f.Text != "" || f.Kind != "shared") {
		s.formula(at, f.Text)
	}
	for _, t := range s.tables {
		if t.row1 == row {
			s.headings[[2]int{row, col}] = c.Inline.Text + value
			if kind == "s" {
				s.headings[[2]int{row, col}] = shared
			}
		}
	}
}

// value: a cell holds what its type says.
func (s *sheetLint) value(at, kind, value string, c *content) {
	number, err := strconv.ParseFloat(value, 64)
	switch kind {
	case "", "n":
		if c.Value != nil && (err != nil || math.IsNaN(number) || math.IsInf(number, 0)) {
			s.say("%s: number %q", at, value)
		}
	case "b":
		if value != "0" && value != "1" {
			s.say("%s: boolean %q", at, value)
		}
	case "s":
		if n, err := strconv.Atoi(value); err != nil || n < 0 || n >= s.texts {
			s.say("%s: shared text %q of %d", at, value, s.texts)
		}
		if c.Formula != nil {
			s.say("%s: a formula whose result is a shared text", at)
		}
	case "str":
		if err == nil && c.Formula != nil && !strings.Contains(c.Formula.Text, "FIXED(") {
			s.say("%s: result %q is a number typed as text", at, value)
		}
	}
}
