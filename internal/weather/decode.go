package weather

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
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
	if bytes.HasPrefix(raw, []byte{0xff, 0xfe}) || bytes.HasPrefix(raw, []byte{0xfe, 0xff}) {
		utf16 := unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder()
		out, _, err := transform.Bytes(utf16, raw)
		if err != nil {
			return nil, fileError(doc.name, "save it as UTF-8", "damaged UTF-16 text: %v", err)
		}
		return out, nil
	}
	if order, ok := unmarkedUTF16(raw); ok {
		out, err := unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(raw)
		if err == nil {
			return out, nil
		}
	}
	raw = bytes.TrimPrefix(raw, []byte("\ufeff"))
	if utf8.Valid(raw) || binaryKind(raw) != "" {
		return raw, nil
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(raw)
	if err != nil {
		return nil, fileError(doc.name, "save it as UTF-8", "text encoding is not known")
	}
	doc.notes = append(doc.notes, Note{Kind: NoteWindows1252})
	return out, nil
}

// unmarkedUTF16 tells UTF-16 of western letters without a byte order mark: every
// other byte of its beginning is 0.
func unmarkedUTF16(raw []byte) (unicode.Endianness, bool) {
	const look = 64
	if len(raw) < look {
		return unicode.LittleEndian, false
	}
	even, odd := 0, 0
	for i := 0; i < look; i += 2 {
		if raw[i] == 0 {
			even++
		}
		if raw[i+1] == 0 {
			odd++
		}
	}
	switch {
	case odd == look/2 && even == 0:
		return unicode.LittleEndian, true
	case even == look/2 && odd == 0:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
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
