package zone

import (
	"path/filepath"
	"testing"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/weather"
)

func BenchmarkSiteYear(b *testing.B) {
	path := filepath.Join("..", "..", "..", "shared", "weather", "zone", "tmy3-722780-az.csv.gz")
	for b.Loop() {
		s, err := weather.Open(path, weather.Options{})
		if err != nil {
			b.Fatal(err)
		}
		j := job.New()
		j.Resolve(s.Station.Name, s.Station.Elevation)
		c, err := climate.AtSite(s, j.Site)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := season.Run(c, j); err != nil {
			b.Fatal(err)
		}
	}
}
