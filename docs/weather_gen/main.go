// Command weather_gen carries every real weather file beside the repository
// through the program and writes what came out: testdata/weather/real-results.csv
// and the table of docs/weather.md. The files are no part of the repository; a
// test compares them with the committed figures where they are there.
package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

const (
	folder  = "../shared/weather"
	results = "testdata/weather/real-results.csv"
	page    = "docs/weather.md"
)

func main() {
	if err := run("."); err != nil {
		fmt.Fprintln(os.Stderr, "weather_gen:", err)
		os.Exit(1)
	}
}

// run works from the root of the repository.
func run(root string) error {
	rows, err := all(filepath.Join(root, folder))
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(root, results), asCSV(rows), 0o644); err != nil {
		return err
	}
	doc, err := os.ReadFile(filepath.Join(root, page))
	if err != nil {
		return err
	}
	doc, err = insert(doc, table(rows))
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(root, page), doc, 0o644)
}

const about = `# What the program makes of each real weather file, with the default house and cooler at the station's own height.
# Written by docs/weather_gen; a test of that package fails where the figures change. Wet bulb: ours minus the file's own, in K.
`

func asCSV(rows []result) []byte {
	var b bytes.Buffer
	b.WriteString(about)
	w := csv.NewWriter(&b)
	heads, _ := rows[0].cells()
	must(w.Write(heads))
	for i := range rows {
		_, cells := rows[i].cells()
		must(w.Write(cells))
	}
	w.Flush()
	return b.Bytes()
}

// must is for writing to memory, which cannot fail.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

// table is the same for people, with the notes below.
func table(rows []result) string {
	var b strings.Builder
	b.WriteString("| File | Format | Hours used | Missing | Wet bulb, ours minus the file's: mean, 95 % of hours | 1 % hour: dry bulb, wet bulb, supply | Need cooling | Held |\n")
	b.WriteString("|---|---|---|---|---|---|---|---|\n")
	for i := range rows {
		r := &rows[i]
		fmt.Fprintf(&b, "| %s | %s | %d | %d | %s | %s | %s | %s |\n", r.file, r.format, r.used, r.missing, r.wetBulbWords(), r.designWords(), r.needWords(), r.heldWords())
	}
	b.WriteString("\nNotes of each file, and the options it was read with:\n\n")
	for i := range rows {
		r := &rows[i]
		fmt.Fprintf(&b, "* %s:%s %s.\n", r.file, r.options, strings.Join(r.notes, "; "))
	}
	return b.String()
}

const begin, end = "<!-- written by docs/weather_gen -->\n", "<!-- end of what docs/weather_gen wrote -->\n"

func insert(doc []byte, text string) ([]byte, error) {
	head, rest, ok := bytes.Cut(doc, []byte(begin))
	_, tail, ok2 := bytes.Cut(rest, []byte(end))
	if !ok || !ok2 {
		return nil, fmt.Errorf("%s has no place for the table: no line %q", page, strings.TrimSpace(begin))
	}
	return []byte(string(head) + begin + text + end + string(tail)), nil
}
