package fx_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/cooler"
	"github.com/evapbook/evapbook/internal/house"
	"github.com/evapbook/evapbook/internal/psychro"
	"github.com/evapbook/evapbook/internal/refrigeration"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/fx"
)

// telling are numbers that mean one constant of the engine wherever they stand.
func telling() []float64 {
	list := []float64{
		psychro.MassRatio, psychro.GasConstant, psychro.VolumeOfVapour, psychro.HeatDryAir, psychro.HeatVapour, psychro.LatentHeat,
		psychro.HeatDryAir / 1000, psychro.HeatVapour / 1000, psychro.LatentHeat / 1000,
		psychro.ZeroCelsius, psychro.ZeroCelsius + psychro.TriplePoint,
		psychro.SeaLevelPressure, psychro.PressureSlope, psychro.PressureExponent,
		cooler.EvaporationHeat, house.SensibleBase, house.SensiblePerArea, house.LatentPerArea,
		refrigeration.BtuPerWattHour, refrigeration.HalfTonBtu, units.JoulesPerBtu, climate.Coincidence,
	}
	for _, c := range []psychro.VapourCurve{psychro.OverIce, psychro.OverWater} {
		list = append(list, c.Inverse, c.Constant, c.Linear, c.Square, c.Cube, c.Log)
	}
	for _, w := range []psychro.Wick{psychro.WaterWick, psychro.IceWick} {
		list = append(list, w.Latent, w.Latent/1000, w.Left/1000, w.Right/1000)
	}
	for _, q := range []refrigeration.Biquadratic{refrigeration.CapacityCurve, refrigeration.EIRCurve} {
		list = append(list, q.A, q.B, q.C, q.D, q.E, q.F)
	}
	return list
}

// inFormulas are numbers that mean a constant of the engine in the text of a
// formula, and may mean something else in code.
var inFormulas = []float64{
	psychro.StandardDensity, psychro.FreezingRatioMargin, house.HeatedTo, house.SensiblePerPerson, house.LatentPerPerson, house.LatentBase,
	refrigeration.RatedWetBulbF, refrigeration.RatedDryBulbF, climate.DegreeDayBaseF, season.OpensAfter, season.ClosesAfter,
}

var numeral = regexp.MustCompile(`(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?`)

// inWords are the fields that people read: sources may be quoted there.
var inWords = []string{"Note", "Label", "Title", "Band"}

// Formula text takes its numbers from the engine, so that each stands once. This
// is the package of formula text and the sheets that carry the calculation; the
// other sheets hold formulas too.
func TestNoConstantIsTypedAgain(t *testing.T) {
	for _, dir := range []string{".", "../steps", "../figures", "../customer", "../engineer", "../technician"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files, dir)
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") {
				readNumbers(t, file, dir == "." || dir == "../steps")
			}
		}
	}
}

func readNumbers(t *testing.T, file string, calculation bool) {
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, nil, 0)
	require.NoError(t, err)
	ast.Inspect(parsed, func(n ast.Node) bool {
		if kv, ok := n.(*ast.KeyValueExpr); ok {
			key, named := kv.Key.(*ast.Ident)
			return !named || !slices.Contains(inWords, key.Name)
		}
		lit, ok := n.(*ast.BasicLit)
		if !ok {
			return true
		}
		for _, number := range numbersOf(lit, calculation) {
			t.Errorf("%s: %g is typed again in %s; take it from the engine with fx.Num", set.Position(lit.Pos()), number, lit.Value)
		}
		return true
	})
}

// numbersOf are the engine's constants in a literal.
func numbersOf(lit *ast.BasicLit, calculation bool) (found []float64) {
	if lit.Kind == token.STRING && !calculation && !strings.ContainsAny(lit.Value, "*/[") {
		return nil // a sentence
	}
	for _, text := range numeral.FindAllString(lit.Value, -1) {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			continue
		}
		same := func(c float64) bool { return c == v || c == -v }
		if slices.ContainsFunc(telling(), same) || lit.Kind == token.STRING && calculation && slices.ContainsFunc(inFormulas, same) {
			found = append(found, v)
		}
	}
	return found
}

// The test above finds what it is there for.
func TestTypedAgainIsFound(t *testing.T) {
	for text, want := range map[string][]float64{
		"`0.621945*[e]`":              {0.621945},
		`"1006+1860*[w]"`:             {1006, 1860},
		`"([t]+273.15)/1.2"`:          {273.15, 1.2},
		`"{X}*(4.1764768E-5)"`:        {4.1764768e-5},
		`"[Days.a:]*2+Si_house_area"`: nil,
	} {
		require.Equal(t, want, numbersOf(&ast.BasicLit{Kind: token.STRING, Value: text}, true), text)
	}
	require.Equal(t, []float64{101325}, numbersOf(&ast.BasicLit{Kind: token.FLOAT, Value: "101325.0"}, false))
}

func TestNum(t *testing.T) {
	for v, want := range map[float64]string{
		2450000: "2450000", 0.621945: "0.621945", 4.1764768e-5: "4.1764768E-5", -9.484024e-13: "-9.484024E-13", 1e-9: "1E-9", 1e20: "1E20", -5674.5359: "-5674.5359", 0: "0",
	} {
		require.Equal(t, want, fx.Num(v))
	}
}
