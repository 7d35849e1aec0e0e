package officetest

import (
	"archive/zip"
	"fmt"
	"io"
	"path"
	"strings"
)

// A Book is what an .xlsx file says, cell by cell.
type Book struct {
	Path   string
	Sheets []*Sheet // worksheets in tab order
	Names  []Name   // defined names of the whole book
}

// A Name is a defined name and the reference or constant it stands for.
type Name struct{ Name, Refers string }

// A Sheet is one worksheet as it stands in the file.
type Sheet struct {
	Name  string
	Cells []Cell // those with a value or a formula, in the order of the file
}

// A Cell is one cell as it stands in the file.
type Cell struct {
	Ref Ref
	// HasFormula marks formula cells. Formula is the text without "=", empty
	// in the cells that share another cell's formula.
	HasFormula bool
	Formula    string
	// Shared is the group of cells that share one formula, from 1; 0 is none.
	Shared int
	// Value is the value in the file; in a formula cell the cached one.
	// nil where there is none.
	Value any
}

// Sheet gives a sheet by name, nil where there is none.
func (b *Book) Sheet(name string) *Sheet {
	for _, s := range b.Sheets {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// Formulas gives the cached values of all formula cells.
func (b *Book) Formulas() Results {
	out := Results{}
	for _, s := range b.Sheets {
		values := Values{}
		for i := range s.Cells {
			if c := &s.Cells[i]; c.HasFormula {
				values[c.Ref] = c.Value
			}
		}
		if len(values) > 0 {
			out[s.Name] = values
		}
	}
	return out
}

// ReadBook reads the formulas and values of all worksheets of an .xlsx file.
func ReadBook(file string) (*Book, error) {
	z, err := zip.OpenReader(file)
	if err != nil {
		return nil, fmt.Errorf("officetest: %s: %w", file, err)
	}
	defer z.Close()
	p := parts{}
	for _, f := range z.File {
		p[strings.TrimPrefix(f.Name, "/")] = f
	}
	b, err := p.book()
	if err != nil {
		return nil, fmt.Errorf("officetest: %s: %w", file, err)
	}
	b.Path = file
	return b, nil
}

// parts are the files in the package by name.
type parts map[string]*zip.File

func (p parts) read(name string) ([]byte, error) {
	f := p[name]
	if f == nil {
		return nil, fmt.Errorf("has no %s", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	text := make([]byte, 0, f.UncompressedSize64+1)
	for {
		n, err := r.Read(text[len(text):cap(text)])
		text = text[:len(text)+n]
		if err == io.EOF {
			return text, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if len(text) == cap(text) {
			text = append(text, 0)[:len(text)]
		}
	}
}

func (p parts) book() (*Book, error) {
	targets, err := p.relations()
	if err != nil {
		return nil, err
	}
	shared, err := p.sharedStrings(targets)
	if err != nil {
		return nil, err
	}
	text, err := p.read("xl/workbook.xml")
	if err != nil {
		return nil, err
	}
	b := &Book{}
	m := markup{rest: text}
	for {
		if _, ok := m.next(); !ok {
			return b, nil
		}
		if m.is("definedName") && m.attr("localSheetId") == "" {
			n := Name{Name: m.attr("name")}
			if n.Refers, err = m.content(nil); err != nil {
				return nil, err
			}
			b.Names = append(b.Names, n)
		}
		if !m.is("sheet") {
			continue
		}
		s := &Sheet{Name: m.attr("name")}
		name := targets.byID[m.attr("r:id")]
		if name == "" {
			return nil, fmt.Errorf("sheet %q has no file", s.Name)
		}
		if s.Cells, err = p.sheetCells(name, shared); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
		b.Sheets = append(b.Sheets, s)
	}
}

// relations tell which file holds what.
type relations struct {
	byID          map[string]string
	sharedStrings string
}

func (p parts) relations() (relations, error) {
	r := relations{byID: map[string]string{}}
	text, err := p.read("xl/_rels/workbook.xml.rels")
	if err != nil {
		return r, err
	}
	m := markup{rest: text}
	for {
		if _, ok := m.next(); !ok {
			return r, nil
		}
		if !m.is("Relationship") {
			continue
		}
		target := m.attr("Target")
		if strings.HasPrefix(target, "/") {
			target = target[1:]
		} else {
			target = path.Join("xl", target)
		}
		r.byID[m.attr("Id")] = target
		if strings.HasSuffix(m.attr("Type"), "/sharedStrings") {
			r.sharedStrings = target
		}
	}
}

func (p parts) sharedStrings(r relations) ([]string, error) {
	if r.sharedStrings == "" {
		return nil, nil
	}
	text, err := p.read(r.sharedStrings)
	if err != nil {
		return nil, err
	}
	var out []string
	m := markup{rest: text}
	for {
		if _, ok := m.next(); !ok {
			return out, nil
		}
		if m.is("si") {
			s, err := m.content(isText)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", r.sharedStrings, err)
			}
			out = append(out, s)
		}
	}
}

// isText keeps the runs of a text and leaves out anything else beside them.
func isText(name []byte) bool { return string(name) == "t" }
