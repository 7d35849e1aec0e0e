package ranking

import (
	"io"
	"time"

	"github.com/parquet-go/parquet-go"

	"github.com/evapbook/evapbook/internal/season"
)

// HourRow is one hour of one kind of cooler at a site, in SI; nil is a value
// that does not exist: everything in a missing hour, the indoor state in an
// idle one.
type HourRow struct {
	Time    time.Time `parquet:"time,timestamp(millisecond:local)"` // local standard time as the file prints it
	Kind    string    `parquet:"kind,dict"`
	Outcome string    `parquet:"outcome,dict"`

	T           *float64 `parquet:"temperature_c"`
	WetBulb     *float64 `parquet:"wet_bulb_c"`
	W           *float64 `parquet:"humidity_ratio"`
	P           *float64 `parquet:"pressure_pa"`
	Load        *float64 `parquet:"load_w"`
	Supply      *float64 `parquet:"supply_c"`
	Indoor      *float64 `parquet:"indoor_c"`
	IndoorRH    *float64 `parquet:"indoor_rh"`
	Share       *float64 `parquet:"flow_share"`
	Evaporated  *float64 `parquet:"evaporated_l"`
	CoolerKWh   *float64 `parquet:"cooler_kwh"`
	RefKWh      *float64 `parquet:"refrigerated_kwh"`
	BothKWh     *float64 `parquet:"both_kwh"`
	DegreesOver *float64 `parquet:"degrees_over_k"`
	House       *float64 `parquet:"house_c"`              // at the end of the hour, with the cooler
	RefHouse    *float64 `parquet:"refrigerated_house_c"` // the same, with refrigeration
}

// WriteHours writes the hours of a site as Parquet, season after season as the
// rows have them.
func WriteHours(w io.Writer, rows []Row, seasons []*season.Season) error {
	out := parquet.NewGenericWriter[HourRow](w, compression)
	var hours []HourRow
	for k, s := range seasons {
		hours = hours[:0]
		for i := range s.Hours {
			hours = append(hours, hourRow(s, i, &rows[k]))
		}
		if _, err := out.Write(hours); err != nil {
			return err
		}
	}
	return out.Close()
}

func hourRow(s *season.Season, i int, r *Row) HourRow {
	in, h := &s.Climate.Hours[i], &s.Hours[i]
	row := HourRow{Time: in.Time, Kind: r.Kind, Outcome: h.Outcome.String()}
	if h.Outcome == season.Missing {
		return row
	}
	row.T, row.WetBulb, row.W, row.P = &in.Air.T, &in.WetBulb, &in.Air.W, &in.Air.P
	row.Load, row.Supply, row.Share, row.Evaporated = &h.Load.Sensible, &h.Supply.T, &h.Share, &h.Evaporated
	row.CoolerKWh, row.RefKWh, row.BothKWh, row.DegreesOver = &h.CoolerKWh, &h.RefKWh, &h.BothKWh, &h.Over
	row.House, row.RefHouse = &h.House, &h.RefHouse
	if h.Outcome != season.Idle {
		row.Indoor, row.IndoorRH = &h.Indoor, &h.IndoorRH
	}
	return row
}
