package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra/doc"

	"github.com/evapbook/evapbook/internal/cli"
	"github.com/evapbook/evapbook/tools/licences"
)

const sample = "sample.xlsx"

// shells and the files in which each looks for completions.
var shells = []struct{ name, file string }{
	{"bash", "evapbook.bash"}, {"zsh", "_evapbook"}, {"fish", "evapbook.fish"}, {"powershell", "evapbook.ps1"},
}

// makePapers makes what every archive holds beside the program.
func (r *release) makePapers() ([]file, error) {
	papers, err := documents(".")
	if err != nil {
		return nil, err
	}
	folder := filepath.Join(r.work, "papers")
	for _, f := range []string{"completions", "man"} {
		if err := os.MkdirAll(filepath.Join(folder, f), 0o755); err != nil {
			return nil, err
		}
	}
	if err := licences.Copy(".", folder, r.modules); err != nil {
		return nil, err
	}
	if err := r.manual(filepath.Join(folder, "man")); err != nil {
		return nil, err
	}
	if err := r.written(folder); err != nil {
		return nil, err
	}
	err = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(folder, path)
		papers = append(papers, file{filepath.ToSlash(name), path, 0o644})
		return err
	})
	return papers, err
}

// documents are README.md and the pages it leads to, with their pictures: who has
// only the archive follows its links, too.
func documents(root string) ([]file, error) {
	var all []file
	for _, pattern := range []string{"*.md", "docs/*.md", "docs/pictures/*.png"} {
		found, err := filepath.Glob(filepath.Join(root, filepath.FromSlash(pattern)))
		if err != nil {
			return nil, err
		}
		for _, path := range found {
			name, err := filepath.Rel(root, path)
			if err != nil {
				return nil, err
			}
			all = append(all, file{filepath.ToSlash(name), path, 0o644})
		}
	}
	return all, nil
}

// manual writes a page for each command.
func (r *release) manual(folder string) error {
	root := cli.Tree()
	root.DisableAutoGenTag = true
	root.InitDefaultHelpCmd()
	return doc.GenManTreeFromOpts(root, doc.GenManTreeOptions{
		Header: &doc.GenManHeader{Section: "1", Date: &r.origin.date, Source: "evapbook " + r.origin.number(), Manual: "evapbook"},
		Path:   folder, CommandSeparator: "-",
	})
}

// written is what the program itself writes: completions and the sample's book.
// It is built for this machine, with the version of the release.
func (r *release) written(folder string) error {
	program := filepath.Join(r.work, "evapbook")
	if err := r.compile(program, licences.Build{OS: runtime.GOOS, Arch: runtime.GOARCH, Package: licences.Program}); err != nil {
		return err
	}
	for _, s := range shells {
		script, err := exec.Command(program, "completion", s.name).Output()
		if err != nil || !bytes.Contains(script, []byte("evapbook")) {
			return fmt.Errorf("evapbook completion %s: %w", s.name, err)
		}
		if err := os.WriteFile(filepath.Join(folder, "completions", s.file), script, 0o644); err != nil {
			return err
		}
	}
	return run(exec.Command(program, "write", "-q", "-o", filepath.Join(folder, sample)))
}
