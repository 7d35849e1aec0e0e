// Command stations_gen judges the typical years of the stations within the
// program and of those that stand beside the repository, and writes
// docs/stations.md: hours left out of each, files refused, and freeze dates that
// moved.
package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
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

// tally is what is found over all stations.
type tally struct {
	stations, clean, hours, filled, nights, byFlags int
	refused, spiked                                 []string
	moved                                           int
}

func run() error {
	var inside, beside tally
	all := places.Stations()
	for i := range all {
		s, err := places.Read(&all[i], weather.Options{})
		if err := inside.add(all[i].Number+" "+strings.TrimSpace(all[i].Name+", "+all[i].State), s, err, &all[i]); err != nil {
			return err
		}
	}
	files, err := filepath.Glob("../shared/weather/zone/*.csv.gz")
	if err != nil {
		return err
	}
	for _, f := range files {
		s, err := weather.Open(f, weather.Options{})
		number := strings.Split(filepath.Base(f), "-")[1]
		st, _ := places.ByNumber(number)
		if err := beside.add(filepath.Base(f), s, err, st); err != nil {
			return err
		}
	}
	return os.WriteFile(page, []byte(text(&inside, &beside)), 0o644)
}

// add judges one station as it was read, or was refused. raw is the station
// within the program, whose hours are those of the file before judging; nil where
// it is not there.
func (t *tally) add(name string, s *weather.Series, refused error, raw *places.Station) error {
	t.stations++
	if refused != nil {
		t.refused = append(t.refused, fmt.Sprintf("* %s: %s", name, hint.OneLine(refused)))
		return nil
	}
	spikes := -1
	for i := range s.Notes {
		switch s.Notes[i].Kind {
		case weather.NoteSpikes:
			spikes = i
		case weather.NoteFilled:
			t.filled++
		case weather.NoteFilledNights:
			t.nights++
		}
	}
	now, err := freezes(s)
	if err != nil {
		return err
	}
	if spikes < 0 {
		t.clean++
	} else if err := t.addSpiked(name, s, s.Notes[spikes], now, raw); err != nil {
		return err
	}
	unflagged := *s
	unflagged.Hours = slices.Clone(s.Hours)
	for i := range unflagged.Hours {
		unflagged.Hours[i].Filled = false
	}
	without, err := freezes(&unflagged)
	if without != now {
		t.byFlags++
	}
	return err
}

// addSpiked lists a station of which hours were left out.
func (t *tally) addSpiked(name string, s *weather.Series, note weather.Note, now string, raw *places.Station) error {
	t.hours += note.Count
	nights := slices.ContainsFunc(s.Notes, func(n weather.Note) bool { return n.Kind == weather.NoteFilledNights })
	was := "not in the program"
	if raw != nil {
		block, err := columns.Unpack(places.Block(raw))
		if err != nil {
			return err
		}
		before := *s
		before.Hours = slices.Clone(s.Hours)
		for i := range before.Hours {
			h := &before.Hours[i]
			h.DryBulb, h.Filled = float64(block.DryBulb[i])/10, !nights && block.Source[i] != 'A'
			if math.IsNaN(h.Humidity) {
				h.Humidity = 0.5 // any: no date hangs on it
			}
		}
		if was, err = freezes(&before); err != nil {
			return err
		}
	}
	if was == now {
		was, now = "", "as before"
	} else {
		t.moved++
	}
	_, which, _ := strings.Cut(strings.TrimSuffix(note.Text(), ")"), "(")
	t.spiked = append(t.spiked, fmt.Sprintf("| %s | %d | %s | %s | %s |", name, note.Count, which, was, now))
	return nil
}

// freezes are the last and the first freeze, at the station's own height.
func freezes(s *weather.Series) (string, error) {
	j := job.New()
	if err := j.Resolve(s.Station.Name, s.Station.Elevation, s.Station.Region()); err != nil {
		return "", err
	}
	c, err := climate.AtSite(s, j.Site)
	if err != nil {
		return "", err
	}
	date := func(i int) string {
		if i < 0 {
			return "none"
		}
		return c.Days[i].Date.Format("01-02")
	}
	return date(c.Calendar.LastFreeze) + " and " + date(c.Calendar.FirstFreeze), nil
}

func text(inside, beside *tally) string {
	var b strings.Builder
	fmt.Fprint(&b, `# The stations, judged

Written by `+"`go run ./docs/stations_gen`"+`. The rules are in [weather.md](weather.md). Values are those of the TMY3 set (NREL/TP-581-43156) as they
stand there. Every station that is not named below lost no hour.

The set beside the repository has 1,011 stations. Two of them are left out of the program, for hours in °F among those in °C: 703884 (432 hours of
July above 40 °C at 55° N; reading its file is refused for that) and 703407 (120 hours of April up to 48 °C in Alaska).

`)
	for _, part := range []struct {
		title string
		t     *tally
	}{{"The stations within the program", inside}, {"The 71 files of five western states", beside}} {
		t := part.t
		fmt.Fprintf(&b, "## %s\n\n%d stations, %d refused. From %d nothing was taken out, from %d hours of dry bulb that jump out and back, with the filled\n"+
			"hours beside them: %d hours in all; in %d of these a freeze date moved. In %d stations some hours were filled in by the publisher, in %d more most\n"+
			"of the nights; in %d a freeze date differs because it rested on filled hours only.\n\n",
			part.title, t.stations, len(t.refused), t.clean, len(t.spiked), t.hours, t.moved, t.filled, t.nights, t.byFlags)
		for _, r := range t.refused {
			fmt.Fprintln(&b, r)
		}
		if len(t.spiked) == 0 {
			continue
		}
		fmt.Fprint(&b, "| Station | Hours left out | Which | Last and first freeze with them | Now |\n|---|--:|---|---|---|\n")
		for _, s := range t.spiked {
			fmt.Fprintln(&b, s)
		}
		fmt.Fprintln(&b)
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}
