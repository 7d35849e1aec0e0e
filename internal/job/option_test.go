package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

const optionFile = `[cooler]
kind = "direct"

[[option]]
name = "As it is"
cooler.pad_condition = 0.7

[[option]]
name = "Two-stage, larger"
shown = true
cooler.kind = "two-stage"
[option.price]
cooler_installed = "$5,200"
`

func TestOptionsFromTOML(t *testing.T) {
	j := job.New()
	require.NoError(t, j.ReadTOML(strings.NewReader(optionFile), "house.toml"))
	require.Equal(t, []job.Option{
		{Name: "As it is", Settings: []job.Setting{{Key: "cooler.pad_condition", Value: "0.7"}}},
		{Name: "Two-stage, larger", Settings: []job.Setting{{Key: "cooler.kind", Value: "two-stage"}, {Key: "price.cooler_installed", Value: "$5,200"}}},
	}, j.Options())
	assert.Equal(t, 2, j.Shown())

	two, err := j.With(j.Options()[1])
	require.NoError(t, err)
	assert.Equal(t, job.TwoStage, two.Cooler.Kind)
	assert.Equal(t, 5200.0, two.Price.CoolerInstalled)
	assert.True(t, two.Stated("price.cooler_installed"))
	assert.Empty(t, two.Options())
	assert.Equal(t, job.Direct, j.Cooler.Kind, "the job itself stays")

	var out strings.Builder
	require.NoError(t, job.WriteTOML(&out, j, units.IP, false))
	again := job.New()
	require.NoError(t, again.ReadTOML(strings.NewReader(out.String()), "again.toml"), out.String())
	assert.Equal(t, j.Options(), again.Options())
	assert.Equal(t, 2, again.Shown(), "the option shown is kept")
}

func TestOptionsRefused(t *testing.T) {
	for _, r := range []struct{ file, want string }{
		{"[[option]]\nname = \"A\"\n", "house.toml:1:3: option \"A\" states no input"},
		{"[[option]]\ncooler.kind = \"direct\"\n", "house.toml:1:3: an option has no name"},
		{"[[option]]\nname = \"A\"\ncooler.kid = \"direct\"\n", "house.toml:3:1: no input is called \"cooler.kid\"\nhint: did you mean cooler.kind?"},
		{"[[option]]\nname = \"A\"\nsite.altitude = \"1 km\"\n", "house.toml:1:3: option \"A\": site.altitude is the same for all options"},
		{"[[option]]\nname = \"A\"\ncooler.effectiveness = 3\n", "house.toml:3:24: cooler.effectiveness: 3 is outside 0.05 to 1"},
		{"[[option]]\nname = \"A\"\ncooler.cycles = 3\n[[option]]\nname = \"a\"\ncooler.cycles = 4\n", "house.toml:4:3: two options are called \"a\""},
		{"[[option]]\nname = \"A\"\nshown = true\ncooler.cycles = 3\n[[option]]\nname = \"B\"\nshown = true\ncooler.cycles = 4\n", "house.toml:5:3: two options are to be shown\nhint: keep shown = true at one of them"},
		{"[[option]]\nname = \"A\"\nshown = \"yes\"\ncooler.cycles = 3\n", "house.toml:3:1: shown is true or false\nhint: write shown = true"},
		{"[[option]]\nname = 5\ncooler.cycles = 3\n", "house.toml:2:1: the name of an option is a text\nhint: write name = \"Two-stage\""},
		{"[[options]]\nname = \"A\"\n", "house.toml:1:3: [[options]] is a list of sections\nhint: did you mean [[option]]?"},
		{"[option]\nname = \"A\"\n", "house.toml:1:2: no section is called [option]\nhint: an option is headed [[option]]"},
		{"[option.cooler]\ncycles = 4\n", "no section is called [option.cooler]"},
	} {
		err := job.New().ReadTOML(strings.NewReader(r.file), "house.toml")
		assert.Contains(t, hint.Text(err), r.want, r.file)
	}
	j := job.New()
	for _, name := range []string{"A", "B", "C", "D"} {
		require.NoError(t, j.AddOption(job.Option{Name: name, Settings: []job.Setting{{Key: "cooler.cycles", Value: "4"}}}))
	}
	err := j.AddOption(job.Option{Name: "E", Settings: []job.Setting{{Key: "cooler.cycles", Value: "4"}}})
	assert.Contains(t, hint.Text(err), "one more than the 4")
	assert.Len(t, j.Options(), 4)
}

func TestParseOption(t *testing.T) {
	o, err := job.ParseOption("Two-stage: cooler.kind=two-stage, cooler.airflow=4,500 cfm, price.cooler_installed=5200")
	require.NoError(t, err)
	assert.Equal(t, job.Option{Name: "Two-stage", Settings: []job.Setting{
		{Key: "cooler.kind", Value: "two-stage"}, {Key: "cooler.airflow", Value: "4,500 cfm"}, {Key: "price.cooler_installed", Value: "5200"},
	}}, o)
	_, err = job.ParseOption("cooler.kind=two-stage")
	assert.Contains(t, hint.Text(err), "has no name")
	_, err = job.ParseOption("A: two-stage")
	assert.Contains(t, hint.Text(err), "has no =")
}
