// Package page is the program behind a page in a browser: weather opened once,
// answers for any inputs, the workbook, the job file, readings at the cooler.
//
// Each call takes and gives plain JSON, and bytes beside it where a file goes in
// or out. Everything is computed by the packages the command uses; values come
// out in words and in the units asked for, so that the page only shows them.
// Nothing here touches files, the network or a clock.
package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/years"
)

// Page is what one page has open. It is not for use by several goroutines.
type Page struct {
	// Progress is told how many bytes of a workbook are written, of about how
	// many; nil: nobody asks.
	Progress func(bytes, about int)

	open   *years.Files // nil before any weather was opened
	source Source
	town   *places.Sited // nil where the weather is a file's

	kept kept // from the answer before
}

// Reply is what a call gives: a value for JSON, and the bytes of a file.
type Reply struct {
	Value any
	File  []byte
}

// calls by name, as the page makes them.
var calls = map[string]func(*Page, []byte, []byte) (Reply, error){
	"start":    with(func(*Page, nothing, []byte) (Reply, error) { return Reply{Value: start()}, nil }),
	"weather":  with((*Page).openWeather),
	"answer":   with((*Page).answer),
	"workbook": with((*Page).workbook),
	"job":      with((*Page).jobFile),
	"reading":  with(func(_ *Page, v Visit, _ []byte) (Reply, error) { return judge(v) }),
	"towns":    with(func(_ *Page, t Typed, _ []byte) (Reply, error) { return suggest(t) }),
	"place":    with(func(_ *Page, t Typed, _ []byte) (Reply, error) { return choose(t) }),
	"links":    with(func(_ *Page, pt Point, _ []byte) (Reply, error) { return links(pt) }),
	"readings": with(func(_ *Page, v Visits, _ []byte) (Reply, error) { return readingsFile(v) }),
}

type nothing struct{}

// with makes a call of a function that takes its arguments as a struct.
func with[A any](f func(*Page, A, []byte) (Reply, error)) func(*Page, []byte, []byte) (Reply, error) {
	return func(p *Page, args, file []byte) (Reply, error) {
		var a A
		if err := json.Unmarshal(args, &a); err != nil {
			return Reply{}, fmt.Errorf("the page asks in a way the program does not understand: %w", err)
		}
		return f(p, a, file)
	}
}

// Call makes the call of a name. The JSON is the value of the reply or, where ok
// is false, a Problem.
func (p *Page) Call(name string, args, file []byte) (result []byte, out []byte, ok bool) {
	call := calls[name]
	if call == nil {
		return problemJSON(fmt.Errorf("no call is named %q", name)), nil, false
	}
	r, err := call(p, args, file)
	if err != nil {
		return problemJSON(err), nil, false
	}
	result, err = json.Marshal(r.Value)
	if err != nil {
		return problemJSON(err), nil, false
	}
	return result, r.File, true
}

// Problem is an error as the page shows it.
type Problem struct {
	Key  string `json:"key,omitempty"` // of the input it is about
	Text string `json:"text"`
	Hint string `json:"hint,omitempty"`
}

// problem takes an error of ours apart: what is wrong, and what to do about it.
func problem(key string, err error) Problem {
	return Problem{Key: key, Text: err.Error(), Hint: strings.Join(slices.Compact(hint.Of(err)), "; ")}
}

func problemJSON(err error) []byte {
	var k keyed
	_ = errors.As(err, &k)
	text, _ := json.Marshal(problem(k.key, err)) // of strings alone: cannot fail
	return text
}

var errNoWeather = hint.With(errors.New("no place is chosen"), "choose a town, open a weather file or take the sample")
