package weather

import (
	"bytes"
	"strings"

	"github.com/evapbook/evapbook/internal/plaintext"
)

// decode turns the bytes of a file into text: byte order marks for UTF-8 and
// UTF-16 are honoured, anything that is not UTF-8 is taken as Windows-1252,
// and lines that end in CR alone get LF.
func decode(raw []byte, name string) (*document, error) {
	doc := &document{name: name}
	raw, err := toUTF8(raw, doc)
	if err != nil {
		return nil, err
	}
	if len(bytes.TrimSpace(raw)) == 0 {
		return nil, fileError(name, "the download may have failed; fetch it again", "is empty")
	}
	if kind := binaryKind(raw); kind != "" {
		return nil, fileError(name, "weather files are plain text: TMY3, EPW, CSV", "is %s, not a weather file", kind)
	}
	doc.text = string(raw)
	if strings.IndexByte(doc.text, '\n') < 0 {
		doc.text = strings.ReplaceAll(doc.text, "\r", "\n")
	}
	return doc, nil
}

func toUTF8(raw []byte, doc *document) ([]byte, error) {
	text, guessed, err := plaintext.UTF8(raw)
	switch {
	case err != nil:
		return nil, fileError(doc.name, "save it as UTF-8", "%v", err)
	case guessed && binaryKind(raw) != "":
		return raw, nil
	case guessed:
		doc.notes = append(doc.notes, Note{Kind: NoteWindows1252})
	}
	return text, nil
}

// binaryKind names the kind of a file that is no text, or returns "".
func binaryKind(raw []byte) string {
	for _, m := range []struct{ magic, kind string }{
		{"%PDF", "a PDF document"},
		{"\xd0\xcf\x11\xe0", "an old office document"},
		{"\x89PNG", "a picture"},
		{"\xff\xd8\xff", "a picture"},
		{"CDF", "a netCDF file"},
		{"\x89HDF", "an HDF5 file"},
		{"PAR1", "a Parquet file"},
		{"GRIB", "a GRIB file"},
		{"<!DOCTYPE", "a web page"},
		{"<html", "a web page"},
		{"<?xml", "an XML document"},
	} {
		if bytes.HasPrefix(raw, []byte(m.magic)) {
			return m.kind
		}
	}
	if bytes.IndexByte(raw[:min(len(raw), 64<<10)], 0) >= 0 {
		return "a binary file"
	}
	return ""
}
