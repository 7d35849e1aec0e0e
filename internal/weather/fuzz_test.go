package weather

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
)

// FuzzRead feeds the readers damaged files: nothing panics, every error says
// where and what, and what is accepted keeps the promises of Series.
func FuzzRead(f *testing.F) {
	seeds, err := filepath.Glob(filepath.Join(inventedFolder, "invented-*"))
	if err != nil || len(seeds) == 0 {
		f.Fatal("no invented files to start from")
	}
	for _, s := range seeds {
		raw, err := os.ReadFile(s)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
		f.Add(gzipped(f, string(raw)))
		f.Add(zipped(f, "a.csv", string(raw)))
	}
	f.Fuzz(func(t *testing.T, stored []byte) {
		s, err := Read(strings.NewReader(string(stored)), "x", zoneSeven)
		if err != nil {
			checkFlaw(t, err)
			return
		}
		checkSeries(t, s)
	})
}

func checkFlaw(t *testing.T, err error) {
	var flaw *Error
	if !errors.As(err, &flaw) || flaw.File == "" || flaw.Text == "" {
		t.Fatalf("error without a place: %v", err)
	}
	if flaw.Column > 0 && flaw.Line == 0 {
		t.Fatalf("column without a line: %v", err)
	}
	for _, r := range err.Error() {
		if unicode.IsControl(r) {
			t.Fatalf("control character in %q", err.Error())
		}
	}
}

func checkSeries(t *testing.T, s *Series) {
	if len(s.Hours) == 0 || len(s.Hours)%24 != 0 {
		t.Fatalf("%d hours are not whole days", len(s.Hours))
	}
	for i, h := range s.Hours {
		if got := s.Start(i).Hour(); got != i%24 {
			t.Fatalf("hour %d begins at %02d", i, got)
		}
		for q, v := range map[quantity]float64{dryBulb: h.DryBulb, pressure: h.Pressure, irradiance: h.GHI} {
			if !quantity(q).possible(v) || math.IsInf(v, 0) {
				t.Fatalf("hour %d has %s %g", i, limits[q].name, v)
			}
		}
	}
}
