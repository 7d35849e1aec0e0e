package ranking

import (
	"fmt"
	"io"
	"reflect"

	"github.com/evapbook/evapbook/internal/csvcell"
)

// record is the type of a row with a column for each axis: the fields of Row
// and, after them, V0, V1… It serves CSV and Parquet alike.
func record(axes []Axis) reflect.Type {
	var fields []reflect.StructField
	for _, f := range reflect.VisibleFields(reflect.TypeFor[Row]()) {
		if f.Name != "Varied" {
			fields = append(fields, reflect.StructField{Name: f.Name, Type: f.Type, Tag: f.Tag})
		}
	}
	for i, a := range axes {
		f := reflect.StructField{Name: fmt.Sprintf("V%d", i), Type: reflect.TypeFor[string]()}
		if a.Numeric() {
			f.Type = reflect.TypeFor[float64]()
		}
		f.Tag = reflect.StructTag(`csv:"` + a.Column() + `" parquet:"` + a.Column() + `"`)
		fields = append(fields, f)
	}
	return reflect.StructOf(fields)
}

// fixed is the number of columns that every table has.
var fixed = reflect.TypeFor[Row]().NumField() - 1

// fill puts a row into a record.
func fill(rec reflect.Value, r *Row) {
	from := reflect.ValueOf(r).Elem()
	for i := range fixed {
		rec.Field(i).Set(from.Field(i))
	}
	for i, v := range r.Varied {
		if f := rec.Field(fixed + i); f.Kind() == reflect.String {
			f.SetString(v.Word)
		} else {
			f.SetFloat(v.SI)
		}
	}
}

// take is the row in a record.
func take(rec reflect.Value) Row {
	var r Row
	to := reflect.ValueOf(&r).Elem()
	for i := range fixed {
		to.Field(i).Set(rec.Field(i))
	}
	for i := fixed; i < rec.NumField(); i++ {
		if f := rec.Field(i); f.Kind() == reflect.String {
			r.Varied = append(r.Varied, Value{Word: f.String()})
		} else {
			r.Varied = append(r.Varied, Value{SI: f.Float()})
		}
	}
	return r
}

// WriteCSV writes the rows with all digits; see [csvcell.Marshal] for raw.
func (t *Table) WriteCSV(w io.Writer, raw bool) error {
	records := reflect.MakeSlice(reflect.SliceOf(record(t.Axes)), len(t.Rows), len(t.Rows))
	for i := range t.Rows {
		fill(records.Index(i), &t.Rows[i])
	}
	return csvcell.Marshal(records.Interface(), w, raw)
}
