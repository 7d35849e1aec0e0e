package weather

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
		o.notes = append(o.notes, Note{Kind: NoteNightOffset, Count: n, Value: nightOffset})
	}
}
