package ranking

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// Run is a plan carried out over files.
type Run struct {
	Plan
	Version string // of the program, for About
	Files   []File // of the whole run, all shards
	Shard   Shard
	Workers int // sites at a time

	// Progress, if not nil, is told how many of the part's files are done; calls
	// do not overlap.
	Progress func(done, of int)
	// Keep, if not nil, is given the seasons of a site in the order of its rows,
	// before they are forgotten. It is called from several goroutines at once; an
	// error ends the run. To bound memory it is for runs without axes only.
	Keep func(f File, rows []Row, seasons []*season.Season) error
}

// result is what became of one file.
type result struct {
	done bool
	rows []Row
	left *LeftOut
}

// Do carries out the run. Files that cannot be used are left out and named;
// the error is then nil. If ctx ends, Do finishes the sites it is at and returns
// what is done with the error of ctx.
func (r *Run) Do(ctx context.Context) (*Table, error) {
	combos, err := combinations(r.Axes)
	if err != nil {
		return nil, err
	}
	if r.Keep != nil && len(combos) > 1 {
		return nil, hint.With(errors.New("the hours of many combinations are not kept"), "run one combination with --set")
	}
	mine := r.mine()
	results := make([]result, len(mine))
	if err = r.visitAll(ctx, mine, combos, results); err == nil && slices.ContainsFunc(results, func(x result) bool { return !x.done }) {
		err = ctx.Err()
	}
	t := &Table{About: r.about()}
	for _, x := range results {
		t.Rows = append(t.Rows, x.rows...)
		if x.left != nil {
			t.Left = append(t.Left, *x.left)
		}
	}
	return t, err
}

// Mine is the number of files of the part.
func (r *Run) Mine() int { return len(r.mine()) }

// mine lists the places of the part's files in the run.
func (r *Run) mine() []int {
	var mine []int
	for i := range r.Files {
		if r.Shard.Takes(i) {
			mine = append(mine, i)
		}
	}
	return mine
}

// visitAll spreads the files over the workers. Each writes its own result, so
// that the outcome does not depend on who is first.
func (r *Run) visitAll(ctx context.Context, mine []int, combos [][]Value, results []result) error {
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(1, r.Workers))
	var mu sync.Mutex
	done := 0
	for k, order := range mine {
		g.Go(func() error {
			if ctx.Err() != nil {
				return nil
			}
			var err error
			if results[k], err = r.visit(ctx, order, combos); err != nil {
				return err
			}
			mu.Lock()
			defer mu.Unlock()
			if done++; r.Progress != nil {
				r.Progress(done, len(mine))
			}
			return nil
		})
	}
	return g.Wait()
}

// visit makes the rows of one file. Only errors of Keep are returned; all
// others belong to the file, which is not done if ctx has ended the reading.
func (r *Run) visit(ctx context.Context, order int, combos [][]Value) (result, error) {
	f := r.Files[order]
	rows, seasons, err := r.site(ctx, f, combos, r.Keep != nil)
	if err == nil {
		err = writable(rows)
	}
	if err != nil && errors.Is(err, ctx.Err()) {
		return result{}, nil
	}
	if err != nil {
		return result{done: true, left: &LeftOut{Order: order, File: shown(f.Name), Reason: reason(f, err)}}, nil
	}
	for i := range rows {
		rows[i].File, rows[i].Order = shown(f.Name), int64(order)
	}
	if r.Keep != nil {
		if err := r.Keep(f, rows, seasons); err != nil {
			return result{}, err
		}
	}
	return result{done: true, rows: rows}, nil
}

// site runs all combinations and kinds at one site. The weather is brought to
// the site again only where a combination changes the site.
func (p *Plan) site(ctx context.Context, f File, combos [][]Value, keep bool) (rows []Row, seasons []*season.Season, err error) {
	series, err := p.oneYear(ctx, f)
	if err != nil {
		return nil, nil, err
	}
	var c *climate.Climate
	var there Row
	for n, combo := range combos {
		j := p.Job.Clone()
		if err := state(j, p.Axes, combo); err != nil {
			return nil, nil, err
		}
		for _, kind := range Kinds {
			j := j.Clone()
			if err := j.Set("cooler.kind", string(kind)); err != nil {
				return nil, nil, err
			}
			if err := j.Resolve(f.site(series)); err != nil {
				return nil, nil, err
			}
			if c == nil || c.Site != j.Site {
				if c, err = climate.AtSite(series, j.Site); err != nil {
					return nil, nil, err
				}
				there = weatherRow(series, c)
			}
			s, err := season.Run(c, j)
			if err != nil {
				return nil, nil, err
			}
			row := there
			row.Combination, row.Varied = int64(n), combo
			row.add(s, kind)
			rows = append(rows, row)
			if keep {
				seasons = append(seasons, s)
			}
		}
	}
	return rows, seasons, nil
}

func (r *Run) about() About {
	var stated strings.Builder
	if err := job.WriteTOML(&stated, r.Job, units.SI, false); err != nil {
		panic("ranking: a strings.Builder does not fail: " + err.Error())
	}
	return About{
		Version: r.Version, Job: strings.TrimSpace(stated.String()), Weather: reading(r.Weather), Axes: r.Axes,
		Files: len(r.Files), List: fingerprint(r.Files), Shard: r.Shard,
	}
}

// reason is an error with its hint on one line, as a cell of a table has it. It
// begins with the name of the file, under which all machines know it.
func reason(f File, err error) string {
	text := hint.OneLine(err)
	if rest, ok := strings.CutPrefix(text, f.Path); ok {
		return shown(f.Name + rest)
	}
	return shown(f.Name + ": " + text)
}

// reading says how files are read where it is not the usual way.
func reading(o weather.Options) string {
	var words []string
	if o.AllowGaps {
		words = append(words, "gaps allowed")
	}
	if o.Humidity != "" && o.Humidity != weather.PreferAuto {
		words = append(words, "humidity from "+string(o.Humidity))
	}
	for _, v := range []struct {
		what string
		val  *float64
	}{{"latitude", o.Latitude}, {"longitude", o.Longitude}, {"elevation", o.Elevation}, {"UTC offset", o.UTCOffset}} {
		if v.val != nil {
			words = append(words, fmt.Sprintf("%s %g", v.what, *v.val))
		}
	}
	return strings.Join(words, ", ")
}
