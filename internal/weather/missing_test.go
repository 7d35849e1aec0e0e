package weather

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMissingCodesAreStated(t *testing.T) {
	text := "time,Temp (C),RH (%),Stn Press (kPa)\n2023-07-01 00:00,-200,40,101.2\n2023-07-01 01:00,20,-200,101.3\n2023-07-01 02:00,#N/A,NULL,-\n"
	_, err := readText(text, zoneSeven)
	require.ErrorContains(t, told(err), "-200 is not a possible")
	opt := zoneSeven
	opt.Missing = []float64{-200}
	s, err := readText(text, opt)
	require.NoError(t, err)
	assertHour(t, s, "2023-07-01 00:00", nan, 0.4, 101200)
	assertHour(t, s, "2023-07-01 01:00", 20, nan, 101300)
	assertHour(t, s, "2023-07-01 02:00", nan, nan, nan)
	assert.Equal(t, "CSV by headings", s.Source.Format)
}
