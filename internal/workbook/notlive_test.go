package workbook

import (
	"fmt"
	"math"
	"strings"

	"github.com/evapbook/evapbook/internal/officetest"
)

// notLive finds cells that cannot follow the inputs although they should: those
// in which two books of one site written for different inputs differ in plain
// values or in formulas. Sheets that say they are as written are left out.
// From fresh it drops what is then no matter of recalculation: cells with
// other formulas than before, and the lines about the act of writing itself.
func notLive(written, fresh *officetest.Book) (faults []string) {
	for _, s := range fresh.Sheets {
		before := written.Sheet(s.Name)
		if before == nil {
			faults = append(faults, s.Name+": a sheet that is not in the other book")
			continue
		}
		line, columns := saysAsWritten(before), columnsAsWritten(before)
		find := map[officetest.Ref]*officetest.Cell{}
		for i := range before.Cells {
			find[before.Cells[i].Ref] = &before.Cells[i]
		}
		kept := s.Cells[:0]
		for _, c := range s.Cells {
			b := find[c.Ref]
			fault := ""
			switch {
			case aboutWriting(s.Name, &c):
				continue
			case b == nil:
				fault = fmt.Sprintf("%s!%s: %v is new", s.Name, c.Ref, c.Value)
			case c.HasFormula != b.HasFormula || c.Formula != b.Formula:
				fault = fmt.Sprintf("%s!%s: formula %q was %q", s.Name, c.Ref, c.Formula, b.Formula)
			case !c.HasFormula && c.Value != b.Value:
				fault = fmt.Sprintf("%s!%s: value %v was %v", s.Name, c.Ref, c.Value, b.Value)
			default:
				kept = append(kept, c)
				continue
			}
			if c.Ref.Row < line && s.Name != "Inputs" && !columns[c.Ref.Col] {
				faults = append(faults, fault)
			}
		}
		s.Cells = kept
	}
	if len(faults) > 20 {
		faults = append(faults[:20], fmt.Sprintf("and %d more cells that do not follow the inputs", len(faults)-20))
	}
	return faults
}

// saysAsWritten finds the row of the line that turns into a warning once inputs
// have changed (page.computedAtWriting or page.pickedAtWriting) and speaks for
// all below it; a sheet without one has it past its end.
func saysAsWritten(s *officetest.Sheet) int {
	row := math.MaxInt
	for _, c := range s.Cells {
		if strings.Contains(c.Formula, "B_inputs_changed") {
			row = min(row, c.Ref.Row)
		}
	}
	return row
}

// columnsAsWritten are the columns whose heading says so.
func columnsAsWritten(s *officetest.Sheet) map[int]bool {
	columns := map[int]bool{}
	for _, c := range s.Cells {
		if title, ok := c.Value.(string); ok && c.Ref.Row <= 8 && strings.HasSuffix(title, ", as written") {
			columns[c.Ref.Col] = true
		}
	}
	return columns
}

// aboutWriting tells whether a cell says which inputs differ from those at
// writing, or has the lower end of a range, which goes once they do.
func aboutWriting(sheet string, c *officetest.Cell) bool {
	if text, ok := c.Value.(string); ok && (sheet == "Hours" || sheet == "Days") && strings.HasPrefix(text, "Prints rows ") {
		return true // what the print area was set to
	}
	return strings.Contains(c.Formula, "B_inputs_changed") || strings.Contains(c.Formula, "Out_water_low_total_l") || strings.Contains(c.Formula, "Out_energy_low_cooler_kwh") || sheet == "Inputs" && strings.Contains(c.Formula, `"changed"`)
}
