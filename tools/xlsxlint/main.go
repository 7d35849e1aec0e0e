// Command xlsxlint looks for what Excel complains about when it opens a
// workbook and no schema says: parts without a content type, elements out of
// order, formulas and names that mean nothing, tables whose headings differ from
// their cells.
//
//	go run ./tools/xlsxlint BOOK.xlsx...
//
// Sources: ISO/IEC 29500-1, clauses 12 (parts), 18.2 to 18.5 (elements and their
// order), 18.17 (formulas); Microsoft, "Excel specifications and limits" and
// "Rename a worksheet" for lengths and names. Exit status 1 with any finding.
package main

import (
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"strings"
)

func main() {
	const shown = 3
	failed := len(os.Args) < 2
	for _, path := range os.Args[1:] {
		found := check(path)
		if len(found) == 0 {
			fmt.Printf("%s: nothing that Excel complains about\n", path)
			continue
		}
		failed = true
		fmt.Printf("%s: %d findings\n", path, len(found))
		for _, f := range found[:min(shown, len(found))] {
			fmt.Println("  " + f)
		}
	}
	if failed {
		os.Exit(1)
	}
}

// lint is one workbook under examination.
type lint struct {
	found         []string
	parts         map[string][]byte
	sheets, names map[string]bool // in lower case
	tables        map[string]bool // names of tables, in lower case
	styles, texts int             // of the workbook: cell formats, shared strings
}

func (l *lint) say(format string, a ...any) { l.found = append(l.found, fmt.Sprintf(format, a...)) }

// check gives all findings in a workbook.
func check(path string) []string {
	l := &lint{parts: map[string][]byte{}, sheets: map[string]bool{}, names: map[string]bool{}, tables: map[string]bool{}}
	if !l.unpack(path) {
		return l.found
	}
	l.contentTypes()
	l.relations("")
	sheets := l.workbook()
	l.wellFormed()
	l.charts()
	l.styles = l.count("xl/styles.xml", "cellXfs", "xf")
	l.texts = l.count("xl/sharedStrings.xml", "sst", "si")
	for _, part := range sheets {
		l.sheet(part)
	}
	return l.found
}

// element is a start of an element that a walk comes to. Take reads it whole.
type element struct {
	xml.StartElement
	parent string
	depth  int // 1 is the root
	taken  bool
	d      *xml.Decoder
}

func (e *element) attr(name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (e *element) take(v any) error {
	e.taken = true
	return e.d.DecodeElement(v, &e.StartElement)
}

// walk goes through a part, element by element.
func (l *lint) walk(part string, visit func(*element)) {
	d := xml.NewDecoder(strings.NewReader(string(l.parts[part])))
	path := []string{""}
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			l.say("%s: not well-formed: %v", part, err)
			return
		}
		switch t := token.(type) {
		case xml.StartElement:
			e := &element{StartElement: t, parent: path[len(path)-1], depth: len(path), d: d}
			if visit != nil {
				visit(e)
			}
			if !e.taken {
				path = append(path, t.Name.Local)
			}
		case xml.EndElement:
			path = path[:len(path)-1]
		}
	}
}

// count counts the children of one element.
func (l *lint) count(part, parent, child string) int {
	n := 0
	l.walk(part, func(e *element) {
		if e.parent == parent && e.Name.Local == child {
			n++
		}
	})
	return n
}
