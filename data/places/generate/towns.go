package main

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
)

// townsLeftOut are rows, by name, state, latitude and longitude, in which two
// places of one name were mixed: the people of Stratton on the plains at the
// position of a mining camp of that name at 3,168 m.
var townsLeftOut = map[string]bool{"Stratton,CO,38.748,-105.150": true}

// townTable checks the table and sorts it by state and name, the most populous
// of one name first.
func townTable(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = 6
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	head, rows := rows[0], rows[1:]
	for i, row := range rows {
		for _, number := range row[2:] {
			if _, err := strconv.ParseFloat(number, 64); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", path, i+2, err)
			}
		}
	}
	people := func(row []string) int { n, _ := strconv.Atoi(row[5]); return n }
	slices.SortStableFunc(rows, func(a, b []string) int {
		return cmp.Or(cmp.Compare(a[1], b[1]), cmp.Compare(a[0], b[0]), cmp.Compare(people(b), people(a)))
	})
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Write(head)
	for _, row := range rows {
		if !townsLeftOut[strings.Join(row[:4], ",")] {
			row[0] = strings.TrimSuffix(row[0], ", "+row[1]) // one name carries its state
			w.Write(row)
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}
