package job_test

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

func read(text string) (*job.Job, error) {
	j := job.New()
	return j, j.ReadTOML(strings.NewReader(text), "house.toml")
}

func TestReadTOML(t *testing.T) {
	j, err := read("\ufeff" + `# a house
[site]
name = "Hill \"Top\""
altitude = "5,430 ft"
[cooler]
effectiveness = 0.85
water_care = "purge"
[house]
people = 4
design_load = 0
[ac]
windows_open = false
[price]
ac_installed = 9_500
electricity = 0.2
water = "6 /kgal"
[proposal]
date = 2026-05-01
` + "\r\n")
	require.NoError(t, err)
	assert.Equal(t, `Hill "Top"`, j.Site.Name)
	assert.InDelta(t, 1655.064, j.Site.Altitude, 1e-9)
	assert.Equal(t, 0.85, j.Cooler.Effectiveness)
	assert.Equal(t, job.Purge, j.Cooler.WaterCare)
	assert.Equal(t, 4.0, j.House.People)
	assert.False(t, j.AC.WindowsOpen)
	assert.Equal(t, 9500.0, j.Price.ACInstalled)
	assert.Equal(t, "2026-05-01", j.Proposal.Date)
	assert.True(t, j.Stated("house.people"))
	assert.False(t, j.Stated("house.setpoint"))

	j, err = read("site = { altitude = \"100 m\" }\nhouse.people = 2\n")
	require.NoError(t, err)
	assert.Equal(t, 100.0, j.Site.Altitude)
	assert.Equal(t, 2.0, j.House.People)
}

// The shell of Windows writes what evapbook job prints as UTF-16.
func TestReadTOMLOfUTF16(t *testing.T) {
	var doc []byte
	for _, r := range utf16.Encode([]rune("\ufeff[site]\r\nname = \"Café\"\r\n")) {
		doc = append(doc, byte(r), byte(r>>8))
	}
	j, err := read(string(doc))
	require.NoError(t, err)
	assert.Equal(t, "Café", j.Site.Name)
	_, err = read("[site]\nname = \"Caf\xe9\"\n")
	assert.Contains(t, hint.Text(err), "house.toml:2:12: invalid UTF-8 character in basic string\nhint: save the file as UTF-8")
}

func TestReadTOMLReportsEverything(t *testing.T) {
	text := `[site]
altitude = 5430
name = 3
[hous]
setpoint = "78 F"
[house]
people = "three"
setpont = "78F"
floor_area = [1]
infiltration = 0x10
ceiling = true
[cooler]
kind = "swamp"
cycles = nan
`
	_, err := read(text)
	assert.Equal(t, strings.TrimSuffix(`house.toml:2:12: site.altitude: 5430 has no unit
hint: write 5430ft or 5430m, in double quotes
house.toml:3:8: site.name: a bare number is not a value for this input
hint: write text in double quotes
house.toml:4:2: no section is called [hous]
hint: did you mean [house]?
house.toml:5:1: no input is called "hous.setpoint"
hint: did you mean house.setpoint?
house.toml:7:10: house.people: "three" does not start with a number
hint: write for example 3
house.toml:8:1: no input is called "house.setpont"
hint: did you mean house.setpoint?
house.toml:9:1: house.floor_area: a list is not a value for this input
hint: write a value with its unit in double quotes, such as "5 m²"
house.toml:10:16: house.infiltration: 0x10 is not a plain decimal number
house.toml:11:11: house.ceiling: true or false is not a value for this input
hint: write a value with its unit in double quotes, such as "1.8 m"
house.toml:13:8: cooler.kind: "swamp" is not a choice
hint: write direct, indirect or two-stage
house.toml:14:10: cooler.cycles: nan is not a plain decimal number
`, "\n"), hint.Text(err))
}

func TestReadTOMLRefuses(t *testing.T) {
	for _, r := range []struct{ name, text, want string }{
		{"not TOML", "altitude 5430", "house.toml:1:10: expected '=' after key\nhint: a line reads key = value, text in double quotes"},
		{"key twice", "[house]\npeople = 3\npeople = 4\n", "house.toml:3:1: key people is already defined\nhint: keep one of the two"},
		{"section twice", "[site]\n[site]\n", "house.toml:2:2: table site already exists\nhint: keep one of the two"},
		{"list of sections", "[[site]]\n", "house.toml:1:3: [[site]] is a list of sections\nhint: write [site]"},
		{"no section", "people = 3\n", "house.toml:1:1: no input is called \"people\"\nhint: did you mean house.people?"},
		{"too large", strings.Repeat("#", 1<<16+1), "house.toml: larger than a job file can be"},
	} {
		j := job.New()
		require.NoError(t, j.Set("house.people", "7"))
		assert.Equal(t, r.want, hint.Text(j.ReadTOML(strings.NewReader(r.text), "house.toml")), r.name)
	}
}

func TestReadTOMLChangesNothingOnError(t *testing.T) {
	j, err := read("[house]\npeople = 9\nsetpoint = \"500 F\"\n")
	require.Error(t, err)
	assert.Equal(t, 3.0, j.House.People)
	assert.False(t, j.Stated("house.people"))
}

func written(t *testing.T, j *job.Job, sys units.System, all bool) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, job.WriteTOML(&b, j, sys, all))
	return b.String()
}

var assignment = regexp.MustCompile(`(?m)^# ([a-z0-9_.]+ = |\[\[)`)

// The starter file states nothing as it is; with every # taken off it states
// every input, at its default where it has one.
func TestStarterFile(t *testing.T) {
	for _, sys := range units.Systems {
		starter := written(t, job.New(), sys, true)
		j, err := read(starter)
		require.NoError(t, err)
		for _, in := range job.Inputs() {
			assert.False(t, j.Stated(in.Key), in.Key)
		}
		j, err = read(assignment.ReplaceAllString(starter, "$1"))
		require.NoError(t, err)
		assert.Len(t, j.Options(), 1, "and the example of an option is one")
		fresh := job.New()
		for _, in := range job.Inputs() {
			assert.True(t, j.Stated(in.Key), in.Key)
			if in.Default != "" && in.Numeric() {
				assert.InDelta(t, in.SI(fresh), in.SI(j), 1e-9, "%s in %s", in.Key, sys)
			}
		}
		assert.InDelta(t, 4500*units.CFM, j.Cooler.Airflow, 1e-9, "rules that need no weather are shown carried out")
	}
}

func TestWriteStated(t *testing.T) {
	j := job.New()
	require.NoError(t, j.Set("site.altitude", "5430ft"))
	require.NoError(t, j.Set("site.name", `Hill "7" \ east`))
	require.NoError(t, j.Set("house.setpoint", "76 F"))
	require.NoError(t, j.Set("price.ac_life", "20"))
	want := `[site]
name = "Hill \"7\" \\ east"
altitude = "1655.064 m"

[house]
setpoint = "76 °F"

[price]
ac_life = 20
`
	assert.Equal(t, want, written(t, j, units.SI, false))
	for _, all := range []bool{true, false} {
		back, err := read(written(t, j, units.IP, all))
		require.NoError(t, err)
		assert.Equal(t, want, written(t, back, units.SI, false))
	}
}

// Files that are no job files are given up soon, not compared for minutes.
func TestReadTOMLGivesUp(t *testing.T) {
	var many strings.Builder
	for i := 0; i < 5000; i++ {
		fmt.Fprintf(&many, "k%d=1\n", i)
	}
	_, err := read(many.String())
	assert.Equal(t, 50, strings.Count(err.Error(), "no input is called"))
	_, err = read("a=" + strings.Repeat("{a=", 9000) + "1" + strings.Repeat("}", 9000))
	assert.Equal(t, "house.toml:1:1: no section is called [a]\nhint: did you mean [ac]?", hint.Text(err))
}

// No input may panic the reader, and every refusal says where.
func FuzzReadTOML(f *testing.F) {
	f.Add("[site]\naltitude = \"5430ft\"\n")
	f.Add("site = { altitude = 3, x = { y = [1] } }\n[[house]]\n[a.b]\n\"\" = 1\n")
	f.Add("[house]\npeople = 0b1\nsetpoint = 1979-05-27T07:32:00Z\nfloor_area = '''\n1'''\n")
	place := regexp.MustCompile(`^house\.toml(:\d+:\d+)?: .`)
	f.Fuzz(func(t *testing.T, text string) {
		j, err := read(text)
		if err != nil {
			if !place.MatchString(err.Error()) {
				t.Errorf("no place in %q", err)
			}
			return
		}
		var b bytes.Buffer
		if err := job.WriteTOML(&b, j, units.IP, false); err != nil {
			t.Fatal(err)
		}
		if err := job.New().ReadTOML(&b, "again.toml"); err != nil {
			t.Errorf("cannot read back: %v", err)
		}
	})
}
