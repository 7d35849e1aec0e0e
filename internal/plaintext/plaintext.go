// Package plaintext turns the bytes of a file that people made into UTF-8, in
// whichever encoding their programs wrote it.
package plaintext

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// UTF8 is raw as UTF-8 without byte order mark. Marks of UTF-8 and UTF-16 are
// honoured, UTF-16 of western letters is known without one (the shell of Windows
// and spreadsheet programs write both), and what is no UTF-8 is read as
// Windows-1252, which guessed says. Damaged UTF-16 is an error. What is binary
// comes back as some text or other.
func UTF8(raw []byte) (text []byte, guessed bool, err error) {
	if order, mark, ok := wide(raw); ok {
		text, err := unicode.UTF16(order, mark).NewDecoder().Bytes(raw)
		if err == nil || mark == unicode.ExpectBOM {
			if err != nil {
				err = fmt.Errorf("damaged UTF-16 text: %w", err)
			}
			return text, false, err
		}
	}
	raw = bytes.TrimPrefix(raw, []byte("\ufeff"))
	if utf8.Valid(raw) {
		return raw, false, nil
	}
	text, err = charmap.Windows1252.NewDecoder().Bytes(raw)
	return text, true, err
}

// wide tells UTF-16 by its mark, else by its zeros.
func wide(raw []byte) (unicode.Endianness, unicode.BOMPolicy, bool) {
	if bytes.HasPrefix(raw, []byte{0xff, 0xfe}) || bytes.HasPrefix(raw, []byte{0xfe, 0xff}) {
		return unicode.LittleEndian, unicode.ExpectBOM, true
	}
	order, ok := unmarked(raw)
	return order, unicode.IgnoreBOM, ok
}

// unmarked tells UTF-16 of western letters without a byte order mark: every
// other byte of its beginning is 0.
func unmarked(raw []byte) (unicode.Endianness, bool) {
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
