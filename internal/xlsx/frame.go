package xlsx

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// frame is the book without its rows: the parts of the file, made by excelize
// where it makes them well.
type frame struct {
	parts  map[string][]byte
	sheets map[string]*sheetPlan // by part
	ids    []int                 // the file's number of each style of the plan
}

// builder holds the library's file while the frame is built.
type builder struct {
	*plan
	file   *excelize.File
	ids    []int
	charts int

	drawings map[*sheetPlan]string // the part of each sheet with objects
	sizes    map[string][]size     // of the objects in each drawing, in order
}

// frame builds the parts.
func (p *plan) frame() (*frame, error) {
	b := &builder{plan: p, file: excelize.NewFile(), drawings: map[*sheetPlan]string{}, sizes: map[string][]size{}}
	defer b.file.Close()
	steps := []func() error{b.addSheets, b.addStyles, b.fillSheets, b.addNames, b.setProperties}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return b.collect()
}

// addSheets makes the sheets, in order, before anything refers to one.
func (b *builder) addSheets() error {
	for i, s := range b.sheets {
		var err error
		if i == 0 {
			err = b.file.SetSheetName("Sheet1", s.Name)
		} else {
			_, err = b.file.NewSheet(s.Name)
		}
		if err != nil {
			return fmt.Errorf("xlsx: sheet %s: %w", s.Name, err)
		}
	}
	b.file.SetActiveSheet(0)
	return nil
}

// addStyles gives each style of the plan its number in the file.
func (b *builder) addStyles() error {
	if err := b.file.SetDefaultFont(b.book.font()); err != nil {
		return err
	}
	b.file.Styles.Fonts.Font[0].Sz.Val = ptr(b.book.fontSize())
	b.ids = make([]int, len(b.styles))
	for i := range b.styles {
		if b.styles[i] == (Style{}) {
			continue
		}
		id, err := b.file.NewStyle(b.styles[i].excelize(b.book, false))
		if err != nil {
			return fmt.Errorf("xlsx: style %+v: %w", b.styles[i], err)
		}
		b.ids[i] = id
	}
	return nil
}

func (b *builder) fillSheets() error {
	for _, s := range b.sheets {
		steps := []func(*sheetPlan) error{
			b.merges, b.filters, // first: a filter replaces the sheet's properties
			b.columns, b.view, b.page, b.heights, b.links,
			b.validations, b.conditionals, b.pictures, b.addCharts, b.protect,
		}
		for _, step := range steps {
			if err := step(s); err != nil {
				return fmt.Errorf("xlsx: sheet %s: %w", s.Name, err)
			}
		}
	}
	return nil
}

func (b *builder) addNames() error {
	for _, n := range b.names {
		d := &excelize.DefinedName{Name: n.Name, RefersTo: n.Ref, Comment: n.Comment}
		if err := b.file.SetDefinedName(d); err != nil {
			return fmt.Errorf("xlsx: name %s: %w", n.Name, err)
		}
	}
	if b.book.RecalcOnLoad {
		return b.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: ptr(true)})
	}
	return nil
}

// setProperties replaces the library's document properties, which name the
// library as the author and carry a made-up date.
func (b *builder) setProperties() error {
	book := b.book
	var core strings.Builder
	core.WriteString(xmlHead + `<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" ` +
		`xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" ` +
		`xmlns:dcmitype="http://purl.org/dc/dcmitype/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">`)
	add := func(tag, text string) {
		if text != "" {
			fmt.Fprintf(&core, "<%s>%s</%s>", tag, appendEscaped(nil, text), tag)
		}
	}
	add("dc:title", book.Title)
	add("dc:subject", book.Subject)
	add("dc:creator", book.Creator)
	add("cp:keywords", book.Keywords)
	add("dc:description", book.Description)
	add("cp:lastModifiedBy", book.Creator)
	core.WriteString("</cp:coreProperties>")
	b.file.Pkg.Store("docProps/core.xml", []byte(core.String()))
	b.file.Pkg.Store("docProps/app.xml", []byte(xmlHead+
		`<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>`+
		string(appendEscaped(nil, book.Creator))+`</Application></Properties>`))
	return nil
}

const xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// collect lets the library write its parts and puts them right.
func (b *builder) collect() (*frame, error) {
	c := collector{}
	b.file.SetZipWriter(func(io.Writer) excelize.ZipWriter { return c })
	if _, err := b.file.WriteToBuffer(); err != nil {
		return nil, err
	}
	f := &frame{parts: map[string][]byte{}, sheets: map[string]*sheetPlan{}, ids: b.ids}
	for name, buf := range c {
		part := buf.Bytes()
		switch {
		case name == "[Content_Types].xml":
			part = sortContentTypes(part)
		case name == "xl/theme/theme1.xml":
			part = recolour(part, b.book.Palette)
		case strings.HasPrefix(name, "xl/drawings/drawing"):
			part = anchor(part, b.sizes[name])
		}
		f.parts[name] = part
	}
	for i, s := range b.sheets {
		name := "xl/worksheets/sheet" + strconv.Itoa(i+1) + ".xml"
		if f.parts[name] == nil {
			return nil, fmt.Errorf("xlsx: sheet %s: the library wrote no part %s", s.Name, name)
		}
		f.parts[name] = tidy(f.parts[name])
		f.sheets[name] = s
	}
	return f, nil
}

// tidy takes out what the library writes without cause: it takes every sheet with
// filter buttons for a filtered one, and leaves empty elements.
func tidy(part []byte) []byte {
	for _, s := range []string{` filterMode="true"`, `<colBreaks></colBreaks>`, `<printOptions></printOptions>`} {
		part = bytes.Replace(part, []byte(s), nil, 1)
	}
	return part
}

var accent = regexp.MustCompile(`(<a:accent([1-6])><a:srgbClr val=")[0-9A-Fa-f]{6}`)

// recolour puts the palette into the theme.
func recolour(theme []byte, palette []string) []byte {
	return accent.ReplaceAllFunc(theme, func(m []byte) []byte {
		n := int(m[len("<a:accent")] - '1')
		if n >= len(palette) {
			return m
		}
		return append(slices.Clone(m[:len(m)-6]), strings.ToUpper(palette[n])...)
	})
}

func ptr[T any](v T) *T { return &v }
