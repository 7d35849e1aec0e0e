package build

import (
	"bytes"
	"fmt"

	"github.com/evapbook/evapbook/internal/look"
)

// colours of package look that the style sheet uses, by their names there.
var colours = []struct{ name, value string }{
	{"paper", look.Paper}, {"ink", look.Ink}, {"quiet", look.Quiet}, {"link", look.Link}, {"leaf", look.Leaf}, {"sand", look.Sand},
	{"rule", look.Rule}, {"alarm", look.Alarm}, {"alarmfill", look.AlarmFill}, {"amber", look.Amber}, {"grey", look.Grey},
	{"inputfill", look.InputFill}, {"inputedge", look.InputEdge},
	{"idle", look.Idle}, {"vent", look.Vent}, {"evap", look.Evap}, {"damp", look.Damp}, {"warm", look.Warm},
	{"outdoor", look.Outdoor}, {"supply", look.Supply}, {"indoor", look.Indoor},
}

// sizes of type, in points of which textSize are what the reader's browser takes
// for text.
var sizes = []struct {
	name   string
	points float64
}{
	{"title", look.Title}, {"big", look.Big}, {"head", look.Head}, {"text", look.Text}, {"small", look.Small},
}

// lookCSS gives the values of package look as custom properties. Sizes are in
// rem, so that they follow the size the reader has set.
func lookCSS() []byte {
	var b bytes.Buffer
	b.WriteString("/* Made from package look by make page. */\n:root {\n")
	for _, c := range colours {
		fmt.Fprintf(&b, "\t--%s: #%s;\n", c.name, c.value)
	}
	for _, s := range sizes {
		fmt.Fprintf(&b, "\t--%s: %.3grem;\n", s.name, s.points/look.Text)
	}
	b.WriteString("}\n")
	return b.Bytes()
}
