package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/readback"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/weather"
)

// largestJob is far beyond any job file, which package job limits more closely.
const largestJob = 1 << 20

// jobFlags are the flags that state a job.
type jobFlags struct {
	job   string
	set   []string
	units string
	short map[string]*string
	from  string         // of write and job only
	offer []string       // options, likewise
	show  string         // the option to be shown, likewise
	base  *readback.Book // what from holds
}

// shorthand flags stand for the keys people change most.
var shorthand = []struct{ flag, key, usage string }{
	{"altitude", "site.altitude", "altitude of the site, e.g. 5430ft or 1655m (default: the station's)"},
	{"floor-area", "house.floor_area", "cooled floor area, e.g. 1800ft2"},
	{"setpoint", "house.setpoint", "indoor temperature to keep, e.g. 78F"},
	{"airflow", "cooler.airflow", "air delivered at full speed, e.g. 4500cfm"},
	{"effectiveness", "cooler.effectiveness", "rated saturation effectiveness, 0 to 1"},
	{"cooler", "cooler.kind", "direct, indirect or two-stage"},
}

type flagSet interface {
	StringVar(p *string, name, value, usage string)
	StringArrayVar(p *[]string, name string, value []string, usage string)
	BoolVar(p *bool, name string, value bool, usage string)
}

func (o *jobFlags) add(f flagSet) {
	f.StringVar(&o.job, "job", "", "job file in TOML; evapbook job prints a commented one")
	f.StringArrayVar(&o.set, "set", nil, "set an input, as key=value; may be repeated")
	f.StringVar(&o.units, "units", "", "ip or si: the units people see (default: ip for sites in the United States)")
	o.short = map[string]*string{}
	for _, s := range shorthand {
		o.short[s.key] = new(string)
		f.StringVar(o.short[s.key], s.flag, "", s.usage)
	}
}

// build makes the job: defaults, then the job file, then --set, then the
// shorthand flags.
func (o *jobFlags) build() (*job.Job, error) {
	j := job.New()
	if o.base != nil {
		j = o.base.Job.Clone()
		j.Proposal.Logo = besideBook(o.from, j.Proposal.Logo)
	}
	if o.job != "" {
		f, err := openInput(o.job, largestJob)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		if err := j.ReadTOML(f, o.job); err != nil {
			return nil, err
		}
		j.Proposal.Logo = besideJob(o.job, j.Proposal.Logo)
	}
	for _, kv := range o.set {
		key, value, ok := strings.Cut(kv, "=")
		if !ok {
			return nil, hint.With(usagef("--set %s: no = between key and value", kv), "write --set cooler.effectiveness=0.85")
		}
		if err := j.Set(strings.TrimSpace(key), strings.TrimSpace(value)); err != nil {
			return nil, fmt.Errorf("--set: %w", err)
		}
	}
	for _, s := range shorthand {
		if v := *o.short[s.key]; v != "" {
			if err := j.Set(s.key, v); err != nil {
				return nil, fmt.Errorf("--%s: %w", s.flag, err)
			}
		}
	}
	for _, text := range o.offer {
		option, err := job.ParseOption(text)
		if err == nil {
			err = j.AddOption(option)
		}
		if err != nil {
			return nil, fmt.Errorf("--option: %w", err)
		}
	}
	if o.show != "" {
		if err := j.Show(o.show); err != nil {
			return nil, fmt.Errorf("--show: %w", err)
		}
	}
	return j, nil
}

const optionUsage = "an option to set beside the house as entered, as \"Two-stage: cooler.kind=two-stage, cooler.airflow=5000cfm\"; may be repeated"

const showUsage = "the option the book shows in full, by its name, e.g. Two-stage (default: the house as entered)"

// buildForMany makes the job for many sites, each at its own altitude unless the
// command line states one: a job file is mostly that of one house.
func (o *jobFlags) buildForMany(notes io.Writer) (*job.Job, error) {
	j, err := o.build()
	if err == nil && j.Stated(sitePlace) {
		fmt.Fprintf(notes, "evapbook: %s is not used: the sites are the files and places named\n", sitePlace)
	}
	if err != nil || !j.Stated(siteAltitude) || *o.short[siteAltitude] != "" {
		return j, err
	}
	for _, kv := range o.set {
		if strings.HasPrefix(strings.TrimSpace(kv), siteAltitude) {
			return j, nil
		}
	}
	j.Unstate(siteAltitude)
	fmt.Fprintf(notes, "evapbook: each site stands at its own altitude, not at that of the job; --altitude puts them all at one\n")
	return j, nil
}

const (
	siteAltitude = "site.altitude"
	sitePlace    = "site.place"
)

// system is the unit system people see.
func (o *jobFlags) system(s *weather.Series) (units.System, error) {
	if o.units != "" {
		sys, err := units.ParseSystem(o.units)
		if err != nil {
			return 0, usageError{fmt.Errorf("--units: %w", err)}
		}
		return sys, nil
	}
	if o.base != nil {
		return o.base.Units, nil
	}
	if weather.InUnitedStates(s.Station.Country) {
		return units.IP, nil
	}
	return units.SI, nil
}
