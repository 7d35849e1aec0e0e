package weather

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"slices"
	"strings"
)

// isZip knows a zip archive, full or empty.
func isZip(stored []byte) bool {
	return bytes.HasPrefix(stored, []byte("PK\x03\x04")) || bytes.HasPrefix(stored, []byte("PK\x05\x06"))
}

// Several tells whether a file is a zip archive of more than one weather file:
// years of one place, if OpenAll can join them.
func Several(path string) bool {
	info, err := os.Stat(path) // before it is opened: what a pipe holds is read once
	if err != nil || !info.Mode().IsRegular() || info.Size() > MaxBytes {
		return false
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	z, err := zip.NewReader(f, info.Size())
	if err != nil {
		return false
	}
	all, err := weatherMembers(z)
	return err == nil && len(all) > 1
}

// mostMembers are the weather files that a zip archive may hold.
const mostMembers = 200

// memberRows are the rows of each weather file in a zip archive of several; the
// bytes they stand for are those of the archive.
func memberRows(stored []byte, name string, opt Options) ([]*observations, error) {
	z, err := openZip(stored, name)
	if err != nil {
		return nil, err
	}
	members, err := weatherMembers(z)
	if err != nil {
		return nil, fileError(name, "name a plain weather file", "%v", err)
	}
	if len(members) > mostMembers {
		return nil, fileError(name, "unpack it and name the files", "holds more than %d files", mostMembers)
	}
	var all []*observations
	total := 0
	for _, m := range members {
		inside := name + "/" + m.Name
		plain, err := inflateMember(m, len(stored), inside)
		if err != nil {
			return nil, err
		}
		if total += len(plain); total > MaxBytes {
			return nil, fileError(name, "unpack it and name the files", "unpacks to more than %d MB", MaxBytes>>20)
		}
		doc, err := decode(plain, inside)
		if err != nil {
			return nil, err
		}
		rows, err := doc.rows(stored, opt)
		if err != nil {
			return nil, err
		}
		all = append(all, rows)
	}
	return all, nil
}

func unzip(stored []byte, name string) ([]byte, error) {
	z, err := openZip(stored, name)
	if err != nil {
		return nil, err
	}
	members, err := weatherMembers(z)
	switch {
	case err != nil:
		return nil, fileError(name, "name a plain weather file", "%v", err)
	case len(members) == 1:
		return inflateMember(members[0], len(stored), name)
	}
	names := make([]string, len(members))
	for i, f := range members {
		names[i] = f.Name
	}
	return nil, fileError(name, "unpack it and name one", "the zip archive holds several files: %s", listed(names))
}

func openZip(stored []byte, name string) (*zip.Reader, error) {
	z, err := zip.NewReader(bytes.NewReader(stored), int64(len(stored)))
	if err != nil {
		return nil, fileError(name, "download it again", "damaged zip file: %v", err)
	}
	return z, nil
}

// encrypted is the bit that says so among a member's flags: APPNOTE.TXT, 4.4.4.
const encrypted = 1

func inflateMember(member *zip.File, packed int, name string) ([]byte, error) {
	if member.Flags&encrypted != 0 {
		return nil, fileError(name, "unpack it with the password and name the file", "zip member %s is locked with a password", member.Name)
	}
	r, err := member.Open()
	if err != nil {
		return nil, fileError(name, "", "zip member %s: %v", member.Name, err)
	}
	defer r.Close()
	return inflate(r, packed, name)
}

// weatherMembers are the files in an archive that can be weather. EPW archives
// often carry design-day and statistics files beside the .epw, so where .epw or
// .csv files are among several members, of the others only those are taken that
// begin as a weather file does.
func weatherMembers(z *zip.Reader) ([]*zip.File, error) {
	var all, weather []*zip.File
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") || strings.HasPrefix(f.Name, "__MACOSX/") {
			continue
		}
		if f.Name == "[Content_Types].xml" {
			return nil, errors.New("is an office document such as an Excel workbook, not text; save it as CSV")
		}
		all = append(all, f)
	}
	named := slices.ContainsFunc(all, namedAsWeather)
	for _, f := range all {
		if !named || namedAsWeather(f) || beginsAsWeather(f) {
			weather = append(weather, f)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("the zip archive is empty")
	}
	return weather, nil
}

func namedAsWeather(f *zip.File) bool {
	return slices.Contains([]string{".epw", ".csv"}, strings.ToLower(path.Ext(f.Name)))
}

// beginsAsWeather tells by the first lines of a member whether it is weather.
func beginsAsWeather(f *zip.File) bool {
	r, err := f.Open()
	if err != nil {
		return false
	}
	defer r.Close()
	head, err := io.ReadAll(io.LimitReader(r, headBytes))
	if err != nil {
		return false
	}
	doc, err := decode(head, f.Name)
	if err != nil {
		return false
	}
	_, err = detect(doc)
	return err == nil
}

// headBytes hold the first lines of a weather file.
const headBytes = 64 << 10

// openAllRows are the rows of a file, or of each file in a zip archive.
func openAllRows(path string, opt Options) ([]*observations, error) {
	if path == "-" || !Several(path) {
		rows, err := openRows(path, opt)
		return []*observations{rows}, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, openError(path, err)
	}
	defer f.Close()
	stored, err := opt.stored(io.Reader(f), path)
	if err != nil {
		return nil, err
	}
	return memberRows(stored, path, opt)
}
