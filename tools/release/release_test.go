package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/tools/licences"
)

// An archive depends on names and bytes alone: not on the order of files, where
// they lie, or when they were written. make release-check does so with all of it.
func TestArchivesAreTheSameBytes(t *testing.T) {
	when := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	for name, write := range map[string]func(string, []file, time.Time) error{"tar.gz": writeTar, "zip": writeZip} {
		var made [2][]byte
		for i := range made {
			folder := t.TempDir()
			a, b := filepath.Join(folder, "x"), filepath.Join(folder, "y")
			require.NoError(t, os.WriteFile(a, []byte("one"), 0o600))
			require.NoError(t, os.WriteFile(b, []byte("two"), 0o644))
			require.NoError(t, os.Chtimes(a, when, when.Add(time.Duration(i)*time.Hour)))
			files := []file{{"e/a", a, 0o755}, {"e/b", b, 0o644}}
			if i == 1 {
				files[0], files[1] = files[1], files[0]
			}
			path := filepath.Join(folder, "archive")
			require.NoError(t, write(path, files, when))
			made[i], _ = os.ReadFile(path)
		}
		assert.NotEmpty(t, made[0], name)
		assert.Equal(t, made[0], made[1], name)
	}
}

func TestOrigin(t *testing.T) {
	t.Setenv("SOURCE_DATE_EPOCH", "1777636800")
	t.Setenv("EVAPBOOK_VERSION", "v1.2.3-rc.1")
	o, err := originOf(t.TempDir())
	require.NoError(t, err)
	assert.Equal(t, "2026-05-01", o.date.Format("2006-01-02"))
	assert.Equal(t, "1.2.3-rc.1", o.number())
	assert.Equal(t, "1.2.3~rc.1", o.packaged(), "sorts before 1.2.3")
	t.Setenv("SOURCE_DATE_EPOCH", "yesterday")
	_, err = originOf(t.TempDir())
	assert.ErrorContains(t, err, "no number of seconds")
}

func TestBill(t *testing.T) {
	o := origin{"v1.2.3", time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)}
	b, err := billOf(o, []licences.Module{{Path: "example.org/a", Version: "v1.0.0", Sum: "h1:AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=", Licence: "MIT"}})
	require.NoError(t, err)
	text, err := json.Marshal(b.Components)
	require.NoError(t, err)
	assert.JSONEq(t, `[{"type":"library","bom-ref":"pkg:golang/example.org/a@v1.0.0","name":"example.org/a","version":"v1.0.0",
		"hashes":[{"alg":"SHA-256","content":"000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f"}],
		"licenses":[{"expression":"MIT"}],"purl":"pkg:golang/example.org/a@v1.0.0"}]`, string(text))
	assert.Equal(t, []string{"pkg:golang/example.org/a@v1.0.0"}, b.Dependencies[0].DependsOn)
	assert.Regexp(t, `^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`, b.SerialNumber)
}

// go install of a version works only where go.mod replaces and leaves out nothing.
func TestNothingStandsInTheWayOfGoInstall(t *testing.T) {
	text, err := exec.Command("go", "mod", "edit", "-json", "../../go.mod").Output()
	require.NoError(t, err)
	var mod struct {
		Module           struct{ Path string }
		Replace, Exclude []any
	}
	require.NoError(t, json.Unmarshal(text, &mod))
	assert.Equal(t, "github.com/evapbook/evapbook", mod.Module.Path)
	assert.Empty(t, mod.Replace)
	assert.Empty(t, mod.Exclude)
}

// Who unpacks an archive finds what its pages lead to.
func TestPagesOfAnArchiveLeadSomewhere(t *testing.T) {
	papers, err := documents("../..")
	require.NoError(t, err)
	packed := map[string]bool{"LICENSE": true, "NOTICE": true}
	for _, p := range papers {
		packed[p.name] = true
	}
	link, seen := regexp.MustCompile(`\]\(([^)#\s]+)[^)\s]*\)`), 0
	for _, p := range papers {
		if path.Ext(p.name) != ".md" {
			continue
		}
		text, err := os.ReadFile(p.path)
		require.NoError(t, err)
		for _, m := range link.FindAllSubmatch(text, -1) {
			if target := string(m[1]); !strings.Contains(target, "://") {
				seen++
				assert.True(t, packed[path.Join(path.Dir(p.name), target)], "%s: %s", p.name, target)
			}
		}
	}
	assert.Greater(t, seen, 100)
}

// A folder that holds anything else is never emptied.
func TestClearKeepsOtherFolders(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "photos"), nil, 0o644))
	assert.ErrorContains(t, clear(folder), "photos")
	assert.FileExists(t, filepath.Join(folder, "photos"))
}
