package places

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	data "github.com/evapbook/evapbook/data/places"
	"github.com/evapbook/evapbook/internal/places/columns"
	"github.com/evapbook/evapbook/internal/weather"
)

// Read gives the station's year as package weather reads it from the station's
// own TMY3 file.
func Read(s *Station, opt weather.Options) (*weather.Series, error) {
	return ReadBlock(s, Block(s), opt)
}

// Block is the packed year of a station, for programs that keep the blocks
// outside themselves and give them back to ReadBlock.
func Block(s *Station) []byte { return []byte(data.Pack[s.at : s.at+s.bytes]) }

// ReadBlock is Read with the station's block from elsewhere. A program that
// never calls Read or Block does not contain the blocks.
func ReadBlock(s *Station, block []byte, opt weather.Options) (*weather.Series, error) {
	text, err := Text(s, block)
	if err != nil {
		return nil, err
	}
	series, err := weather.Read(strings.NewReader(text), "station "+s.Number, opt)
	if err != nil {
		return nil, err
	}
	series.Source.By = "the stations within this program, from NREL/TP-581-43156"
	return series, nil
}

// headings of a TMY3 file, those columns only that are read.
const headings = "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),Dry-bulb (C),Dry-bulb source,Dry-bulb uncert (code),Dew-point (C),RHum (%),Pressure (mbar)\n"

// Text is the station's TMY3 file, cut down to the columns that are read, with
// the values of the original. Read goes through it, so that a station within
// the program and its file in a folder are one thing to all that follows.
func Text(s *Station, block []byte) (string, error) {
	y, err := columns.Unpack(block)
	if err != nil {
		return "", fmt.Errorf("station %s: %w", s.Number, err)
	}
	out := make([]byte, 0, columns.Hours*56)
	out = append(out, s.head...)
	out = append(out, '\n')
	out = append(out, headings...)
	i := 0
	for month := time.January; month <= time.December; month++ {
		for day := 1; day <= daysIn(month); day++ {
			date := fmt.Sprintf("%02d/%02d/%s,", month, day, s.years[month-1])
			for hour := 1; hour <= 24; hour++ {
				out = append(out, date...)
				out = strconv.AppendInt(out, int64(hour), 10)
				out = append(out, ":00,"...)
				out = appendRow(out, y, i)
				i++
			}
		}
	}
	return string(out), nil
}

// daysIn is the length of a month in a typical year, which has no 29 February.
func daysIn(month time.Month) int {
	const common = 2001
	return time.Date(common, month+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// appendRow writes what stands behind date and time.
func appendRow(out []byte, y *columns.Year, i int) []byte {
	out = strconv.AppendInt(out, int64(y.GHI[i]), 10)
	out = append(out, ',')
	out = appendTenths(out, y.DryBulb[i])
	out = append(out, ',', y.Source[i], ',', certainty(y.Source[i]), ',')
	out = appendTenths(out, y.DewPoint[i])
	out = append(out, ',')
	out = strconv.AppendInt(out, int64(y.RelHum[i]), 10)
	out = append(out, ',')
	out = strconv.AppendInt(out, int64(y.Pressure[i]), 10)
	return append(out, '\n')
}

func appendTenths(out []byte, v int) []byte {
	if v < 0 {
		out, v = append(out, '-'), -v
	}
	out = strconv.AppendInt(out, int64(v/10), 10)
	return append(out, '.', byte('0'+v%10))
}

// certainty is the code of uncertainty that goes with a flag of dry bulb in all
// hours of all stations: observed 7, filled 8, by statistics 9.
func certainty(source byte) byte {
	switch source {
	case 'A':
		return '7'
	case 'B':
		return '8'
	}
	return '9'
}
