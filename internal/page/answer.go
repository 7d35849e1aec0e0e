package page

import (
	"bytes"
	"encoding/json"
	"fmt"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook"
)

// Question is what is asked of the open weather.
type Question struct {
	Units  string            `json:"units"`  // ip or si
	Inputs map[string]string `json:"inputs"` // as entered, by key, with their units; those left alone are not there
}

// Answer is what the page shows. All texts are in the units asked for.
type Answer struct {
	Problems []Problem        `json:"problems"` // where there are any, there is nothing else but Inputs
	Inputs   map[string]Shown `json:"inputs"`

	Site     string   `json:"site"`
	Altitude string   `json:"altitude"`
	Verdict  Verdict  `json:"verdict"`
	Hours    []Part   `json:"hours"` // that need cooling, by outcome
	Story    []string `json:"story"` // what they mean, in sentences
	Tiles    []Tile   `json:"tiles"`
	Costs    Costs    `json:"costs"`
	Cautions []string `json:"cautions"`
	Notes    []string `json:"notes"`

	Heat   Heat    `json:"heat"`
	Months []Month `json:"months"`
	Week   Week    `json:"week"`

	Figures json.RawMessage `json:"figures"` // as write --json prints them
	File    string          `json:"file"`    // what files about it are called, without ending
}

// answer computes one answer. Inputs that cannot be understood are no error:
// they come back as problems, each with its key.
func (p *Page) answer(q Question, _ []byte) (Reply, error) {
	sys, err := units.ParseSystem(q.Units)
	if err != nil {
		return Reply{}, err
	}
	if p.open == nil {
		return Reply{}, errNoWeather
	}
	j, problems := p.stated(q)
	if len(problems) > 0 {
		return Reply{Value: Answer{Problems: problems}}, nil
	}
	entered := j.Clone()
	c, err := p.compute(j, sys)
	if err != nil {
		return Reply{Value: Answer{Problems: disagreements(err)}}, nil
	}
	a := Answer{Problems: []Problem{}, Inputs: shown(entered, c.Season.Job, sys), File: c.Season.Job.FileName(), Notes: c.Notes()}
	tell(&a, c)
	draw(&a, c)
	var b bytes.Buffer
	if err := c.WriteJSON(&b); err != nil {
		return Reply{}, err
	}
	a.Figures = b.Bytes()
	return Reply{Value: a}, nil
}

// stated is the job that was entered, the place among it.
func (p *Page) stated(q Question) (*job.Job, []Problem) {
	j, problems := stated(q.Inputs)
	if p.town != nil {
		if err := j.Set("site.place", p.town.Place.Name); err != nil {
			problems = append(problems, problem("site.place", err))
		}
	}
	return j, problems
}

// workbook writes the workbook: the same bytes as the command's.
func (p *Page) workbook(q Question, _ []byte) (Reply, error) {
	sys, err := units.ParseSystem(q.Units)
	if err != nil {
		return Reply{}, err
	}
	j, problems := p.stated(q)
	if len(problems) > 0 {
		return Reply{}, fmt.Errorf("%s: %s", problems[0].Key, problems[0].Text)
	}
	c, err := p.compute(j, sys)
	if err != nil {
		return Reply{}, err
	}
	w := counter{tell: p.Progress, about: bytesPerHour * len(c.Season.Hours)}
	if err := workbook.Write(&w, c); err != nil {
		return Reply{}, err
	}
	return Reply{Value: map[string]string{"name": c.Season.Job.FileName() + ".xlsx"}, File: w.Bytes()}, nil
}

// jobFile is what was entered as a job file that write --job takes.
func (p *Page) jobFile(q Question, _ []byte) (Reply, error) {
	sys, err := units.ParseSystem(q.Units)
	if err != nil {
		return Reply{}, err
	}
	j, problems := p.stated(q)
	if len(problems) > 0 {
		return Reply{}, fmt.Errorf("%s: %s", problems[0].Key, problems[0].Text)
	}
	var b bytes.Buffer
	if err := job.WriteTOML(&b, j, sys, true); err != nil {
		return Reply{}, err
	}
	return Reply{Value: map[string]string{"name": "house.toml"}, File: b.Bytes()}, nil
}

// counter keeps what is written and tells how much there is, every so often.
type counter struct {
	bytes.Buffer
	tell  func(bytes, about int)
	about int
	told  int
}

// bytesPerHour of weather is about what a workbook has, all sheets counted:
// enough for a bar that says how far it is.
const bytesPerHour = 1100

// often enough for a bar that moves.
const every = 1 << 18

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.Buffer.Write(b)
	if c.tell != nil && c.Len()-c.told >= every {
		c.told = c.Len()
		c.tell(c.told, c.about)
	}
	return n, err
}
