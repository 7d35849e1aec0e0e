package weather

import (
	"errors"
	"strings"
)

// numberStyle reads numbers in files that separate fields by something else
// than commas, where a comma in a number is a decimal comma.
type numberStyle struct {
	commas, points int
}

// clean turns decimal commas into points.
func (n *numberStyle) clean(key, cell string) string {
	if key == "clock" || key == "date" {
		return cell
	}
	cell = missingWord(key, cell)
	comma, point := strings.Count(cell, ","), strings.Count(cell, ".")
	switch {
	case comma == 1 && point == 0:
		n.commas++
		return strings.Replace(cell, ",", ".", 1)
	case comma == 0 && point == 1:
		n.points++
	}
	return cell
}

// check refuses a file that has both.
func (n *numberStyle) check() error {
	if n.commas > 0 && n.points > 0 {
		return errors.New("some numbers have a decimal comma and others a decimal point")
	}
	return nil
}

// missingWord empties a cell that says in words or by a common code that
// nothing was measured.
func missingWord(key, cell string) string {
	if key == "clock" || key == "date" {
		return cell
	}
	switch c := strings.TrimSpace(cell); strings.ToLower(c) {
	case "na", "n/a", "#n/a", "nan", "null", "none", "m", "-", "--", "---", "-9999", "-999", "-9999.0", "-999.0", "-999.9":
		return ""
	default:
		return c
	}
}
