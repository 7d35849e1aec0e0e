// Package ranking carries one house through the climates of many sites: three
// kinds of cooler and any combinations of varied inputs at each, one [Row] for
// every site, combination and kind.
//
// A site is one weather file. Its altitude is that of the file. Only where the
// job of the [Plan] states one do all sites stand at it; an altitude in a job
// file is that of one house, so package cli passes on one from the command line
// only. The weather at the site is computed once and serves all kinds
// and combinations. Sites are independent of each other: they are spread over
// the cores, and an archive over machines by [Shard], and the rows come out in
// the order of the files and with the same bits either way.
//
// Rows travel between machines as Parquet, [WriteParquet] and [Join]; a part
// also carries what was asked and which files were left out, so that parts
// which do not belong together, or are not all there, are refused.
package ranking

import (
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/weather"
)

// Kinds are the kinds of cooler in the order of the rows, the simplest machine
// first.
var Kinds = [...]job.CoolerKind{job.Direct, job.Indirect, job.TwoStage}

// File is a weather file of the run.
type File struct {
	Path string // where it is
	Name string // how rows and messages call it

	// Sited, if not nil, is a place instead of a file: the weather is that of its
	// station.
	Sited *places.Sited
}

// read gives the weather of the file or of the place's station.
func (f *File) read(opt weather.Options) (*weather.Series, error) {
	if f.Sited != nil {
		return places.Read(f.Sited.Station(), opt)
	}
	return weather.Open(f.Path, opt)
}

// site is what to call the house's place, its elevation in m unless the job
// states it, and the region of the weather.
func (f *File) site(series *weather.Series) (name string, elevation float64, region string) {
	region = series.Station.Region()
	if f.Sited != nil {
		return f.Sited.Place.Name, f.Sited.Elevation(), region
	}
	return series.Place(), series.Station.Elevation, region
}

// LeftOut is a file without rows and the reason.
type LeftOut struct {
	Order  int    `json:"order"` // place of the file in the run, from 0
	File   string `json:"file"`
	Reason string `json:"reason"`
}

// Plan is what is asked of every site.
type Plan struct {
	Job     *job.Job // not resolved; the kind of cooler does not matter
	Weather weather.Options
	Axes    []Axis
}

// Table is the outcome of a run.
type Table struct {
	About
	Rows []Row     // by file, combination, kind
	Left []LeftOut // by file
}

// About says what a table is of. It goes with every part of a run.
type About struct {
	Version string `json:"version"` // of the program
	Job     string `json:"job"`     // what was stated, as a job file
	Weather string `json:"weather"` // how the files were read, where not as usual
	Axes    []Axis `json:"axes"`
	Files   int    `json:"files"` // of the whole run
	List    string `json:"list"`  // SHA-256 of the names of those files
	Shard   Shard  `json:"shard"`
}

// Sites counts the files that have rows.
func (t *Table) Sites() int {
	n, last := 0, -1
	for i := range t.Rows {
		if o := int(t.Rows[i].Order); o != last {
			n, last = n+1, o
		}
	}
	return n
}
