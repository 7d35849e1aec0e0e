package cli

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/ranking"
)

// weatherEndings are the endings of files that a folder is searched for; files
// without an ending are taken too, as some archives have them.
var weatherEndings = []string{"", ".csv", ".tsv", ".txt", ".dat", ".epw", ".json", ".gz", ".zip"}

// findSites lists the weather files that arguments name: files, folders with
// all below them, and patterns that the shell left alone. The order is that of
// the arguments, and by name within each. passed are the files of folders that do not
// end like weather files.
func findSites(args []string) (files []ranking.File, passed []string, err error) {
	for _, arg := range args {
		found, over, err := sitesOf(arg)
		if err != nil {
			return nil, nil, err
		}
		passed = append(passed, over...)
		if len(found) == 0 {
			return nil, nil, hint.With(fmt.Errorf("%s: no weather file there", arg), "in folders files are taken that end in %s", strings.Join(weatherEndings[1:], " "))
		}
		files = append(files, found...)
	}
	nameApart(files)
	return files, passed, nil
}

func sitesOf(arg string) (files []ranking.File, passed []string, err error) {
	info, err := os.Stat(arg)
	switch {
	case err == nil && info.IsDir():
		return sitesBelow(arg)
	case err == nil:
		if err := checkInput(arg); err != nil {
			return nil, nil, err
		}
		return []ranking.File{{Path: arg, Name: filepath.Base(arg)}}, nil, nil
	case !strings.ContainsAny(arg, "*?["):
		return nil, nil, fileError(arg, err)
	}
	paths, err := filepath.Glob(arg)
	if err != nil {
		return nil, nil, hint.With(usagef("%s: not a pattern", arg), "* stands for any text, ? for one letter")
	}
	for _, path := range paths {
		found, over, err := sitesOf(path)
		if err != nil {
			return nil, nil, err
		}
		files, passed = append(files, found...), append(passed, over...)
	}
	return files, passed, nil
}

func sitesBelow(folder string) (files []ranking.File, passed []string, err error) {
	err = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return fileError(path, err)
		}
		hidden := strings.HasPrefix(d.Name(), ".") && path != folder
		switch {
		case d.IsDir() && hidden:
			return filepath.SkipDir
		case d.IsDir() || hidden:
			return nil
		case !slices.Contains(weatherEndings, strings.ToLower(filepath.Ext(d.Name()))):
			passed = append(passed, path)
			return nil
		}
		if info, err := os.Stat(path); err != nil || !info.Mode().IsRegular() {
			return nil // a pipe or device is not waited for, nor a link to nothing
		}
		name, err := filepath.Rel(folder, path)
		if err != nil {
			return err
		}
		files = append(files, ranking.File{Path: path, Name: filepath.ToSlash(name)})
		return nil
	})
	return files, passed, err
}

// nameApart calls files by their whole paths where short names would be the
// same.
func nameApart(files []ranking.File) {
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
