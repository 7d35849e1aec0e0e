package cli

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/zone"
)

// weatherEndings are the endings of files that a folder is searched for; files
// without an ending are taken too, as some archives have them.
var weatherEndings = []string{"", ".csv", ".tsv", ".txt", ".epw", ".gz", ".zip"}

// findSites lists the weather files that arguments name: files, folders with
// all below them, and patterns that the shell left alone. The order is that of
// the arguments, and by name within each.
func findSites(args []string) ([]zone.File, error) {
	var files []zone.File
	for _, arg := range args {
		found, err := sitesOf(arg)
		if err != nil {
			return nil, err
		}
		if len(found) == 0 {
			return nil, hint.With(fmt.Errorf("%s: no weather file there", arg), "in folders files are taken that end in %s", strings.Join(weatherEndings[1:], " "))
		}
		files = append(files, found...)
	}
	nameApart(files)
	return files, nil
}

func sitesOf(arg string) ([]zone.File, error) {
	info, err := os.Stat(arg)
	switch {
	case err == nil && info.IsDir():
		return sitesBelow(arg)
	case err == nil:
		if err := checkInput(arg); err != nil {
			return nil, err
		}
		return []zone.File{{Path: arg, Name: filepath.Base(arg)}}, nil
	case !strings.ContainsAny(arg, "*?["):
		return nil, fileError(arg, err)
	}
	paths, err := filepath.Glob(arg)
	if err != nil {
		return nil, hint.With(usagef("%s: not a pattern", arg), "* stands for any text, ? for one letter")
	}
	var files []zone.File
	for _, path := range paths {
		found, err := sitesOf(path)
		if err != nil {
			return nil, err
		}
		files = append(files, found...)
	}
	return files, nil
}

func sitesBelow(folder string) ([]zone.File, error) {
	var files []zone.File
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return fileError(path, err)
		}
		hidden := strings.HasPrefix(d.Name(), ".") && path != folder
		switch {
		case d.IsDir() && hidden:
			return filepath.SkipDir
		case d.IsDir() || hidden || !slices.Contains(weatherEndings, strings.ToLower(filepath.Ext(d.Name()))):
			return nil
		}
		if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
			return nil // a pipe or device is not waited for, nor a link to nothing
		}
		name, err := filepath.Rel(folder, path)
		if err != nil {
			return err
		}
		files = append(files, zone.File{Path: path, Name: filepath.ToSlash(name)})
		return nil
	})
	return files, err
}

// nameApart calls files by their whole paths where short names would be the
// same.
func nameApart(files []zone.File) {
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.Name] {
			for i := range files {
				files[i].Name = filepath.ToSlash(files[i].Path)
			}
			return
		}
		seen[f.Name] = true
	}
}
