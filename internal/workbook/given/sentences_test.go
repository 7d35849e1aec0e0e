package given

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

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
