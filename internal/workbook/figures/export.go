package figures

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/years"
)

// WriteJSON writes the headline figures as one JSON object, nested by their
// paths, in SI; a figure that does not exist is null.
func (c *Case) WriteJSON(w io.Writer) error {
	root := map[string]any{}
	for _, f := range c.Figures() {
		place(root, strings.Split(f.Path, "."), jsonValue(f.Value))
	}
	place(root, []string{"evapbook"}, c.Version)
	place(root, []string{"weather"}, map[string]any{"file": c.Series.Source.Name, "sha256": c.Series.Source.SHA256, "format": c.Series.Source.Format})
	place(root, []string{"notes"}, c.Notes())
	if c.Years != nil {
		place(root, []string{"years"}, yearsObject(c.Years))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(root)
}

func place(at map[string]any, path []string, v any) {
	for _, step := range path[:len(path)-1] {
		next, ok := at[step].(map[string]any)
		if !ok {
			next = map[string]any{}
			at[step] = next
		}
		at = next
	}
	at[path[len(path)-1]] = v
}

func jsonValue(v any) any {
	switch v := v.(type) {
	case time.Time:
		return v.Format(time.DateOnly)
	case string:
		if v == None {
			return nil
		}
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil
		}
	}
	return v
}

// hourTable declares the columns of the hour table, in SI. An empty field is
// a value that does not exist: everything in a missing hour, the indoor state
// in an idle one.
var hourTable = []struct {
	name  string
	value func(in *climate.Hour, h *season.Hour) float64
}{
	{"temperature_c", func(in *climate.Hour, _ *season.Hour) float64 { return in.Air.T }},
	{"wet_bulb_c", func(in *climate.Hour, _ *season.Hour) float64 { return in.WetBulb }},
	{"humidity_ratio", func(in *climate.Hour, _ *season.Hour) float64 { return in.Air.W }},
	{"pressure_pa", func(in *climate.Hour, _ *season.Hour) float64 { return in.Air.P }},
	{"supply_c", func(_ *climate.Hour, h *season.Hour) float64 { return h.Supply.T }},
	{"supply_humidity_ratio", func(_ *climate.Hour, h *season.Hour) float64 { return h.Supply.W }},
	{"outcome", nil},
	{"indoor_c", func(_ *climate.Hour, h *season.Hour) float64 { return unlessIdleNaN(h, h.Indoor) }},
	{"indoor_rh", func(_ *climate.Hour, h *season.Hour) float64 { return unlessIdleNaN(h, h.IndoorRH) }},
	{"load_w", func(_ *climate.Hour, h *season.Hour) float64 { return h.Load.Sensible }},
	{"flow_share", func(_ *climate.Hour, h *season.Hour) float64 { return h.Share }},
	{"cooler_kwh", func(_ *climate.Hour, h *season.Hour) float64 { return h.CoolerKWh }},
	{"evaporated_kg", func(_ *climate.Hour, h *season.Hour) float64 { return h.Evaporated }},
	{"refrigerated_kwh", func(_ *climate.Hour, h *season.Hour) float64 { return h.RefKWh }},
	{"refrigerated_closed_kwh", func(_ *climate.Hour, h *season.Hour) float64 { return h.ClosedKWh }},
	{"both_kwh", func(_ *climate.Hour, h *season.Hour) float64 { return h.BothKWh }},
	{"ghi_wm2", func(in *climate.Hour, _ *season.Hour) float64 { return in.GHI }},
	{"running_fraction", func(_ *climate.Hour, h *season.Hour) float64 { return h.Running.Fraction }},
	{"house_c", func(_ *climate.Hour, h *season.Hour) float64 { return h.House }},
	{"refrigerated_house_c", func(_ *climate.Hour, h *season.Hour) float64 { return h.RefHouse }},
}

func unlessIdleNaN(h *season.Hour, v float64) float64 {
	if h.Outcome == season.Idle {
		return math.NaN()
	}
	return v
}

// WriteHours writes the hour table as CSV, in SI, with enough digits to be
// compared with another calculation.
func (c *Case) WriteHours(w io.Writer) error {
	out := csv.NewWriter(w)
	header := []string{"time"}
	for _, col := range hourTable {
		header = append(header, col.name)
	}
	if err := out.Write(header); err != nil {
		return err
	}
	row := make([]string, len(header))
	for i := range c.Season.Hours {
		in, h := &c.Season.Climate.Hours[i], &c.Season.Hours[i]
		row[0] = in.Time.Format("2006-01-02 15:04")
		for k, col := range hourTable {
			switch {
			case col.value == nil:
				row[k+1] = h.Outcome.String()
			case h.Outcome == season.Missing:
				row[k+1] = ""
			default:
				row[k+1] = decimal(col.value(in, h))
			}
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func decimal(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 12, 64)
}

// yearsObject is the comparison of the years for JSON, in SI.
func yearsObject(t *years.Table) map[string]any {
	list := []map[string]any{}
	for i := range t.Rows {
		r := &t.Rows[i]
		one := map[string]any{"year": r.Label, "file": r.File, "hours_missing": r.Missing, "counts": i < t.Counts,
			"last_freeze": jsonDate(r.LastFreeze), "first_freeze": jsonDate(r.FirstFreeze)}
		for _, q := range years.Quantities {
			one[q.Key] = jsonValue(q.Of(r))
		}
		list = append(list, one)
	}
	spread := map[string]any{}
	for _, q := range years.Quantities {
		r := t.Range(q.Of)
		spread[q.Key] = map[string]any{"median": jsonValue(r.Median), "p10": jsonValue(r.Tenth), "p90": jsonValue(r.Ninetieth),
			"lowest": jsonValue(r.Lowest), "lowest_year": r.LowestIn, "highest": jsonValue(r.Highest), "highest_year": r.HighestIn}
	}
	cover := t.Range(years.Coverage)
	basis := "calendar years"
	if t.South {
		basis = "July to June"
	}
	return map[string]any{"basis": basis, "shown": t.Rows[t.Shown].Label, "shown_because": t.Why, "years": list, "range": spread,
		"best_year": cover.HighestIn, "worst_year": cover.LowestIn}
}

func jsonDate(d time.Time) any {
	if d.IsZero() {
		return nil
	}
	return jsonValue(d)
}
