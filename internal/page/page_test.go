package page

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
)

// call makes a call as the page does.
func call(t testing.TB, p *Page, name string, args any, file []byte) (json.RawMessage, []byte, bool) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	return p.Call(name, text, file)
}

// must makes a call that is to succeed and reads its value.
func must[T any](t testing.TB, p *Page, name string, args any, file []byte) (v T, out []byte) {
	t.Helper()
	result, out, ok := call(t, p, name, args, file)
	require.True(t, ok, "%s: %s", name, result)
	require.NoError(t, json.Unmarshal(result, &v))
	return v, out
}

func openSample(t *testing.T) *Page {
	t.Helper()
	p := new(Page)
	o, _ := must[Opened](t, p, "weather", Source{Kind: "sample"}, nil)
	assert.True(t, o.Invented)
	return p
}

func TestAnswer(t *testing.T) {
	p := openSample(t)
	a, _ := must[Answer](t, p, "answer", Question{Units: "ip", Inputs: map[string]string{"house.floor_area": "1600 ft²", "cooler.kind": "two-stage"}}, nil)
	t.Log(a.Verdict, a.Story, a.Tiles, a.Costs)
	assert.Empty(t, a.Problems)
	assert.Equal(t, Shown{"1,600", true}, a.Inputs["house.floor_area"])
	assert.Equal(t, Shown{"78", false}, a.Inputs["house.setpoint"])
	assert.Equal(t, Shown{"4,000", false}, a.Inputs["cooler.airflow"])
	sum := 0.0
	for _, h := range a.Hours {
		sum += h.Share
	}
	assert.InDelta(t, 1, sum, 1e-12)
	assert.Len(t, a.Week.Outdoor, 7*24)
	hours := 0
	for _, m := range a.Months {
		for _, n := range m.Hours {
			hours += n
		}
	}
	assert.Equal(t, 8760, hours)
}

func TestProblems(t *testing.T) {
	p := openSample(t)
	a, _ := must[Answer](t, p, "answer", Question{Units: "si", Inputs: map[string]string{
		"house.floor_area": "lots", "house.setpoint": "78 F", "cooler.effectiveness": "1.2", "no.such": "1"}}, nil)
	require.Len(t, a.Problems, 3)
	assert.Equal(t, "cooler.effectiveness", a.Problems[0].Key)
	assert.Equal(t, Problem{"house.floor_area", `"lots" does not start with a number`, "write for example 3ft² or 3m²"}, a.Problems[1])
	a, _ = must[Answer](t, p, "answer", Question{Units: "si", Inputs: map[string]string{"ac.indoor_wet_bulb": "25 °C", "house.setpoint": "20 °C"}}, nil)
	require.Len(t, a.Problems, 1)
	assert.Equal(t, "ac.indoor_wet_bulb", a.Problems[0].Key)
}

// A file that cannot be read leaves what was open.
func TestBadFile(t *testing.T) {
	p := openSample(t)
	result, _, ok := call(t, p, "weather", Source{Kind: "file", Name: "x.csv"}, []byte("time,temperature_c\nyesterday,3\n"))
	assert.False(t, ok)
	var x Problem
	require.NoError(t, json.Unmarshal(result, &x))
	assert.Contains(t, x.Text, "x.csv:1: missing a humidity column")
	assert.Contains(t, x.Hint, "headings seen")
	must[Answer](t, p, "answer", Question{Units: "si"}, nil)
}

func TestNothingOpen(t *testing.T) {
	result, _, ok := call(t, new(Page), "answer", Question{Units: "si"}, nil)
	assert.False(t, ok)
	assert.Contains(t, string(result), "no place is chosen")
}

func TestReading(t *testing.T) {
	v := Visit{"altitude": "6035ft", "outdoor": "91F", "rh": "14%", "supply": "66F", "site": "Hill, 12", "date": "2026-07-01"}
	j, _ := must[Judged](t, new(Page), "reading", v, nil)
	assert.NotEmpty(t, j.Lines)
	assert.NotEmpty(t, j.Verdict)
	_, csv := must[map[string]string](t, new(Page), "readings", Visits{[]Visit{v}}, nil)
	assert.Contains(t, string(csv), `"Hill, 12",2026-07-01,6035ft,91F,14%`)
	delete(v, "supply")
	result, _, ok := call(t, new(Page), "reading", v, nil)
	assert.False(t, ok)
	assert.JSONEq(t, `{"key":"supply","text":"not given","hint":"write for example 66F"}`, string(result))
}

// The page adds the unit it shows beside a field to a bare number: every such
// text can be read.
func TestFieldsTakeTheirOwnUnit(t *testing.T) {
	s, _ := must[Start](t, new(Page), "start", nothing{}, nil)
	numbers := 0
	for _, sec := range s.Sections {
		for _, f := range sec.Inputs {
			if f.Kind != "number" {
				continue
			}
			numbers++
			in, _ := job.Find(f.Key)
			for _, sys := range units.Systems {
				text := in.Kind.Number(in.Max, sys) + " " + f.Unit[sys.String()]
				_, err := units.Parse(in.Kind, text)
				assert.NoError(t, err, "%s: %s", f.Key, text)
			}
		}
	}
	assert.Greater(t, numbers, 30)
	for _, p := range s.Presets {
		for _, c := range p.Choices {
			assert.NoError(t, job.New().Set(p.Key, c.Value))
		}
	}
}

// types.d.ts says to the page's modules what the structs here are.
func TestTypesOfThePage(t *testing.T) {
	text, err := os.ReadFile("site/types.d.ts")
	require.NoError(t, err)
	for _, v := range []any{Problem{}, Source{}, Opened{}, Question{}, Start{}, FormSection{}, Field{}, Choice{}, Preset{}, Answer{}, Shown{}, Verdict{}, Part{},
		Tile{}, Costs{}, Heat{}, Month{}, Week{}, Typed{}, Suggestion{}, Chosen{}, Point{}, places.Link{}, Judged{}, Line{}} {
		typ := reflect.TypeOf(v)
		body := regexp.MustCompile(`interface ` + typ.Name() + ` \{([^}]*)\}`).FindSubmatch(text)
		require.NotNil(t, body, typ.Name())
		var want, got []string
		for i := range typ.NumField() {
			name, _, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ",")
			want = append(want, name)
		}
		for _, m := range regexp.MustCompile(`(\w+)\??: `).FindAllSubmatch(body[1], -1) {
			got = append(got, string(m[1]))
		}
		assert.ElementsMatch(t, want, got, typ.Name())
	}
}

// A poor fit is no bargain: its table says first what it leaves uncovered, and
// that a payback would not be of like for like, in the words of the workbook.
func TestPoorFitIsNoBargain(t *testing.T) {
	p := openSample(t)
	a, _ := must[Answer](t, p, "answer", Question{Units: "si", Inputs: map[string]string{"cooler.effectiveness": "0.05"}}, nil)
	assert.Equal(t, "poor", a.Verdict.Word)
	assert.Contains(t, a.Verdict.Why, "are not covered. Held means no warmer than 25.6 °C in the house and no damper than 70 %.")
	assert.Equal(t, []string{"Hours not covered", a.Tiles[1].Value[:len(a.Tiles[1].Value)-len(" h")], "2", "2"}, a.Costs.Rows[0])
	assert.Equal(t, []string{"A higher price comes back in", "no like for like", "–", "never"}, a.Costs.Rows[len(a.Costs.Rows)-1])
}

// A town has the weather of its station and its own name and height.
func TestTown(t *testing.T) {
	p := new(Page)
	towns, _ := must[[]Suggestion](t, p, "towns", Typed{Text: "leadv", Units: "ip"}, nil)
	require.NotEmpty(t, towns)
	assert.Equal(t, "Leadville, CO", towns[0].Name)
	c, _ := must[Chosen](t, p, "place", Typed{Text: "leadville, co", Units: "ip"}, nil)
	station, ok := places.ByNumber(c.Number)
	require.True(t, ok)
	o, _ := must[Opened](t, p, "weather", Source{Kind: "town", Name: c.Name, Station: c.Number}, places.Block(station))
	assert.Equal(t, "Leadville, CO", o.Place)
	assert.Equal(t, "ip", o.Units)
	a, _ := must[Answer](t, p, "answer", Question{Units: "ip"}, nil)
	assert.Equal(t, "Leadville, CO", a.Site)
	assert.Equal(t, "leadville-co", a.File)
	assert.Contains(t, a.Altitude, "10,")
	_, file := must[map[string]string](t, p, "job", Question{Units: "ip"}, nil)
	assert.Contains(t, string(file), "\nplace = \"Leadville, CO\"")
	low, _ := must[Chosen](t, p, "place", Typed{Text: "leadville, co", Units: "ip", Altitude: "4,000 ft"}, nil)
	assert.NotEqual(t, c.Number, low.Number, "another height, another station")
	_, _, ok = call(t, p, "place", Typed{Text: "no such town at all", Units: "ip"}, nil)
	assert.False(t, ok)
}

// The page's charts call each outcome what the answer calls it.
func TestChartsCallOutcomesAlike(t *testing.T) {
	charts, err := os.ReadFile("site/charts.js")
	require.NoError(t, err)
	for _, o := range append([]season.Outcome{season.Idle}, outcomes...) {
		require.Contains(t, string(charts), fmt.Sprintf("[%q, %q]", o, label(o)))
	}
}

// What a page was asked before does not change an answer, also not where the
// weather is carried to another height, or made warmer, in between.
func TestAnswersStandAlone(t *testing.T) {
	used := openSample(t)
	for _, inputs := range []map[string]string{
		{}, {"site.altitude": "9,000 ft"}, {"site.altitude": "9,000 ft", "cooler.kind": "indirect"}, {"site.warmer": "3 °F"}, {},
	} {
		q := Question{Units: "ip", Inputs: inputs}
		want, _ := must[Answer](t, openSample(t), "answer", q, nil)
		got, _ := must[Answer](t, used, "answer", q, nil)
		assert.Equal(t, want, got)
	}
}
