package xlsx

import (
	"fmt"
	"slices"
	"strings"
)

// checkChart looks at what needs no values.
func (p *plan) checkChart(s *sheetPlan, c *Chart) {
	if err := p.chartFault(c); err != nil {
		p.fault("sheet %s: chart %q: %w", s.Name, c.Title, err)
	}
}

func (p *plan) chartFault(c *Chart) error {
	switch {
	case c.Row < 1 || c.Col < 1:
		return fmt.Errorf("needs a cell for its corner")
	case c.Width < 0 || c.Height < 0:
		return fmt.Errorf("size %d by %d", c.Width, c.Height)
	case c.Kind < Columns || c.Kind > Doughnut:
		return fmt.Errorf("has no kind")
	case c.Alt == "":
		return fmt.Errorf("needs an alternative text")
	case len(c.Series) == 0:
		return fmt.Errorf("has no series")
	case c.Kind == Doughnut && len(c.Series) > 1:
		return fmt.Errorf("a doughnut shows one series")
	case c.Gap < 0 || c.Gap > 500 || c.Overlap < -100 || c.Overlap > 100:
		return fmt.Errorf("gap %d or overlap %d out of range", c.Gap, c.Overlap)
	case c.Hole != 0 && (c.Hole < 10 || c.Hole > 90):
		return fmt.Errorf("hole of %d percent", c.Hole)
	}
	primary := false
	for i := range c.Series {
		primary = primary || !c.Series[i].Secondary
		if err := p.seriesFault(c, &c.Series[i]); err != nil {
			return fmt.Errorf("series %d (%s): %w", i+1, c.Series[i].Name, err)
		}
	}
	if !primary {
		return fmt.Errorf("all series are on the secondary axis")
	}
	for _, a := range []*Axis{&c.X, &c.Y, &c.Y2} {
		if err := axisFault(a); err != nil {
			return err
		}
	}
	if c.Y.Date || c.Y2.Date || c.X.Date && (c.Kind == Scatter || c.Kind == Doughnut) {
		return fmt.Errorf("only the X axis of columns, bars, lines and areas can be one of days")
	}
	return nil
}

func (p *plan) seriesFault(c *Chart, s *Series) error {
	k := s.kind(c)
	alone := func(k Kind) bool { return k == Scatter || k == Doughnut || k == Bars }
	switch {
	case k != c.Kind && (alone(k) || alone(c.Kind)):
		return fmt.Errorf("bars, scatter and doughnut cannot be combined with other kinds")
	case s.Secondary && alone(k):
		return fmt.Errorf("this kind has no secondary axis here")
	case s.Name != "" && s.NameRef != "":
		return fmt.Errorf("has a name and a cell for it")
	case k == Scatter && s.X == "":
		return fmt.Errorf("needs x values")
	case s.Marker.Shape != "" && k != Lines && k != Scatter:
		return fmt.Errorf("only lines and scatter have markers")
	case s.Marker.Size != 0 && (s.Marker.Size < 2 || s.Marker.Size > 72):
		return fmt.Errorf("marker of %d points", s.Marker.Size)
	case s.Transparency < 0 || s.Transparency > 100:
		return fmt.Errorf("transparency of %d percent", s.Transparency)
	case !(s.Width >= 0 && s.Width <= 50):
		return fmt.Errorf("line of %g points", s.Width)
	case s.Trend != nil && (s.Trend.Order < 0 || s.Trend.Order > 6):
		return fmt.Errorf("trend of order %d", s.Trend.Order)
	case s.Trend != nil && (k == Doughnut || c.Stack != Clustered && k != Lines && k != Scatter):
		return fmt.Errorf("this kind of chart has no trend")
	}
	if err := s.colourFault(); err != nil {
		return err
	}
	if s.Labels != nil && s.Labels.Place != "" && !slices.Contains(places(c, k), s.Labels.Place) {
		return fmt.Errorf("label place %q is not among %q", s.Labels.Place, places(c, k))
	}
	return p.spansMatch(s)
}

func (s *Series) colourFault() error {
	colours := append([]string{s.Color}, s.PointColors...)
	if s.Labels != nil {
		colours = append(colours, s.Labels.Color)
		if err := badNumFmt(s.Labels.NumFmt); err != nil {
			return err
		}
	}
	if s.Trend != nil {
		colours = append(colours, s.Trend.Color)
	}
	for _, c := range colours {
		if badColour(c) {
			return fmt.Errorf("colour %q is not of the form RRGGBB", c)
		}
	}
	return nil
}

// places are the label places the schema allows a kind.
func places(c *Chart, k Kind) []string {
	switch {
	case k == Lines || k == Scatter:
		return []string{"t", "b", "l", "r", "ctr"}
	case k == Areas || k == Doughnut:
		return nil
	case c.Stack != Clustered:
		return []string{"ctr", "inEnd", "inBase"}
	}
	return []string{"ctr", "inEnd", "inBase", "outEnd"}
}

// spansMatch checks the references of a series and that x and y are equally long.
func (p *plan) spansMatch(s *Series) error {
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
	if s.NameRef != "" {
		if n, err := count(s.NameRef); err != nil || n != 1 {
			return fmt.Errorf("name %q is not one cell (%v)", s.NameRef, err)
		}
	}
	return nil
}

func axisFault(a *Axis) error {
	if err := badNumFmt(a.NumFmt); err != nil {
		return err
	}
	switch {
	case a.Min != nil && a.Max != nil && !(*a.Min < *a.Max):
		return fmt.Errorf("axis from %g to %g", *a.Min, *a.Max)
	case a.Log && (a.Min != nil && *a.Min <= 0 || a.Max != nil && *a.Max <= 0):
		return fmt.Errorf("a logarithmic axis cannot include 0")
	case !(a.Major >= 0) || a.LabelEvery < 0:
		return fmt.Errorf("axis with negative steps")
	case a.Unit != "" && !strings.Contains("days months years", string(a.Unit)):
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

func (s *Series) kind(c *Chart) Kind {
	if s.Kind == 0 {
		return c.Kind
	}
	return s.Kind
}
