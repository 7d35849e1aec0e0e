package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/officetest"
)

// The elements of a sheet and of the styles that say what can be edited.
// Source: ECMA-376 part 1, 18.3.1.85 sheetProtection, 18.3.1.32 dataValidation,
// 18.8.33 protection.
type (
	sheetPart struct {
		Cells []struct {
			Ref   string `xml:"r,attr"`
			Style int    `xml:"s,attr"`
		} `xml:"sheetData>row>c"`
		Merged []struct {
			Ref string `xml:"ref,attr"`
		} `xml:"mergeCells>mergeCell"`
		Protection *struct {
			Attrs []xml.Attr `xml:",any,attr"`
		} `xml:"sheetProtection"`
		Validations []struct {
			Kind  string `xml:"type,attr"`
			Shown string `xml:"showErrorMessage,attr"`
			Error string `xml:"error,attr"`
			Cells string `xml:"sqref,attr"`
		} `xml:"dataValidations>dataValidation"`
	}
	stylesPart struct {
		Formats []struct {
			Protection *struct {
				Locked string `xml:"locked,attr"`
			} `xml:"protection"`
		} `xml:"cellXfs>xf"`
	}
	bookPart struct {
		Sheets []struct {
			Name string `xml:"name,attr"`
		} `xml:"sheets>sheet"`
		Names []struct {
			Name string `xml:"name,attr"`
			Ref  string `xml:",chardata"`
		} `xml:"definedNames>definedName"`
	}
)

func readPart(t *testing.T, z *zip.ReadCloser, name string, into any) {
	t.Helper()
	f, err := z.Open(name)
	require.NoError(t, err)
	defer f.Close()
	text, err := io.ReadAll(f)
	require.NoError(t, err)
	require.NoError(t, xml.Unmarshal(text, into), name)
}

// forms are sheets a technician fills in; nothing else follows from them.
var forms = map[string]bool{"Start-up": true, "Close-down": true}

// All sheets are guarded without a password; on Inputs the yellow cells, and
// only they, can be typed into, and each number or choice refuses nonsense
// with a message. In the book of values the inputs are guarded, too.
func TestInputsCanBeTyped(t *testing.T) {
	for _, values := range []bool{false, true} {
		c := bookKinds[0].compute(t, fourWeeks)
		c.ValuesOnly = values
		z, err := zip.OpenReader(writeBook(t, c))
		require.NoError(t, err)
		defer z.Close()
		var book bookPart
		readPart(t, z, "xl/workbook.xml", &book)
		var styles stylesPart
		readPart(t, z, "xl/styles.xml", &styles)
		inputs := map[string]string{} // by cell
		for _, n := range book.Names {
			if key, ok := strings.CutPrefix(n.Name, "In_"); ok {
				inputs[strings.ReplaceAll(strings.TrimPrefix(n.Ref, "Inputs!"), "$", "")] = key
			}
		}
		require.Len(t, inputs, len(job.Inputs()))
		for i, s := range book.Sheets {
			var part sheetPart
			readPart(t, z, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), &part)
			require.NotNil(t, part.Protection, s.Name)
			for _, a := range part.Protection.Attrs {
				assert.NotContains(t, []string{"password", "hashValue", "saltValue"}, a.Name.Local, s.Name)
			}
			cover := map[string]bool{} // the rest of a wide cell that can be typed into
			for _, m := range part.Merged {
				first, last, _ := strings.Cut(m.Ref, ":")
				if s.Name != "Inputs" || inputs[first] == "" {
					continue
				}
				from, err := officetest.ParseRef(first)
				require.NoError(t, err)
				to, err := officetest.ParseRef(last)
				require.NoError(t, err)
				for col := from.Col + 1; col <= to.Col; col++ {
					cover[officetest.Ref{Row: from.Row, Col: col}.String()] = true
				}
			}
			for _, cell := range part.Cells {
				p := styles.Formats[cell.Style].Protection
				open := p != nil && (p.Locked == "0" || p.Locked == "false")
				want := s.Name == "Inputs" && (inputs[cell.Ref] != "" || cover[cell.Ref]) && !values
				if open && forms[s.Name] {
					continue
				}
				require.Equal(t, want, open, "%s!%s can be typed into", s.Name, cell.Ref)
			}
			if s.Name == "Inputs" && !values {
				checkValidations(t, &part, inputs)
			}
		}
	}
}

func checkValidations(t *testing.T, part *sheetPart, inputs map[string]string) {
	kinds := map[string]string{}
	for _, v := range part.Validations {
		assert.NotEmpty(t, v.Error, v.Cells)
		assert.Contains(t, []string{"1", "true"}, v.Shown, "the message of %s", v.Cells)
		kinds[inputs[v.Cells]] = v.Kind
	}
	for _, in := range job.Inputs() {
		want := map[bool]string{true: "whole", false: "decimal"}[in.Whole]
		switch {
		case len(in.Choices) > 0:
			want = "list"
		case in.Section() == "proposal" && in.Key != "proposal.logo":
			want = "textLength"
		case in.Key == "site.name":
			want = "textLength"
		case !in.Numeric():
			want = ""
		}
		assert.Equal(t, want, kinds[in.CellName()], in.Key)
	}
}

// A light book has both pages and neither the steps nor formulas.
func TestStartupInALightBook(t *testing.T) {
	c := bookKinds[1].compute(t, fourWeeks)
	c.ValuesOnly = true
	b, err := book(c)
	require.NoError(t, err)
	for _, s := range b.Sheets {
		for _, g := range s.Grids {
			require.NotEqual(t, "SupplyTable", g.Name)
		}
	}
	require.NoError(t, b.Write(new(bytes.Buffer)))
}
