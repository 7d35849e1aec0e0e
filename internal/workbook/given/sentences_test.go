package given

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/workbook/figures"
)

// Doubtful weather is said to be on the first page, with every reason.
func TestDoubt(t *testing.T) {
	c := &figures.Case{Series: &weather.Series{Notes: []weather.Note{{Kind: weather.NoteSorted}, {Kind: weather.NoteNoSun}, {Kind: weather.NoteCold, Value: 9}}}}
	assert.Equal(t, "DOUBTFUL WEATHER, to be cleared up before anybody relies on this page: global irradiance never exceeds 0 W/m² and is not used: it looks like another unit, or like none measured; "+
		"no hour of the warm half-year is above 9 °C; is the dry bulb in the unit that its heading says?", Doubt(c))
	c.Series.Notes = c.Series.Notes[:1]
	assert.Empty(t, Doubt(c))
}

// *Answer* says how old a typical year is, with what follows from it.
func TestYearsNote(t *testing.T) {
	old := []weather.Note{{Kind: weather.NoteSorted}, {Kind: weather.NoteTypicalOld, Of: "1981", Other: "2004"}}
	assert.Equal(t, "; a typical year joined from months of 1981 to 2004: recent summers have mostly been warmer", yearsNote(old))
	young := []weather.Note{{Kind: weather.NoteTypical, Of: "2006", Other: "2020"}}
	assert.Equal(t, "; a typical year joined from months of 2006 to 2020", yearsNote(young))
	assert.Empty(t, yearsNote([]weather.Note{{Kind: weather.NoteSorted}}))
}

// Where the pressures of a file contradict its elevation, *Answer* says which is
// used and how to set it, in the units of the reader.
func TestElevationNote(t *testing.T) {
	fitted := []weather.Note{{Kind: weather.NoteTypical}, {Kind: weather.NoteElevationFitted, Value: 835, Other: "701"}}
	assert.Equal(t, "; the station is taken at 835 m, which its pressures fit, not at the file's 701 m (--elevation sets another)", elevationNote(fitted, units.SI))
	assert.Contains(t, elevationNote(fitted, units.IP), "taken at 2,740 ft, which its pressures fit, not at the file's 2,300 ft")
	doubted := []weather.Note{{Kind: weather.NoteElevationDoubted, Value: 835, Other: "701"}}
	assert.Equal(t, "; the station is taken at the 701 m stated, though its pressures fit 835 m", elevationNote(doubted, units.SI))
	assert.Empty(t, elevationNote(nil, units.SI))
}
