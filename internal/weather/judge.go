package weather

import (
	"fmt"
	"math"
	"time"
)

// outlier is a cell whose number no air on the inhabited earth can show.
type outlier struct {
	quantity quantity
	at       *Error  // where and what, as an error would say it
	value    float64 // in the unit messages name
}

// Above these a file is refused instead of freed of its impossible values. Our
// own marks.
const (
	mostImpossible = 0.01           // of the rows
	longestSpoiled = 24 * time.Hour // of rows in a row
	placesNamed    = 3              // in a note or an error; the rest is counted
)

// weigh decides on the impossible values of a file: a few single ones are
// missing hours with a note, many are an error, as any is where the unit is
// only known from a heading or the user. What is wrong with all quantities is
// told at once.
func (o *observations) weigh() error { return refusal(o.refused()) }

// refused are the impossible values of each quantity that has too many; the
// others are noted.
func (o *observations) refused() (refused [][]*outlier) {
	for q := range quantities {
		var all []*outlier
		for i := range o.outliers {
			if o.outliers[i].quantity == q {
				all = append(all, &o.outliers[i])
			}
		}
		if len(all) == 0 {
			continue
		}
		if o.guessed || float64(len(all)) > mostImpossible*float64(len(o.rows)) && len(all) > placesNamed || o.longestRun(all) > longestSpoiled {
			o.suggest(q, all)
			refused = append(refused, all)
			continue
		}
		n := Note{Kind: NoteImpossible, Of: limits[q].name, Other: limits[q].si, Count: len(all)}
		for _, f := range all[:min(len(all), placesNamed)] {
			n.Places = append(n.Places, Place{Line: f.at.Line, Value: f.value})
		}
		o.notes = append(o.notes, n)
	}
	return refused
}

// besides counts the impossible values for which a file would be refused next,
// once its cells that cannot be read are mended; nil if there are none.
func (doc *document) besides(rows []observation) error {
	o := observations{rows: rows, outliers: doc.outliers, guessed: doc.guessed}
	var first *Error
	count := 0
	for _, all := range o.refused() {
		if count += len(all); first == nil || all[0].at.Line < first.Line {
			first = all[0].at
		}
	}
	if first == nil {
		return nil
	}
	also := *first
	also.Text = fmt.Sprintf("besides, impossible values, %d in all: %s", count, first.Text)
	return &also
}

// refusal names the first values of one quantity, or the first value of each of
// several.
func refusal(refused [][]*outlier) error {
	var wrong flaws
	for _, all := range refused {
		wrong.add(all[0].at)
		for _, f := range all[1:] {
			if len(refused) == 1 {
				wrong.add(f.at)
			} else {
				wrong.count++
			}
		}
	}
	return wrong.err()
}

// longestRun is the time that the longest run of flawed rows spans.
func (o *observations) longestRun(all []*outlier) time.Duration {
	bad := make(map[int]bool, len(all))
	for _, f := range all {
		bad[f.at.Line] = true
	}
	longest, from := time.Duration(0), -1
	for i := range o.rows {
		if !bad[o.rows[i].line] {
			from = -1
			continue
		}
		if from < 0 {
			from = i
		}
		longest = max(longest, o.rows[i].time.Sub(o.rows[from].time)+time.Hour)
	}
	return longest
}

// suggest says in the hint of the first value what many of one quantity look like.
func (o *observations) suggest(q quantity, all []*outlier) {
	if len(all) <= placesNamed {
		return
	}
	if unit := looksLike(q, all); unit != "" {
		all[0].at.Hint = fmt.Sprintf("%d of %d rows are like this: it looks like %s", len(all), len(o.rows), unit)
	}
}

// looksLike names the unit in which most impossible values would be possible.
func looksLike(q quantity, all []*outlier) string {
	for _, u := range otherUnits[q] {
		fit := 0
		for _, f := range all {
			if v := f.value / limits[q].scale; u.low <= v && v <= u.high {
				fit++
			}
		}
		if 10*fit >= 9*len(all) {
			return u.name
		}
	}
	return ""
}

// otherUnits are ranges of impossible values, in SI as the reader took them, and
// what they probably are.
var otherUnits = [quantities][]struct {
	low, high float64
	name      string
}{
	dryBulb:    {{60, 130, "°F"}, {200, 340, "kelvin"}, {340, 700, "tenths of a degree"}, {-1000, -99, "a code for missing values; name it with --missing"}},
	dewPoint:   {{45, 100, "°F"}, {200, 330, "kelvin"}, {-1000, -99, "a code for missing values; name it with --missing"}},
	wetBulb:    {{45, 100, "°F"}, {200, 330, "kelvin"}},
	pressure:   {{1500, 3300, "inHg"}, {5000, 11000, "kPa"}, {100, 450, "kPa or inHg"}, {5000000, 11000000, "Pa"}},
	relHum:     {{1.1, 10, "another quantity, or tenths of a per cent"}},
	irradiance: {{limits[irradiance].hi, 5000, "kJ/m²"}, {-10000, -20, "a code for missing values; name it with --missing"}},
}

// judge takes spikes out of the dry bulb, puts humidity above saturation right
// and refuses a file with spells in another unit.
func (o *observations) judge(t *timeline) error {
	o.saturate(t.rows)
	dry, filled := make([]float64, len(t.rows)), make([]bool, len(t.rows))
	for i := range t.rows {
		dry[i], filled[i] = t.rows[i].values[dryBulb], t.rows[i].filled
	}
	ring := closesToARing(len(dry), t.typical, t.at(t.keys[0], 2000), t.at(t.keys[len(t.keys)-1], 2000))
	if spells := wrongUnit(dry, ring); len(spells) > 0 {
		return o.spellError(t, spells)
	}
	found := spikes(dry, filled, ring)
	if len(found) == 0 {
		return nil
	}
	n := Note{Kind: NoteSpikes, Of: limits[dryBulb].name, Other: limits[dryBulb].si, Count: len(found)}
	for k, i := range found {
		r := &t.rows[i]
		if k < placesNamed {
			n.Places = append(n.Places, Place{Line: r.line, Time: r.time, Value: dry[i]})
		}
		r.values[dryBulb] = math.NaN()
	}
	o.notes = append(o.notes, n)
	return nil
}

// spellError says which hours are in which unit.
func (o *observations) spellError(t *timeline, spells []spell) error {
	var wrong flaws
	for _, s := range spells {
		row, low, high := &t.rows[s.from], math.Inf(1), math.Inf(-1)
		for i := s.from; i < s.to; i++ {
			if v := t.rows[i].values[dryBulb]; !math.IsNaN(v) {
				low, high = min(low, v), max(high, v)
			}
		}
		wrong.add(&Error{File: o.file, Line: row.line,
			Text: fmt.Sprintf("dry bulb from %s for %d h is %.1f to %.1f °C, not what the weeks before and after have; it looks like %s", row.time.Format(stampForm), s.to-s.from, low, high, s.is),
			Hint: "the publisher's file is wrong there: put these hours right or empty, or take another station"})
	}
	return wrong.err()
}

// Relative humidity somewhat above saturation is a sensor's, in air that is
// damp before and after; elsewhere it is an error. Common practice, no source;
// WMO-No. 8 lets no report exceed 100 %.
const (
	saturated    = 1.0
	dampBeside   = 0.85
	saturateGaps = 3 // hours to the neighbours at most
)

// saturate reads relative humidity above 100 % as saturated between damp hours
// and as missing elsewhere.
func (o *observations) saturate(rows []observation) {
	var high, wrong []int
	for i := range rows {
		if rows[i].values[relHum] <= saturated+1e-9 || math.IsNaN(rows[i].values[relHum]) {
			continue
		}
		if damp(rows, i, -1) && damp(rows, i, 1) {
			high = append(high, i)
		} else {
			wrong = append(wrong, i)
		}
	}
	o.noteHours(rows, NoteSaturated, high)
	o.noteHours(rows, NoteImpossible, wrong)
	for _, i := range high {
		rows[i].values[relHum] = saturated
	}
	for _, i := range wrong {
		rows[i].values[relHum] = math.NaN()
	}
}

func (o *observations) noteHours(rows []observation, kind NoteKind, hours []int) {
	if len(hours) == 0 {
		return
	}
	n := Note{Kind: kind, Of: limits[relHum].name, Other: limits[relHum].si, Count: len(hours)}
	for _, i := range hours[:min(len(hours), placesNamed)] {
		n.Places = append(n.Places, Place{Line: rows[i].line, Time: rows[i].time, Value: rows[i].values[relHum] * limits[relHum].scale})
	}
	o.notes = append(o.notes, n)
}

// damp tells whether the nearest hour on one side is damp; where none is near,
// the other side decides.
func damp(rows []observation, i, step int) bool {
	for k := 1; k <= saturateGaps; k++ {
		j := i + k*step
		if j < 0 || j >= len(rows) {
			return true
		}
		if v := rows[j].values[relHum]; !math.IsNaN(v) {
			return v > dampBeside
		}
	}
	return true
}
