package places

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	data "github.com/evapbook/evapbook/data/places"
	"github.com/evapbook/evapbook/internal/weather"
)

func TestStations(t *testing.T) {
	all := Stations()
	assert.Len(t, all, 1009)
	end := 0
	for i := range all {
		s := &all[i]
		assert.Len(t, s.Number, 6)
		assert.Len(t, s.years, 12)
		assert.GreaterOrEqual(t, s.at, end)
		end = s.at + s.bytes
	}
	assert.Equal(t, len(data.Pack), end, "catalogue and blocks belong together")
	for _, number := range []string{"703884", "703407"} {
		_, ok := ByNumber(number)
		assert.False(t, ok, "known to be bad")
	}
}

// Stations that are offered can be read: some here, all of them in the long test.
func TestStationsRead(t *testing.T) { readStations(t, 20) }

// readStations reads every nth station.
func readStations(t *testing.T, nth int) {
	t.Helper()
	all := Stations()
	for i := 0; i < len(all); i += nth {
		series, err := Read(&all[i], weather.Options{})
		if assert.NoError(t, err, all[i].Full()) {
			assert.Len(t, series.Hours, 8760)
			assert.Equal(t, all[i].State, series.Station.State, "the price of electricity goes by it")
		}
	}
}

func TestReadSaysWhereItIsFrom(t *testing.T) {
	s, ok := ByNumber("724880")
	require.True(t, ok)
	series, err := Read(s, weather.Options{})
	require.NoError(t, err)
	assert.Equal(t, "station 724880", series.Source.Name)
	assert.Equal(t, "RENO TAHOE INTERNATIONAL AP, NV", series.Place())
	assert.Equal(t, "US", series.Station.Country)
	assert.True(t, series.Typical)
}

func TestReadBlockRefusesADamagedOne(t *testing.T) {
	s, _ := ByNumber("724880")
	whole := Block(s)
	for _, bad := range [][]byte{nil, whole[:3], whole[:len(whole)-1], append(Block(s), 0), make([]byte, 200)} {
		_, err := ReadBlock(s, bad, weather.Options{})
		assert.ErrorContains(t, err, "station 724880: the packed year of the station is damaged")
	}
}

func BenchmarkText(b *testing.B) {
	s, _ := ByNumber("724880")
	for b.Loop() {
		if _, err := Text(s, Block(s)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	s, _ := ByNumber("724880")
	for b.Loop() {
		if _, err := Read(s, weather.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
