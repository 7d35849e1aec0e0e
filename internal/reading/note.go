package reading

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/units"
)

// Note is a remark on a reading, with temperature differences in it.
type Note struct {
	format string
	args   []any
}

// difference is a temperature difference in K within a note.
type difference float64

// In is the note with its differences in a unit system.
func (n Note) In(sys units.System) string {
	args := make([]any, len(n.args))
	for i, a := range n.args {
		if d, ok := a.(difference); ok {
			a = units.TemperatureDifference.Show(float64(d), sys)
		}
		args[i] = a
	}
	return fmt.Sprintf(n.format, args...)
}
