package weather

import (
	"encoding/csv"
	"io"
	"strings"
	"testing"
)

// BenchmarkReadTMY3 reads an invented TMY3 year from memory, hash included.
func BenchmarkReadTMY3(b *testing.B) {
	text := tmy3Text(nil)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := readText(text, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkScanTMY3 is the yardstick: encoding/csv cutting the same text.
func BenchmarkScanTMY3(b *testing.B) {
	text := tmy3Text(nil)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		r := csv.NewReader(strings.NewReader(text))
		r.FieldsPerRecord = -1
		r.ReuseRecord = true
		for {
			if _, err := r.Read(); err == io.EOF {
				break
			} else if err != nil {
				b.Fatal(err)
			}
		}
	}
}
