package xlsx

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

// size is the size of a picture or chart in pixels.
type size struct{ width, height int }

// emu is the file's unit of length in a pixel of 1/96 inch.
const emu = 9525

var anchorEnd = regexp.MustCompile(`<xdr:to>.*?</xdr:to>`)

// anchor ties the objects of a drawing to their first cell and gives their size
// itself. The library ties them to a second cell, which it finds with row heights
// no program uses, so that charts came out a tenth too high.
func anchor(part []byte, sizes []size) []byte {
	n := 0
	part = anchorEnd.ReplaceAllFunc(part, func([]byte) []byte {
		s := sizes[n]
		n++
		return fmt.Appendf(nil, `<xdr:ext cx="%d" cy="%d"/>`, s.width*emu, s.height*emu)
	})
	part = bytes.ReplaceAll(part, []byte(`<xdr:twoCellAnchor editAs="absolute">`), []byte(`<xdr:oneCellAnchor>`))
	return bytes.ReplaceAll(part, []byte(`</xdr:twoCellAnchor>`), []byte(`</xdr:oneCellAnchor>`))
}

// sized notes the size of the object just added to a sheet. Each sheet with
// objects has one drawing; they are numbered in the order of the sheets.
func (b *builder) sized(s *sheetPlan, z size) {
	name, ok := b.drawings[s]
	if !ok {
		name = "xl/drawings/drawing" + strconv.Itoa(len(b.drawings)+1) + ".xml"
		b.drawings[s] = name
	}
	b.sizes[name] = append(b.sizes[name], z)
}
