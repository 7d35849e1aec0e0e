package cli

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/evapbook/evapbook/internal/csvcell"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/reading"
)

// FuzzVisits: any table of visits is judged or refused in a few lines with its
// name; what is written never holds more rows than were read, nor a formula.
func FuzzVisits(f *testing.F) {
	f.Add([]byte("site,altitude,outdoor,rh,supply\nA,6035ft,91F,14%,66F\nB,1600 m,34C,,22C\n"))
	f.Add([]byte("\ufeffSite,Altitude,Outdoor,Wet bulb,Supply,Note\n=1+1,6035ft,91F,58F,66F,\"a\nb\"\n"))
	f.Add([]byte("site,site\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		table, err := readVisits(text, "v.csv")
		var judged []judgedRow
		if err == nil {
			judged, err = table.judge(&reading.Written{})
		}
		if err != nil {
			if !strings.HasPrefix(err.Error(), "v.csv") || strings.Count(hint.Text(err), "\n") > 20 {
				t.Fatalf("not a short message with its place: %q", hint.Text(err))
			}
			return
		}
		if len(judged) != len(table.rows) {
			t.Fatalf("%d rows of %d", len(judged), len(table.rows))
		}
		var out bytes.Buffer
		if err := csvcell.Marshal(judged, &out, false); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			for _, cell := range row {
				if csvcell.Harmless(cell) != cell {
					t.Fatalf("a formula: %q", cell)
				}
			}
		}
	})
}
