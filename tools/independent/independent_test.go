// Package independent_test holds evapbook against a second implementation of
// docs/model.md, model.py beside this file: plain Python, written from the
// specification alone.
package independent_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

const (
	sampleFile = "../../data/sample/ostrel-flat.csv"
	realFolder = "../../../shared/weather"
)

// tolerance is relative. The two programs do the same arithmetic in another
// order and solve the wet bulb by other means (there to neighbouring numbers,
// here to 1e-9 K or better), and the hour table prints 12 digits.
const tolerance = 1e-9

// modelFigures is how many headline figures model.py works out.
const modelFigures = 98

// setting states an input to both programs: as a person writes it, and in SI
// where that is not just its number.
type setting struct{ key, text, si string }

func (s setting) python() string {
	if s.si != "" {
		return s.key + "=" + s.si
	}
	number, _, _ := strings.Cut(s.text, " ")
	return s.key + "=" + number
}

type testCase struct {
	name, file string
	settings   []setting
}

var cases = []testCase{
	{name: "sample", file: sampleFile},
	{name: "sample moved up, lapse rate", file: sampleFile, settings: []setting{
		{key: "site.altitude", text: "2300 m"}, {key: "site.lapse_rate", text: "6.5 K/km"}}},
	{name: "sample, two-stage, worn pads, purge, variable drive", file: sampleFile, settings: []setting{
		{key: "cooler.kind", text: "two-stage"}, {key: "cooler.pad_condition", text: "0.8"},
		{key: "cooler.water_care", text: "purge"}, {key: "cooler.drive", text: "variable"}}},
	{name: "sample, no memory, one speed", file: sampleFile, settings: []setting{
		{key: "house.thermal_mass", text: "0"}, {key: "cooler.drive", text: "one-speed"}}},
	{name: "sample, very heavy, warm ducts, warmer", file: sampleFile, settings: []setting{
		{key: "house.thermal_mass", text: "370"}, {key: "cooler.duct_gain", text: "1.5 K"}, {key: "site.warmer", text: "3 K"}}},
	{name: "sample, low speed and its power stated, tight house, no moving air", file: sampleFile, settings: []setting{
		{key: "cooler.lowest_speed", text: "0.5"}, {key: "cooler.low_speed_power", text: "0.3"},
		{key: "house.infiltration", text: "0.1"}, {key: "house.moving_air", text: "0 K"}}},
	{name: "sample, dear weekday afternoons by the clock", file: sampleFile, settings: []setting{
		{key: "price.season_electricity", text: "0.21"}, {key: "price.peak_electricity", text: "0.55"}, {key: "price.season_first", text: "5"},
		{key: "price.peak_from", text: "14"}, {key: "price.peak_to", text: "19"}, {key: "price.peak_days", text: "weekdays"},
		{key: "price.summer_time", text: "us"}}},
	{name: "Boise TMY3 at 2,840 ft", file: "tmy3-boise-id.csv", settings: []setting{
		{key: "site.altitude", text: "2840ft", si: "865.632"}}},
	{name: "Boise TMY3 as recorded, loose house, windows never open", file: "tmy3-boise-id.csv", settings: []setting{
		{key: "house.heat_loss", text: "2.5 W/m2K"}, {key: "ac.windows_open", text: "no"},
		{key: "cooler.cycles", text: "2"}, {key: "price.escalation", text: "0.02"},
		{key: "price.cooler_life", text: "12 years"}, {key: "price.ac_life", text: "18 years"}}},
	{name: "Boise TMY3, no memory, variable drive, leaky", file: "tmy3-boise-id.csv", settings: []setting{
		{key: "house.thermal_mass", text: "0"}, {key: "cooler.drive", text: "variable"}, {key: "house.infiltration", text: "2"}}},
	{name: "Albuquerque TMY3, very heavy, warmer, 3 F of duct gain", file: "tmy3-albuquerque-nm.csv", settings: []setting{
		{key: "house.thermal_mass", text: "370"}, {key: "site.warmer", text: "2 K"},
		{key: "cooler.duct_gain", text: "3 F", si: "1.6666666666666667"}, {key: "house.moving_air", text: "4 F", si: "2.2222222222222223"}}},
	{name: "Phoenix EPW", file: "epw-phoenix-az.epw"},
	{name: "Phoenix EPW, two-stage, one speed, no care of the water", file: "epw-phoenix-az.epw", settings: []setting{
		{key: "cooler.kind", text: "two-stage"}, {key: "cooler.drive", text: "one-speed"}, {key: "cooler.water_care", text: "none"},
		{key: "cooler.indirect_effectiveness", text: "0.55"}, {key: "cooler.effectiveness", text: "0.85"}}},
	{name: "Phoenix EPW, indirect, purge, stated design load", file: "epw-phoenix-az.epw", settings: []setting{
		{key: "cooler.kind", text: "indirect"}, {key: "cooler.water_care", text: "purge"}, {key: "cooler.purge_interval", text: "0.5 h"},
		{key: "cooler.sump", text: "30 L"}, {key: "house.design_load", text: "12000 W"}, {key: "house.thermal_mass", text: "165"}}},
	{name: "Phoenix TMY3, a tight humidity limit, stated unit", file: "tmy3-phoenix-az.csv", settings: []setting{
		{key: "house.humidity_limit", text: "0.5"}, {key: "ac.capacity", text: "9000 W"}, {key: "ac.eer2", text: "11.7"},
		{key: "house.people", text: "6"}, {key: "house.infiltration", text: "0.9"}, {key: "ac.cycling", text: "0.25"},
		{key: "ac.field_share", text: "0.75"}, {key: "price.electricity", text: "0.2"}}},
	{name: "Imperial EPW, below sea level, European clocks", file: "epw-imperial-ca.epw", settings: dearFrom("3", "10", "eu")},
	{name: "Leadville TMY3", file: "tmy3-leadville-co.csv"},
	{name: "Leadville TMY3 moved down, lapse rate, low setpoint", file: "tmy3-leadville-co.csv", settings: []setting{
		{key: "site.altitude", text: "1500 m"}, {key: "site.lapse_rate", text: "6.5 K/km"}, {key: "house.setpoint", text: "19 C"},
		{key: "house.floor_area", text: "100 m2"}, {key: "cooler.airflow", text: "1.2 m3/s"}, {key: "cooler.fan_power", text: "400 W"}}},
	{name: "Golden 2012, measured, leap year", file: "epw-golden-co-2012-measured.epw"},
	{name: "Miami EPW, humid, two-stage, clocks of the place", file: "epw-miami-fl.epw", settings: append(dearFrom("3", "11", ""),
		setting{key: "cooler.kind", text: "two-stage"})},
	{name: "Houston TMY3, cool setpoint, a small cooler, southern clocks", file: "tmy3-houston-tx.csv", settings: append(dearFrom("10", "4", "south"),
		setting{key: "house.setpoint", text: "24 C"}, setting{key: "cooler.airflow", text: "0.4 m3/s"})},
}

// dearFrom is a dear middle of the day in a season that holds both days on which
// those clocks change, in places where some way of cooling runs on them.
func dearFrom(first, last, clocks string) []setting {
	s := []setting{{key: "price.season_first", text: first}, {key: "price.season_last", text: last}, {key: "price.peak_electricity", text: "0.4"},
		{key: "price.peak_from", text: "13"}, {key: "price.peak_to", text: "17"}}
	if clocks != "" {
		s = append(s, setting{key: "price.summer_time", text: clocks})
	}
	return s
}

func TestAgainstIndependentModel(t *testing.T) {
	requirePython(t)
	if testing.Short() {
		cases = slices.DeleteFunc(cases, func(c testCase) bool { return c.file != sampleFile })
		t.Logf("-short: the sample's %d cases only", len(cases))
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			file := c.file
			if file != sampleFile {
				file = realFile(t, file)
			}
			against(t, file, c.settings)
		})
	}
}

// plain are files made from the sample's rows, so that eq. 5, the three humidity
// quantities and a summer in January are compared too.
var plain = []struct {
	name, heads string
	row         func(f []string, t float64) []string
	turned      int // hours by which the values are moved against the clock
	settings    []setting
}{
	{name: "no pressure", heads: "time,temperature_c,relative_humidity_pct,ghi_wm2",
		row: func(f []string, _ float64) []string { return []string{f[0], f[1], f[2], f[4]} }},
	{name: "dew point", heads: dewHeads, row: dewRow},
	{name: "dew point, warmer, moved up", heads: dewHeads, row: dewRow, settings: []setting{
		{key: "site.warmer", text: "2 K"}, {key: "site.altitude", text: "1900 m"}, {key: "site.lapse_rate", text: "5 K/km"}}},
	{name: "wet bulb", heads: wetHeads, row: wetRow},
	{name: "wet bulb, warmer, indirect", heads: wetHeads, row: wetRow, settings: []setting{
		{key: "site.warmer", text: "2.5 K"}, {key: "cooler.kind", text: "indirect"}}},
	{name: "the other hemisphere", heads: "time,temperature_c,relative_humidity_pct,pressure_hpa,ghi_wm2", turned: 4380, settings: []setting{
		{key: "price.season_first", text: "11"}, {key: "price.season_last", text: "3"}, {key: "price.season_electricity", text: "0.3"},
		{key: "price.peak_electricity", text: "0.5"}, {key: "price.peak_from", text: "15"}, {key: "price.peak_to", text: "1"},
		{key: "price.summer_time", text: "south"}},
		row: func(f []string, _ float64) []string { return f }},
}

const (
	dewHeads = "time,temperature_c,dew_point_c,pressure_hpa,ghi_wm2"
	wetHeads = "time,temperature_c,wet_bulb_c,pressure_hpa,ghi_wm2"
)

func dewRow(f []string, t float64) []string {
	return []string{f[0], f[1], strconv.FormatFloat(min(t-0.5, t*0.5-6), 'f', 2, 64), f[3], f[4]}
}

// wetRow keeps off 0.00 °C, where the last digit decides which wick is meant.
func wetRow(f []string, t float64) []string {
	return []string{f[0], f[1], strconv.FormatFloat(min(t-0.3, t*0.6-0.97), 'f', 2, 64), f[3], f[4]}
}

func TestAgainstIndependentModelPlain(t *testing.T) {
	requirePython(t)
	text, err := os.ReadFile(sampleFile)
	require.NoError(t, err)
	var head []string
	var rows [][]string
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if f := strings.Split(line, ","); len(f) == 5 && f[0] != "time" {
			rows = append(rows, f)
		} else if f[0] != "time" {
			head = append(head, line)
		}
	}
	for _, c := range plain {
		t.Run(c.name, func(t *testing.T) {
			lines := append(slices.Clone(head), c.heads)
			if c.turned > 0 {
				lines = slices.DeleteFunc(lines, func(l string) bool {
					return strings.HasPrefix(l, "# latitude") || strings.HasPrefix(l, "# longitude")
				})
			}
			for i, f := range rows {
				f = append([]string{f[0]}, rows[(i+c.turned)%len(rows)][1:]...)
				v, err := strconv.ParseFloat(f[1], 64)
				require.NoError(t, err)
				lines = append(lines, strings.Join(c.row(f, v), ","))
			}
			file := filepath.Join(t.TempDir(), "edited.csv")
			require.NoError(t, os.WriteFile(file, []byte(strings.Join(lines, "\n")+"\n"), 0o600))
			against(t, file, c.settings)
		})
	}
}

// against runs both programs and compares every figure and every hour.
func against(t *testing.T, file string, settings []setting) {
	t.Helper()
	t.Parallel()
	ours, hours := runGo(t, file, settings)
	theirs, theirHours := runPython(t, file, settings)
	figures, worst := compareFigures(t, ours, theirs)
	require.GreaterOrEqual(t, figures, modelFigures, "figures compared")
	w, rows := compareHours(t, hours, theirHours)
	require.GreaterOrEqual(t, rows, 8760)
	t.Logf("%d figures and %d hours, largest relative difference %.1e", figures, rows, max(worst, w))
}

func runGo(t *testing.T, file string, settings []setting) (table, hours []byte) {
	t.Helper()
	series, err := weather.Open(file, weather.Options{Humidity: weather.PreferAuto})
	require.NoError(t, err)
	j := job.New()
	for _, s := range settings {
		require.NoError(t, j.Set(s.key, s.text))
	}
	require.NoError(t, j.Resolve(series.Station.Name, series.Station.Elevation, series.Station.Region()))
	c, err := figures.Compute(series, j, units.SI, "test")
	require.NoError(t, err)
	var f, h bytes.Buffer
	require.NoError(t, c.WriteJSON(&f))
	require.NoError(t, c.WriteHours(&h))
	return f.Bytes(), h.Bytes()
}

func runPython(t *testing.T, file string, settings []setting) (figures, hours []byte) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	table := filepath.Join(t.TempDir(), "hours.csv")
	args := []string{"-B", "model.py", file, "--hours", table}
	for _, s := range settings {
		args = append(args, s.python())
	}
	out, err := exec.CommandContext(ctx, "python3", args...).Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		t.Fatalf("model.py: %s", failed.Stderr)
	}
	require.NoError(t, err)
	rows, err := os.ReadFile(table)
	require.NoError(t, err)
	return out, rows
}

// onlyOurs are figures that are no results of the model.
var onlyOurs = map[string]bool{"evapbook": true, "notes": true, "site.name": true, "weather.file": true, "weather.format": true, "weather.sha256": true}

func compareFigures(t *testing.T, ours, theirs []byte) (compared int, worst float64) {
	t.Helper()
	a, b := flat(t, ours), flat(t, theirs)
	for path, v := range b {
		w, ok := a[path]
		if !ok {
			t.Errorf("figure %s: model.py has %v, evapbook has none", path, v)
			continue
		}
		d := difference(w, v, 1)
		worst = max(worst, d)
		if d > tolerance {
			t.Errorf("figure %s: evapbook %v, model.py %v", path, w, v)
		}
		compared++
	}
	for path := range a {
		if _, ok := b[path]; !ok && !onlyOurs[path] {
			t.Logf("figure %s: not in model.py, not compared", path)
		}
	}
	return compared, worst
}

// scale is the size below which a difference in a column is absolute.
func scale(column string) float64 {
	switch column {
	case "humidity_ratio", "supply_humidity_ratio":
		return 1e-3
	default:
		return 1
	}
}

func compareHours(t *testing.T, ours, theirs []byte) (worst float64, rows int) {
	t.Helper()
	a, b := table(t, ours), table(t, theirs)
	require.Equal(t, b[0], a[0], "columns")
	require.Len(t, a, len(b))
	bad := 0
	for i, row := range a[1:] {
		for k, column := range a[0] {
			d := difference(value(row[k]), value(b[i+1][k]), scale(column))
			worst = max(worst, d)
			if d > tolerance {
				if bad++; bad <= 10 {
					t.Errorf("%s, %s: evapbook %s, model.py %s", row[0], column, row[k], b[i+1][k])
				}
			}
		}
	}
	if bad > 10 {
		t.Errorf("%d cells differ in all", bad)
	}
	return worst, len(a) - 1
}

// difference is relative to the larger value, at least scale; texts and blanks
// are the same or 1 apart.
func difference(a, b any, scale float64) float64 {
	x, isX := a.(float64)
	y, isY := b.(float64)
	switch {
	case isX && isY:
		return math.Abs(x-y) / max(math.Abs(x), math.Abs(y), scale)
	case a == b:
		return 0
	default:
		return 1
	}
}

func value(text string) any {
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v
	}
	return text
}

func table(t *testing.T, text []byte) [][]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	return rows
}

func flat(t *testing.T, text []byte) map[string]any {
	t.Helper()
	var root map[string]any
	require.NoError(t, json.Unmarshal(text, &root))
	all := map[string]any{}
	var walk func(at map[string]any, path string)
	walk = func(at map[string]any, path string) {
		for key, v := range at {
			if m, ok := v.(map[string]any); ok {
				walk(m, path+key+".")
			} else {
				all[path+key] = v
			}
		}
	}
	walk(root, "")
	return all
}

func requirePython(t *testing.T) {
	t.Helper()
	if _, err := exec.LookPath("python3"); err != nil {
		t.Skip("SKIPPED: python3 is not installed; the independent model cannot run")
	}
}

func realFile(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(realFolder, name)
	if _, err := os.Stat(path); err != nil {
		t.Skipf("SKIPPED: %s is not there; the shared folder with real weather files is needed", path)
	}
	return path
}
