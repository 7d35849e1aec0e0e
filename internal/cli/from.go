package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/evapbook/evapbook/data/sample"
	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/readback"
)

const fromUsage = "take the inputs (and the weather, unless given) from a workbook that was edited"

// readFrom reads the workbook --from names, if any, and says on notes what it
// does not hold.
func (o *jobFlags) readFrom(notes io.Writer) error {
	if o.from == "" {
		return nil
	}
	if o.job != "" {
		return hint.With(usagef("--from and --job both say what the inputs are"), "print the workbook's with evapbook job --from %s, and put the two together there", o.from)
	}
	if err := checkInput(o.from); err != nil {
		return err
	}
	b, err := readback.Read(o.from)
	if err != nil {
		return err
	}
	for _, n := range b.Notes {
		fmt.Fprintf(notes, "evapbook: %s: %s\n", o.from, n)
	}
	o.base = b
	return nil
}

// weatherOf finds the weather file a workbook was written from, and takes over
// the flags it was read with: given says which the user gave anew.
func (o *weatherFlags) weatherOf(b *readback.Book, workbook string) (string, error) {
	if err := o.parse(b.Weather.Flags); err != nil {
		return "", fmt.Errorf("%s: weather %w", workbook, err)
	}
	w := b.Weather
	_, builtIn := sample.Open()
	switch {
	case w.Path == "" && w.File == builtIn:
		return "", nil
	case w.Path == "-":
		return "", hint.With(fmt.Errorf("%s: its weather came from standard input", workbook), "give the weather file, evapbook write WEATHER --from %s", workbook)
	}
	other := ""
	for _, path := range whereabouts(w, workbook) {
		sum, err := hashFile(path)
		switch {
		case err != nil:
		case sum == w.SHA256 || w.SHA256 == "":
			return path, nil
		default:
			other = path
		}
	}
	err := fmt.Errorf("%s: its weather file %s was not found where it was, in this folder or beside the workbook", workbook, name(w))
	if other != "" {
		err = fmt.Errorf("%s: %s is not the weather this workbook was written from (its SHA-256 differs)", workbook, other)
	}
	return "", hint.With(err, "give the weather file, evapbook write WEATHER --from %s", workbook)
}

func name(w readback.Weather) string {
	if w.Path != "" {
		return w.Path
	}
	return w.File
}

// whereabouts are where the weather file may be: where it was, seen from here and
// from the workbook, and beside the workbook.
func whereabouts(w readback.Weather, workbook string) []string {
	beside := filepath.Dir(workbook)
	var all []string
	if w.Path != "" {
		all = append(all, filepath.FromSlash(w.Path))
		if !filepath.IsAbs(w.Path) {
			all = append(all, filepath.Join(beside, filepath.FromSlash(w.Path)))
		}
		all = append(all, filepath.Join(beside, filepath.Base(filepath.FromSlash(w.Path))))
	}
	if w.File != "" && filepath.Base(w.File) == w.File {
		all = append(all, filepath.Join(beside, w.File))
	}
	return all
}

// largestWeather is the largest file that can be weather.
const largestWeather = 256 << 20

func hashFile(path string) (string, error) {
	if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
		return "", fmt.Errorf("%s: no file", path) // a workbook must not make us wait for a pipe
	}
	f, err := openInput(path, largestWeather)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, io.LimitReader(f, largestWeather)); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// text writes the flags that change how a file is read, as parse reads them.
func (o *weatherFlags) text() string {
	var all []string
	if o.allowGaps {
		all = append(all, "--allow-gaps")
	}
	for _, f := range o.named() {
		if *f.value != "" && !(f.name == "humidity" && *f.value == "auto") {
			all = append(all, "--"+f.name+"="+flagSpaces.Replace(*f.value))
		}
	}
	return strings.Join(all, " ")
}

// flagSpaces keeps each flag one word.
var flagSpaces, flagWords = strings.NewReplacer("%", "%25", " ", "%20"), strings.NewReplacer("%20", " ", "%25", "%")

// parse takes over flags from a workbook that were not given anew.
func (o *weatherFlags) parse(flags []string) error {
	for _, text := range flags {
		flag, value, _ := strings.Cut(strings.TrimPrefix(text, "--"), "=")
		if flag == "allow-gaps" && value == "" {
			o.allowGaps = true
			continue
		}
		known := false
		for _, f := range o.named() {
			if f.name != flag {
				continue
			}
			known = true
			if *f.value == "" || flag == "humidity" && *f.value == "auto" {
				*f.value = flagWords.Replace(value)
			}
		}
		if !known {
			return hint.With(fmt.Errorf("flag %q is not known", text), "correct the cell named Src_flags")
		}
	}
	return nil
}

type namedFlag struct {
	name  string
	value *string
}

func (o *weatherFlags) named() []namedFlag {
	return []namedFlag{
		{"humidity", &o.humidity}, {"columns", &o.columns}, {"missing", &o.missing}, {"station", &o.station}, {"latitude", &o.latitude}, {"longitude", &o.longitude},
		{"elevation", &o.elevation}, {"utc-offset", &o.utcOffset}, {"year", &o.year},
	}
}
