package xlsx

import (
	"bytes"
	"image"
	_ "image/jpeg" // formats of Image
	_ "image/png"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// columns sets widths: the sheet's, then those of its grids.
func (b *builder) columns(s *sheetPlan) error {
	widths := map[int]float64{}
	for i, w := range s.Cols {
		widths[i+1] = w
	}
	for _, g := range s.grids {
		for i, c := range g.Columns {
			if c.Width > 0 {
				widths[g.Col+i] = c.Width
			}
		}
	}
	for _, col := range slices.Sorted(maps.Keys(widths)) {
		if widths[col] == 0 {
			continue
		}
		if err := b.file.SetColWidth(s.Name, colName(col), colName(col), widths[col]); err != nil {
			return err
		}
	}
	return b.file.SetSheetDimension(s.Name, s.extent().String())
}

// extent is the box of all cells.
func (s *sheetPlan) extent() box {
	e := box{1, 1, 1, 1}
	for _, c := range s.cells {
		e.row2, e.col2 = max(e.row2, c.row), max(e.col2, c.col)
	}
	for _, g := range s.grids {
		e.row2, e.col2 = max(e.row2, g.last()), max(e.col2, g.lastCol())
	}
	return e
}

func (b *builder) view(s *sheetPlan) error {
	props := &excelize.SheetPropsOptions{}
	if s.Tab != "" {
		props.TabColorRGB = ptr("FF" + strings.ToUpper(s.Tab))
	}
	if s.Print.FitWidth > 0 || s.Print.FitHeight > 0 {
		props.FitToPage = ptr(true)
	}
	if err := b.file.SetSheetProps(s.Name, props); err != nil {
		return err
	}
	if err := b.file.SetSheetView(s.Name, 0, &excelize.ViewOptions{ShowGridLines: &s.ShowGrid, ZoomScale: ptr(100.0)}); err != nil {
		return err
	}
	return b.freeze(s)
}

func (b *builder) freeze(s *sheetPlan) error {
	if s.FreezeRows <= 0 && s.FreezeCols <= 0 {
		return nil
	}
	pane := "bottomRight"
	switch {
	case s.FreezeCols <= 0:
		pane = "bottomLeft"
	case s.FreezeRows <= 0:
		pane = "topRight"
	}
	corner := cellRef(s.FreezeRows+1, s.FreezeCols+1)
	return b.file.SetPanes(s.Name, &excelize.Panes{
		Freeze: true, XSplit: s.FreezeCols, YSplit: s.FreezeRows, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	})
}

func (b *builder) page(s *sheetPlan) error {
	p := &s.Print
	layout := &excelize.PageLayoutOptions{Size: ptr(int(p.Paper)), Orientation: ptr("portrait")}
	if p.Paper == 0 {
		layout.Size = ptr(int(A4))
	}
	if p.Landscape {
		layout.Orientation = ptr("landscape")
	}
	if p.FitWidth > 0 || p.FitHeight > 0 {
		layout.FitToWidth, layout.FitToHeight = &p.FitWidth, &p.FitHeight
	}
	m := p.Margins
	if m == (Margins{}) {
		m = Margins{0.7, 0.7, 0.75, 0.75, 0.3, 0.3}
	}
	steps := []error{
		b.file.SetPageLayout(s.Name, layout),
		b.file.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{
			Left: &m.Left, Right: &m.Right, Top: &m.Top, Bottom: &m.Bottom, Header: &m.Header, Footer: &m.Footer,
			Horizontally: &p.CentreAcross,
		}),
	}
	if p.Header != "" || p.Footer != "" {
		steps = append(steps, b.file.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{OddHeader: p.Header, OddFooter: p.Footer}))
	}
	for _, n := range s.printNames() {
		steps = append(steps, b.file.SetDefinedName(n))
	}
	return first(steps)
}

func first(errs []error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// printNames are the names by which a sheet keeps its print area and titles.
func (s *sheetPlan) printNames() []*excelize.DefinedName {
	var all []*excelize.DefinedName
	if area, ok := parseBox(s.Print.Area); ok {
		all = append(all, &excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: s.quoted() + "!" + area.fixed(), Scope: s.Name})
	}
	var titles []string
	if c := s.Print.TitleCols; c[0] > 0 {
		titles = append(titles, s.quoted()+"!$"+colName(c[0])+":$"+colName(c[1]))
	}
	if r := s.Print.TitleRows; r[0] > 0 {
		titles = append(titles, s.quoted()+"!$"+strconv.Itoa(r[0])+":$"+strconv.Itoa(r[1]))
	}
	if titles != nil {
		all = append(all, &excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: strings.Join(titles, ","), Scope: s.Name})
	}
	return all
}

// heights tells the library too, which needs them to place charts.
func (b *builder) heights(s *sheetPlan) error {
	for _, row := range slices.Sorted(maps.Keys(s.Sheet.heights)) {
		if err := b.file.SetRowHeight(s.Name, row, s.Sheet.heights[row]); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) merges(s *sheetPlan) error {
	for _, ref := range s.Merges {
		m, _ := parseBox(ref)
		if err := b.file.MergeCell(s.Name, cellRef(m.row1, m.col1), cellRef(m.row2, m.col2)); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) filters(s *sheetPlan) error {
	for _, g := range s.grids {
		if g.Filter {
			with := g.box()
			with.row1 = g.Row - 1 // the header
			if err := b.file.AutoFilter(s.Name, with.String(), nil); err != nil {
				return err
			}
		}
	}
	return nil
}

func (b *builder) links(s *sheetPlan) error {
	for _, c := range s.cells {
		if c.link == "" {
			continue
		}
		way := "External"
		if strings.Contains(c.link, "!") && !strings.Contains(c.link, ":/") && !strings.HasPrefix(c.link, "mailto:") {
			way = "Location"
		}
		link := c.link
		if way == "Location" {
			key, ref, _ := strings.Cut(link, "!")
			link = b.byKey[strings.ToLower(key)].quoted() + "!" + ref
		}
		if err := b.file.SetCellHyperLink(s.Name, cellRef(c.row, c.col), link, way); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) protect(s *sheetPlan) error {
	if !s.Protect {
		return nil
	}
	return b.file.ProtectSheet(s.Name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, AutoFilter: true,
		EditObjects: true, EditScenarios: true,
	})
}

// imageKind is ".png", ".jpeg" or "" for anything else.
func imageKind(data []byte) string {
	_, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "png" && kind != "jpeg" {
		return ""
	}
	return "." + kind
}

func (b *builder) pictures(s *sheetPlan) error {
	for _, m := range s.Images {
		own, _, err := image.DecodeConfig(bytes.NewReader(m.Data))
		if err != nil {
			return err
		}
		b.sized(s, m.shown(own))
		err = b.file.AddPictureFromBytes(s.Name, cellRef(m.Row, m.Col), &excelize.Picture{
			Extension: imageKind(m.Data), File: m.Data,
			Format: &excelize.GraphicOptions{AltText: m.Alt, Positioning: "absolute", LockAspectRatio: true},
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// shown is the size of a picture on the sheet.
func (m *Image) shown(own image.Config) size {
	s := size{m.Width, m.Height}
	switch {
	case s.width == 0 && s.height == 0:
		return size{own.Width, own.Height}
	case s.width == 0:
		s.width = (own.Width*s.height + own.Height/2) / own.Height
	case s.height == 0:
		s.height = (own.Height*s.width + own.Width/2) / own.Width
	}
	return s
}
