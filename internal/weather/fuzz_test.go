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

// FuzzColumns does the same where the user names the columns.
func FuzzColumns(f *testing.F) {
	f.Add("time=Date,temperature_c=Temp (F),relative_humidity=RH", "Date,Temp (F),RH\n1/31/2023 1:00 PM,70,40\n1/31/2023 2:00 PM,71,39\n")
	f.Add("date=d,hour=h,temperature_k=t,dew_point_f=w", "d;h;t;w\n31.01.2023;24;290,5;40\n")
	f.Add("time_utc_ending=t,temperature=a °C,wet_bulb=b [C],pressure_mmhg=p,ghi=g", "# latitude: 40\nt\ta °C\tb [C]\tp\tg\n2023-01-31T00:00+05:30\t1\t0\t760\t-3\n")
	f.Add("year=y,month=m,day=d,hour=h,temperature_c=t,humidity_fraction=r", "y,m,d,h,t,r\n2023,1,31,5,1,0.5\n")
	f.Fuzz(func(t *testing.T, columns, text string) {
		names, err := ParseColumns(columns)
		if err != nil {
			return
		}
		opt := zoneSeven
		opt.Columns = names
		s, err := Read(strings.NewReader(text), "x", opt)
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
		if unicode.IsControl(r) && r != '\n' { // between several flaws
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
