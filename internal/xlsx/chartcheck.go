package xlsx

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/xlsx/chart"
)

// checkChart looks at what needs no values.
func (p *plan) checkChart(s *sheetPlan, c *chart.Chart) {
	if err := p.chartFault(c); err != nil {
		p.fault("sheet %s: chart %q: %w", s.Name, c.Title, err)
	}
}

func (p *plan) chartFault(c *chart.Chart) error {
	switch {
	case c.Row < 1 || c.Col < 1:
		return fmt.Errorf("needs a cell for its corner")
	case c.Width < 0 || c.Height < 0:
		return fmt.Errorf("size %d by %d", c.Width, c.Height)
	case c.Kind < chart.Columns || c.Kind > chart.Scatter:
		return fmt.Errorf("has no kind")
	case c.Alt == "":
		return fmt.Errorf("needs an alternative text")
	case len(c.Series) == 0:
		return fmt.Errorf("has no series")
	case c.Gap < 0 || c.Gap > 500 || c.Overlap < -100 || c.Overlap > 100:
		return fmt.Errorf("gap %d or overlap %d out of range", c.Gap, c.Overlap)
	}
	for i := range c.Series {
		if err := p.seriesFault(c, &c.Series[i]); err != nil {
			return fmt.Errorf("series %d (%s): %w", i+1, c.Series[i].Name, err)
		}
	}
	for _, a := range []*chart.Axis{&c.X, &c.Y} {
		if err := axisFault(a); err != nil {
			return err
		}
	}
	if c.Y.Date || c.X.Date && c.Kind == chart.Scatter {
		return fmt.Errorf("only the X axis of columns, bars, lines and areas can be one of days")
	}
	return nil
}

func (p *plan) seriesFault(c *chart.Chart, s *chart.Series) error {
	k := c.SeriesKind(s)
	alone := func(k chart.Kind) bool { return k == chart.Scatter || k == chart.Bars }
	switch {
	case k != c.Kind && (alone(k) || alone(c.Kind)):
		return fmt.Errorf("bars and scatter cannot be combined with other kinds")
	case k == chart.Scatter && s.X == "":
		return fmt.Errorf("needs x values")
	case s.Marker.Shape != "" && k != chart.Lines && k != chart.Scatter:
		return fmt.Errorf("only lines and scatter have markers")
	case s.Marker.Size != 0 && (s.Marker.Size < 2 || s.Marker.Size > 72):
		return fmt.Errorf("marker of %d points", s.Marker.Size)
	case s.Transparency < 0 || s.Transparency > 100:
		return fmt.Errorf("transparency of %d percent", s.Transparency)
	case !(s.Width >= 0 && s.Width <= 50):
		return fmt.Errorf("line of %g points", s.Width)
	case badColour(s.Color):
		return fmt.Errorf("colour %q is not of the form RRGGBB", s.Color)
	case s.Beside != "" && s.Beside != "l" && s.Beside != "r":
		return fmt.Errorf("name beside the points at %q, not l or r", s.Beside)
	}
	return p.spansMatch(s)
}

// spansMatch checks the references of a series and that x and y are equally long.
func (p *plan) spansMatch(s *chart.Series) error {
	count := func(src string) (int, error) {
		_, _, b, err := p.locate(src)
		return (b.row2 - b.row1 + 1) * (b.col2 - b.col1 + 1), err
	}
	y, err := count(s.Y)
	if err != nil {
		return err
	}
	if s.X != "" {
		x, err := count(s.X)
		if err != nil {
			return err
		}
		if x != y {
			return fmt.Errorf("has %d x for %d y", x, y)
		}
	}
	return nil
}

func axisFault(a *chart.Axis) error {
	if err := badNumFmt(a.NumFmt); err != nil {
		return err
	}
	switch {
	case a.Min != nil && a.Max != nil && !(*a.Min < *a.Max):
		return fmt.Errorf("axis from %g to %g", *a.Min, *a.Max)
	case !(a.Major >= 0) || a.LabelEvery < 0:
		return fmt.Errorf("axis with negative steps")
	case a.Unit != "" && a.Unit != chart.Days && a.Unit != chart.Months:
		return fmt.Errorf("axis unit %q", a.Unit)
	}
	for _, v := range []*float64{a.Min, a.Max} {
		if v != nil {
			if _, err := numeric(*v); err != nil {
				return fmt.Errorf("axis limit: %w", err)
			}
		}
	}
	return nil
}
