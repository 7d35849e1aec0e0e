package weather

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
)

// PVGIS typical year as JSON: the names, units and clock of the CSV form.
// Source: European Commission Joint Research Centre, PVGIS user manual, and the
// "meta" section of the document itself.
const pvgisJSON = "PVGIS JSON"

type pvgisDocument struct {
	Inputs struct {
		Location struct {
			Latitude  *float64 `json:"latitude"`
			Longitude *float64 `json:"longitude"`
			Elevation *float64 `json:"elevation"`
		} `json:"location"`
	} `json:"inputs"`
	Outputs struct {
		Rows []pvgisRow `json:"tmy_hourly"`
	} `json:"outputs"`
}

// pvgisRow is one hour; null is a missing value.
type pvgisRow struct {
	Time     string   `json:"time(UTC)"`
	DryBulb  *float64 `json:"T2m"`  // °C
	RelHum   *float64 `json:"RH"`   // %
	Pressure *float64 `json:"SP"`   // Pa
	GHI      *float64 `json:"G(h)"` // W/m²
}

func isPVGISJSON(head []string) bool {
	start := strings.Join(head, "\n")
	return strings.HasPrefix(start, "{") && strings.Contains(start, `"inputs"`) && strings.Contains(start, `"radiation_db"`)
}

func readPVGISJSON(doc *document) (*observations, error) {
	var in pvgisDocument
	if err := json.Unmarshal([]byte(doc.text), &in); err != nil {
		return nil, pvgisJSONError(doc, err)
	}
	if len(in.Outputs.Rows) == 0 {
		return nil, fileError(doc.name, "download the typical year (TMY) of PVGIS; its other series have no humidity", "holds no rows of outputs.tmy_hourly")
	}
	at := in.Inputs.Location
	o := &observations{file: doc.name, station: unknownStation(), utc: true, mayJoin: true}
	o.station.Latitude, o.station.Longitude, o.station.Elevation = orNaN(at.Latitude), orNaN(at.Longitude), orNaN(at.Elevation)
	if err := o.station.check(doc.name, 0); err != nil {
		return nil, err
	}
	for i := range in.Outputs.Rows {
		row, err := in.Outputs.Rows[i].observe(doc, i+1)
		if err != nil {
			return nil, err
		}
		o.rows = append(o.rows, row)
	}
	return o, nil
}

// observe turns row n of the list, counted from 1, into SI. Rows have no lines of
// their own, so their number stands for it.
func (r *pvgisRow) observe(doc *document, n int) (observation, error) {
	flawed := func(text string) *Error {
		return fileError(doc.name, "download it again", "row %d of outputs.tmy_hourly: %s", n, text)
	}
	at, err := pvgisStamp(&record{Clock: r.Time})
	if err != nil {
		return observation{}, flawed(err.Error())
	}
	o := emptyRow()
	o.line, o.time = n, at
	o.values[dryBulb], o.values[relHum] = orNaN(r.DryBulb), percent(orNaN(r.RelHum))
	o.values[pressure], o.values[irradiance] = orNaN(r.Pressure), orNaN(r.GHI)
	for q, v := range o.values {
		if l := limits[q]; !quantity(q).possible(v) {
			text := fmt.Sprintf("%g is not a possible %s (%g to %g %s)", v*l.scale, l.name, l.lo*l.scale, l.hi*l.scale, l.si)
			doc.outliers = append(doc.outliers, outlier{quantity(q), flawed(text), v * l.scale})
			o.values[q] = math.NaN()
		}
	}
	return o, nil
}

func orNaN(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// pvgisJSONError places a flaw of the document on its line.
func pvgisJSONError(doc *document, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	at := 0
	switch {
	case errors.As(err, &syntax):
		at = int(syntax.Offset)
	case errors.As(err, &kind):
		return &Error{File: doc.name, Line: lineAt(doc.text, int(kind.Offset)), Text: fmt.Sprintf("%s holds a %s where a number or text is expected", kind.Field, kind.Value), Hint: "download it again"}
	}
	return &Error{File: doc.name, Line: lineAt(doc.text, at), Text: "the JSON document is damaged or cut short", Hint: "download it again"}
}

// lineAt is the line of a byte, counted from 1.
func lineAt(text string, offset int) int {
	return 1 + strings.Count(text[:min(max(offset, 0), len(text))], "\n")
}
