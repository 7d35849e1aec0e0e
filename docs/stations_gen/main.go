// Command stations_gen judges the typical years of the stations within the
// program and of those that stand beside the repository, and writes
// docs/stations.md: hours left out, files refused, and freeze dates that moved.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/places/columns"
	"github.com/evapbook/evapbook/internal/weather"
)

const page = "docs/stations.md"

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "stations_gen:", err)
		os.Exit(1)
	}
}

// tally is what is counted over all stations.
type tally struct {
	stations, clean, spiked, hours, filled, nights, byFlags int
	refused, moved                                          []string
}

func run() error {
	var t tally
	all := places.Stations()
	for i := range all {
		st := &all[i]
		s, err := places.Read(st, weather.Options{})
		if err != nil {
			t.stations++
			t.refused = append(t.refused, fmt.Sprintf("* %s: %v", st.Number, err))
			continue
		}
		raw, err := columns.Unpack(places.Block(st))
		if err != nil {
			return err
		}
		t.add(st.Number+" "+s.Place(), s, func(i int) float64 { return float64(raw.DryBulb[i]) / 10 })
	}
	files, err := filepath.Glob("../shared/weather/zone/*.csv.gz")
	if err != nil {
		return err
	}
	for _, f := range files {
		s, err := weather.Open(f, weather.Options{})
		if err != nil {
			t.stations++
			t.refused = append(t.refused, fmt.Sprintf("* %s: %v", filepath.Base(f), err))
			continue
		}
		t.add(filepath.Base(f), s, nil)
	}
	return os.WriteFile(page, []byte(t.text()), 0o644)
}

// add judges one station; before gives the dry bulb as it stood in the file, nil
// where nothing was taken out of it.
func (t *tally) add(name string, s *weather.Series, before func(i int) float64) {
	t.stations++
	var spikes *weather.Note
	for i := range s.Notes {
		switch n := &s.Notes[i]; n.Kind {
		case weather.NoteSpikes:
			spikes = n
			t.spiked++
			t.hours += n.Count
		case weather.NoteFilled:
			t.filled++
		case weather.NoteFilledNights:
			t.nights++
		}
	}
	judged := func(i int) float64 { return s.Hours[i].DryBulb }
	if spikes == nil {
		t.clean++
	}
	if before == nil || spikes == nil {
		before = judged
	}
	every := func(int) bool { return true }
	was, spikeless := freezes(s, before, every), freezes(s, judged, every)
	now := freezes(s, judged, func(i int) bool { return !s.Hours[i].Filled })
	if spikeless != now {
		t.byFlags++
	}
	if was != spikeless {
		t.moved = append(t.moved, fmt.Sprintf("| %s | %s | %s | %d: %s |", name, was, spikeless, spikes.Count, spikes.Text()[strings.Index(spikes.Text(), "(")+1:len(spikes.Text())-1]))
	}
}

// freezes are the last day at or below 0 °C before the day with the highest mean
// and the first after it, in a year taken as a circle.
func freezes(s *weather.Series, dryBulb func(i int) float64, counts func(i int) bool) string {
	days := len(s.Hours) / 24
	hottest, highest := 0, -1e9
	low := make([]bool, days)
	for d := range days {
		sum := 0.0
		for h := range 24 {
			i := 24*d + h
			sum += dryBulb(i)
			low[d] = low[d] || dryBulb(i) <= 0 && counts(i)
		}
		if sum > highest {
			hottest, highest = d, sum
		}
	}
	find := func(step int) string {
		for k := 1; k <= days/2; k++ {
			if d := (hottest + step*k + days) % days; low[d] {
				return s.Start(24 * d).Format("01-02")
			}
		}
		return "none"
	}
	return find(-1) + " and " + find(1)
}

func (t *tally) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, `# The stations, judged

Written by `+"`go run ./docs/stations_gen`"+` from the typical years within the program (TMY3, NREL/TP-581-43156, values as they stand there) and the
71 files of five western states beside the repository. The rules are in [weather.md](weather.md).

%d stations: in %d nothing was taken out, in %d dry bulbs that jump out and back (%d hours in all), %d refused. Station 703884 is not
in the program: 432 hours of its July are in °F, and reading its file is refused for that. In %d stations some hours were filled in
by the publisher, in %d more most of the nights; in %d a freeze date moves because it rested on filled hours only.

`, t.stations, t.clean, t.spiked, t.hours, len(t.refused), t.filled, t.nights, t.byFlags)
	for _, r := range t.refused {
		fmt.Fprintln(&b, r)
	}
	fmt.Fprintf(&b, "\n## Freeze dates that hung on a spike: %d stations\n\n| Station | Last and first freeze before | Now | Spikes |\n|---|---|---|---|\n", len(t.moved))
	for _, m := range t.moved {
		fmt.Fprintln(&b, m)
	}
	return b.String()
}
