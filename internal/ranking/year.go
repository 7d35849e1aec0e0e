package ranking

import (
	"context"

	"github.com/evapbook/evapbook/internal/weather"
	"github.com/evapbook/evapbook/internal/years"
)

// open reads a weather file, but not beyond the end of ctx: a pipe may never
// give anything. The reading is then left behind.
func (p *Plan) open(ctx context.Context, f File) (*weather.Series, error) {
	type outcome struct {
		series *weather.Series
		err    error
	}
	done := make(chan outcome, 1)
	go func() {
		s, err := f.read(p.Weather)
		done <- outcome{s, err}
	}()
	select {
	case o := <-done:
		return o.series, o.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// oneYear reads a file and gives the year that stands for it, so that sites
// with longer records compare with the others: of several years the one that
// the workbook of a single site would show, a typical year or that of median
// coverage by the cooler as stated.
func (p *Plan) oneYear(ctx context.Context, f File) (*weather.Series, error) {
	series, err := p.open(ctx, f)
	if err != nil {
		return nil, err
	}
	all, err := years.Gather([]*weather.Series{series})
	if err != nil {
		return nil, err
	}
	if all.Single {
		return series, nil
	}
	j := p.Job.Clone()
	if err := j.Resolve(f.site(series)); err != nil {
		return nil, err
	}
	_, shown, err := years.Run(all, j, "")
	return shown, err
}
