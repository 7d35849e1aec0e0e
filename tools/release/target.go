package main

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/evapbook/evapbook/internal/page/build"
	"github.com/evapbook/evapbook/internal/version"
	"github.com/evapbook/evapbook/tools/licences"
)

// release is one release in the making.
type release struct {
	folder, work string
	origin       origin
	modules      []licences.Module
	papers       []file // what every archive holds beside the program
}

// target builds the program for one system and packs it.
func (r *release) target(b licences.Build, packages bool) error {
	name := fmt.Sprintf("evapbook-%s-%s-%s", r.origin.number(), b.OS, b.Arch)
	program := filepath.Join(r.work, name)
	if err := r.compile(program, b); err != nil {
		return err
	}
	called := "evapbook"
	if b.OS == "windows" {
		called += ".exe"
	}
	files := []file{{name + "/" + called, program, 0o755}}
	for _, p := range r.papers {
		files = append(files, file{name + "/" + p.name, p.path, p.mode})
	}
	write, ending := writeTar, ".tar.gz"
	if b.OS == "windows" {
		write, ending = writeZip, ".zip"
	}
	if err := write(filepath.Join(r.folder, name+ending), files, r.origin.date); err != nil {
		return err
	}
	if packages && b.OS == "linux" {
		return r.packages(b.Arch, program)
	}
	return nil
}

// compile builds without anything of this machine: no paths, no C library.
func (r *release) compile(program string, b licences.Build) error {
	flags := "-s -w -buildid= " + r.linker()
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags", flags, "-o", program, b.Package)
	cmd.Env = append(os.Environ(), "GOOS="+b.OS, "GOARCH="+b.Arch, "CGO_ENABLED=0", "GOAMD64=v1", "GOARM64=v8.0", "GOEXPERIMENT=")
	return run(cmd)
}

func (r *release) linker() string {
	return version.Linker(r.origin.version, r.origin.date.Format("2006-01-02"))
}

// page packs the page that build makes, which is the same everywhere.
func (r *release) page() error {
	folder := filepath.Join(r.work, "page")
	if _, err := build.To(folder, r.linker()); err != nil {
		return err
	}
	if err := licences.Copy(".", folder, r.modules); err != nil {
		return err
	}
	name := "evapbook-" + r.origin.number() + "-page"
	var files []file
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		inside, err := filepath.Rel(folder, path)
		files = append(files, file{name + "/" + filepath.ToSlash(inside), path, 0o644})
		return err
	})
	if err != nil {
		return err
	}
	return writeTar(filepath.Join(r.folder, name+".tar.gz"), files, r.origin.date)
}

// run runs a command and, if it fails, tells what it said.
func run(cmd *exec.Cmd) error {
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", strings.Join(cmd.Args[:min(3, len(cmd.Args))], " "), err, out)
	}
	return nil
}
