package weather

import "fmt"

// darken takes readings slightly below zero, a pyranometer's offset at night,
// as zero.
func (o *observations) darken() {
	n := 0
	for i := range o.rows {
		if v := &o.rows[i].values[irradiance]; *v < 0 {
			*v = 0
			n++
		}
	}
	if n > 0 {
		o.notes = append(o.notes, Note{Text: fmt.Sprintf("global irradiance: %d readings between %d and 0 W/m², the offset of a pyranometer at night, were taken as 0", n, nightOffset)})
	}
}
