package weather

import (
	"errors"
	"slices"

	"github.com/gocarina/gocsv"
)

// decode takes the rows of a block. gocsv stops at the first cell it cannot
// read, so then each such cell is put on the list of what is wrong and emptied,
// or its row left out where it is part of the time, and the rest is looked at too.
func (t *table) decode() ([]record, error) {
	var records []record
	err := gocsv.UnmarshalCSV(t, &records)
	if err == nil {
		return records, nil
	}
	before := t.wrong.count
	t.setAside()
	if t.wrong.count == before {
		return nil, fileError(t.scan.name, "", "%v", err)
	}
	records, t.served = nil, 0
	if err := gocsv.UnmarshalCSV(t, &records); err != nil {
		return nil, fileError(t.scan.name, "", "%v", err)
	}
	return records, nil
}

// setAside takes the cells that cannot be read out of the block.
func (t *table) setAside() {
	kept := 0
	for i, row := range t.rows {
		dated := true
		for p, key := range t.keys {
			var err error
			switch {
			case slices.Contains(quantityKeys[:], key):
				err = new(number).UnmarshalCSV(row[p])
			case slices.Contains(dateKeys, key):
				err = new(whole).UnmarshalCSV(row[p])
				dated = dated && err == nil
			}
			if err != nil {
				t.wrong.add(t.errorAt(i, p, err.Error(), cellHint(err)))
				row[p] = ""
			}
		}
		if dated {
			t.rows[kept], t.lines[kept] = row, t.lines[i]
			if t.sourceAt >= 0 {
				t.sources[kept] = t.sources[i]
			}
			kept++
		}
	}
	t.rows, t.lines = t.rows[:kept], t.lines[:kept]
}

// dateKeys are the keys of columns that hold a whole number of the time.
var dateKeys = []string{"year", "month", "day", "hour", "minute"}

func cellHint(err error) string {
	switch {
	case errors.Is(err, errThousands):
		return "write 1013.2, without separators between thousands"
	case errors.Is(err, errDecimalComma):
		return "write a decimal point"
	}
	return "correct the cell, or leave it empty if nothing was measured"
}
