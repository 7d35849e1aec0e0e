package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/data/sample"
)

// command runs evapbook and returns what it prints.
func command(t *testing.T, args ...string) (status int, out, errOut string) {
	t.Helper()
	var o, e bytes.Buffer
	status = Run(args, strings.NewReader(""), &o, &e)
	return status, o.String(), e.String()
}

func done(t *testing.T, args ...string) string {
	t.Helper()
	status, out, errOut := command(t, args...)
	require.Zero(t, status, errOut)
	return out
}

// townFile is two months of the sample's weather as a file of its own: enough
// to tell workbooks apart, and quickly written.
func townFile(t *testing.T, path string) {
	t.Helper()
	r, _ := sample.Open()
	var b bytes.Buffer
	_, err := b.ReadFrom(r)
	require.NoError(t, err)
	var kept []string
	for _, line := range strings.SplitAfter(b.String(), "\n") {
		if month := strings.Index(line, "-"); month != 4 || strings.HasPrefix(line[month:], "-07-") || strings.HasPrefix(line[month:], "-08-") {
			kept = append(kept, line)
		}
	}
	require.NoError(t, os.WriteFile(path, []byte(strings.Join(kept, "")), 0o644))
}

// statedLines are the lines of a job file that state something.
func statedLines(toml string) (lines []string) {
	for _, l := range strings.Split(toml, "\n") {
		if l != "" && l[0] != '#' && l[0] != '[' {
			lines = append(lines, l)
		}
	}
	return lines
}

// A workbook written from another, unchanged, is the same workbook: the inputs,
// the weather and the units come back.
func TestWriteFrom(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	require.NoError(t, os.Mkdir("weather", 0o755))
	townFile(t, "weather/town.csv")
	done(t, "write", "weather/town.csv", "--units", "si", "--allow-gaps", "--setpoint", "76F", "--cooler", "two-stage", "-o", "a.xlsx", "-q")
	done(t, "write", "--from", "a.xlsx", "-o", "b.xlsx", "-q")
	a, err := os.ReadFile("a.xlsx")
	require.NoError(t, err)
	b, err := os.ReadFile("b.xlsx")
	require.NoError(t, err)
	assert.True(t, bytes.Equal(a, b), "a.xlsx and b.xlsx differ")
	assert.Equal(t, []string{`kind = "two-stage"`, `setpoint = "76 °F"`}, statedLines(done(t, "job", "--from", "a.xlsx")))

	done(t, "write", "--from", "a.xlsx", "--setpoint", "25C", "-o", "c.xlsx", "-q")
	assert.Equal(t, []string{`kind = "two-stage"`, `setpoint = "25 °C"`}, statedLines(done(t, "job", "--from", "c.xlsx")), "flags come on top")

	t.Run("from elsewhere", func(t *testing.T) { // the path is seen from the workbook, too
		t.Chdir(t.TempDir())
		done(t, "write", "--from", filepath.Join(dir, "a.xlsx"), "-o", "d.xlsx", "-q")
	})
	t.Run("weather beside the workbook", func(t *testing.T) {
		t.Chdir(t.TempDir())
		require.NoError(t, os.WriteFile("a.xlsx", a, 0o644))
		status, _, errOut := command(t, "write", "--from", "a.xlsx", "-o", "e.xlsx", "-q")
		assert.Equal(t, exitFailed, status)
		assert.Contains(t, errOut, "weather/town.csv was not found")
		assert.Contains(t, errOut, "hint: give the weather file")
		assert.NoFileExists(t, "e.xlsx")
		townFile(t, "town.csv")
		done(t, "write", "--from", "a.xlsx", "-o", "e.xlsx", "-q")
	})
	t.Run("other weather of that name", func(t *testing.T) {
		t.Chdir(t.TempDir())
		require.NoError(t, os.WriteFile("a.xlsx", a, 0o644))
		townFile(t, "town.csv")
		f, err := os.OpenFile("town.csv", os.O_APPEND|os.O_WRONLY, 0)
		require.NoError(t, err)
		_, err = f.WriteString("\n")
		require.NoError(t, err)
		require.NoError(t, f.Close())
		status, _, errOut := command(t, "write", "--from", "a.xlsx", "-o", "e.xlsx", "-q")
		assert.Equal(t, exitFailed, status)
		assert.Contains(t, errOut, "town.csv is not the weather this workbook was written from")
		done(t, "write", "town.csv", "--allow-gaps", "--from", "a.xlsx", "-o", "e.xlsx", "-q")
	})
}

// The built-in sample needs no file, and a light workbook reads back as well.
func TestWriteFromSample(t *testing.T) {
	t.Chdir(t.TempDir())
	done(t, "write", "--values", "--set", "price.water=7/kgal", "-o", "light.xlsx", "-q")
	done(t, "write", "--from", "light.xlsx", "-o", "full.xlsx", "-q")
	light, err := os.Stat("light.xlsx")
	require.NoError(t, err)
	full, err := os.Stat("full.xlsx")
	require.NoError(t, err)
	assert.Less(t, light.Size()*4, full.Size(), "a light workbook is light")
	assert.Equal(t, []string{`water = "7 /kgal"`}, statedLines(done(t, "job", "--from", "full.xlsx")))
}

func TestFromFaults(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("text.xlsx", []byte("not a workbook"), 0o644))
	done(t, "write", "-o", "a.xlsx", "-q")
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"job", "--from", "no.xlsx"}, exitFailed, "no.xlsx: no such file"},
		{[]string{"job", "--from", "text.xlsx"}, exitFailed, "not a workbook that can be read"},
		{[]string{"write", "--from", "a.xlsx", "--job", "a.toml", "-o", "b.xlsx"}, exitUsage, "both say what the inputs are"},
		{[]string{"write", "--from", "a.xlsx", "-o", "a.xlsx", "--force"}, exitFailed, "cannot be written"},
	} {
		status, _, errOut := command(t, c.args...)
		assert.Equal(t, c.status, status, c.args)
		assert.Contains(t, errOut, c.says, c.args)
	}
}
