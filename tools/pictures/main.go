// Command pictures prints a workbook as LibreOffice prints it and makes a
// picture of each sheet's first pages.
//
//	go run ./tools/pictures out/season.xlsx
//	go run ./tools/pictures -pages 1 -keep "Summary,Hot weeks" out/season.xlsx
//
// Files are named after the sheet's place, its name and the page:
// 01-Summary-1.png. Needs LibreOffice and pdftoppm; pngquant, where present,
// makes the pictures smaller.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/officetest"
)

type options struct {
	book   string
	out    string   // folder of all pictures
	keep   []string // sheets whose pictures are copied
	to     string   // folder they are copied to
	prefix string   // of the copies' names
	pages  int      // of each sheet, at most
	dpi    int
}

func main() {
	o := options{}
	var keep string
	flag.StringVar(&o.out, "out", "out/pictures", "`folder` for the pictures")
	flag.StringVar(&keep, "keep", "", "`sheets` whose pictures to copy, with commas between")
	flag.StringVar(&o.to, "to", "docs/pictures", "`folder` to copy them to")
	flag.StringVar(&o.prefix, "prefix", "", "beginning of the copies' `names`")
	flag.IntVar(&o.pages, "pages", 2, "pages of each sheet, at most")
	flag.IntVar(&o.dpi, "dpi", 80, "dots per inch")
	flag.Parse()
	o.book = flag.Arg(0)
	if keep != "" {
		o.keep = strings.Split(keep, ",")
	}
	if err := run(o, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func run(o options, out io.Writer) (err error) {
	if o.book == "" {
		return errors.New("give a workbook; hint: go run ./tools/pictures out/season.xlsx")
	}
	if err := officetest.Installed(officetest.LibreOffice, officetest.Poppler); err != nil {
		return err
	}
	s, err := officetest.Open(o.book)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	for _, name := range o.keep {
		if !slices.Contains(s.Sheets, name) {
			return fmt.Errorf("no sheet %q; the sheets are %s", name, strings.Join(s.Sheets, ", "))
		}
	}
	counts, err := s.Pages()
	if err != nil {
		return err
	}
	if err := emptyFolder(o.out); err != nil {
		return err
	}
	for i, sheet := range s.Sheets {
		pictures, err := picture(s, o, i, sheet, counts[sheet])
		if err != nil {
			return fmt.Errorf("sheet %s: %w", sheet, err)
		}
		fmt.Fprintf(out, "%-20s %4d pages", sheet, counts[sheet])
		for _, p := range pictures {
			fmt.Fprintf(out, "  %s %s", filepath.Base(p), size(p))
		}
		fmt.Fprintln(out)
		if slices.Contains(o.keep, sheet) {
			if err := copyTo(o.to, o.prefix, sheet, pictures); err != nil {
				return err
			}
		}
	}
	return nil
}

// emptyFolder makes the folder and removes old pictures from it.
func emptyFolder(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	old, err := filepath.Glob(filepath.Join(folder, "*.png"))
	for _, path := range old {
		err = errors.Join(err, os.Remove(path))
	}
	return err
}

// picture prints one sheet and gives the pictures' paths.
func picture(s *officetest.Session, o options, i int, sheet string, pages int) ([]string, error) {
	if pages == 0 {
		return nil, nil
	}
	stem := filepath.Join(o.out, fmt.Sprintf("%02d-%s", i+1, sheet))
	pdf := stem + ".pdf"
	if err := s.SheetPDF(sheet, fmt.Sprintf("1-%d", min(pages, o.pages)), pdf); err != nil {
		return nil, err
	}
	defer os.Remove(pdf)
	if text, err := exec.Command("pdftoppm", "-png", "-r", strconv.Itoa(o.dpi), pdf, stem).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, text)
	}
	made, err := filepath.Glob(stem + "-*.png")
	if err != nil || len(made) == 0 {
		return nil, errors.Join(err, errors.New("no picture made"))
	}
	return made, shrink(made)
}

// shrink reduces the pictures to 64 colours where pngquant is installed;
// they are text and charts, so that is enough.
func shrink(paths []string) error {
	if _, err := exec.LookPath("pngquant"); err != nil {
		return nil
	}
	args := append([]string{"--force", "--ext", ".png", "--nofs", "64", "--"}, paths...)
	if text, err := exec.Command("pngquant", args...).CombinedOutput(); err != nil {
		return fmt.Errorf("pngquant: %w: %s", err, text)
	}
	return nil
}

// copyTo copies a sheet's pictures under names that stay the same when sheets
// move: the prefix, the sheet's name with hyphens for its spaces, and the page
// from the second on.
func copyTo(folder, prefix, sheet string, paths []string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for page, path := range paths {
		name := prefix + strings.ReplaceAll(sheet, " ", "-")
		if page > 0 {
			name += "-" + strconv.Itoa(page+1)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, name+".png"), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

func size(path string) string {
	info, err := os.Stat(path)
	if err != nil {
		return "?"
	}
	return fmt.Sprintf("%.0f kB", float64(info.Size())/1000)
}
