// Package units knows the quantities that people read and write: their units
// in the two unit systems, the exact conversion factors, how a spreadsheet
// shows them, and how a person may spell them.
//
// Values inside the program are always in the unit that Kind.Unit(SI) names;
// conversion happens at the border, here. There is no global unit system: the
// system travels as an argument.
package units

import (
	"fmt"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// System is a set of units people read.
type System int

// The two unit systems.
const (
	SI System = iota
	IP        // inch-pound, as used in the United States
)

// Systems lists both.
var Systems = [...]System{SI, IP}

// String is the spelling ParseSystem reads.
func (s System) String() string {
	if s == IP {
		return "ip"
	}
	return "si"
}

// ParseSystem reads "si" or "ip", in any case.
func ParseSystem(text string) (System, error) {
	for _, s := range Systems {
		if strings.EqualFold(strings.TrimSpace(text), s.String()) {
			return s, nil
		}
	}
	return SI, hint.With(fmt.Errorf("%q is not a unit system", text), "write si or ip")
}
