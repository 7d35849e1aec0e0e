package sheet

import (
	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/xlsx"
)

// The two states of figures that were computed when the workbook was written
// and cannot follow the input cells.
const (
	asWritten = "Computed when the workbook was written."
	stale     = "THE INPUTS HAVE CHANGED SINCE THIS WAS COMPUTED. The figures below do not follow: write the workbook anew."
)

// StaleStyle is how a line looks that warns of figures which do not follow.
var StaleStyle = xlsx.Style{Bold: true, Color: look.Alarm, Fill: look.AlarmFill}

// ComputedAtWriting puts a line over figures that are not live; it turns into
// a warning as soon as any input differs from that at writing.
func (p *Page) ComputedAtWriting(cols int) {
	row := p.Row
	p.Text(asWritten, `IF(B_inputs_changed=0,"`+asWritten+`","`+stale+`")`, cols, 1, Small)
	p.warnsOnceChanged(row, cols)
}

// PickedAtWriting writes a paragraph over hours that were picked when the
// workbook was written: what is shown of them follows the input cells, the
// choice does not, and the paragraph says so once any input differs.
func (p *Page) PickedAtWriting(text string, cols, lines int) {
	const since = " THE INPUTS HAVE CHANGED SINCE: other hours might be picked now."
	row := p.Row
	words, formula := new(Sentence).Say(text).When("B_inputs_changed>0", false, new(Sentence).Say(since)).Done()
	p.Text(words, formula, cols, lines, Small)
	p.warnsOnceChanged(row, cols)
}

// warnsOnceChanged gives a line the look of a warning as soon as any input
// differs from that at writing.
func (p *Page) warnsOnceChanged(row, cols int) {
	p.Conditional = append(p.Conditional, xlsx.CondFormat{
		Range: xlsx.RangeRef(row, 1, row, cols), When: "B_inputs_changed>0",
		Style: StaleStyle,
	})
}
