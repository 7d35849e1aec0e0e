// Command release makes the files that people download: for each system an
// archive, for Linux packages as well, the page for browsers, a list of what is
// inside (SBOM) and checksums. docs/release.md says what each holds.
//
//	go run ./tools/release -o out/release [-targets linux/amd64,windows/arm64] [-page=false] [-packages=false]
//	go run ./tools/release -notice
//
// The same commit gives the same bytes with the same Go, in any folder: paths
// are trimmed, and every time stamp is that of the commit.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/evapbook/evapbook/tools/licences"
)

func main() {
	var o options
	flag.StringVar(&o.folder, "o", "out/release", "folder to make; what was in it goes")
	flag.StringVar(&o.targets, "targets", "", "systems to build for, such as linux/amd64,windows/arm64; all unless stated")
	flag.BoolVar(&o.page, "page", true, "the page for browsers")
	flag.BoolVar(&o.packages, "packages", true, "deb and rpm packages")
	notice := flag.Bool("notice", false, "only bring NOTICE up to date")
	flag.Parse()
	run := o.run
	if *notice {
		run = writeNotice
	}
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

func writeNotice() error {
	modules, err := licences.Linked(".", licences.Builds())
	if err != nil {
		return err
	}
	return licences.WriteNotice(".", modules)
}

type options struct {
	folder, targets string
	page, packages  bool
}

func (o *options) run() error {
	builds, err := o.builds()
	if err != nil {
		return err
	}
	// What git says goes in by the linker; what else it knows would make builds
	// differ between a clone and an unpacked archive.
	if err := os.Setenv("GOFLAGS", "-buildvcs=false"); err != nil {
		return err
	}
	r := &release{folder: o.folder}
	if r.origin, err = originOf("."); err != nil {
		return err
	}
	if r.modules, err = licences.Linked(".", licences.Builds()); err != nil {
		return err
	}
	if err := clear(o.folder); err != nil {
		return err
	}
	if r.work, err = os.MkdirTemp("", "evapbook-release-"); err != nil {
		return err
	}
	defer os.RemoveAll(r.work)
	if r.papers, err = r.makePapers(); err != nil {
		return err
	}
	for _, b := range builds {
		if err := r.target(b, o.packages); err != nil {
			return fmt.Errorf("%s/%s: %w", b.OS, b.Arch, err)
		}
	}
	if o.page {
		if err := r.page(); err != nil {
			return fmt.Errorf("page: %w", err)
		}
	}
	if err := r.sbom(); err != nil {
		return err
	}
	return sums(o.folder)
}

// builds are the targets that were asked for.
func (o *options) builds() ([]licences.Build, error) {
	var wanted []licences.Build
	for _, b := range licences.Builds() {
		if b.Package == licences.Program && (o.targets == "" || strings.Contains(","+o.targets+",", ","+b.OS+"/"+b.Arch+",")) {
			wanted = append(wanted, b)
		}
	}
	if o.targets != "" && len(wanted) != strings.Count(o.targets, ",")+1 {
		return nil, fmt.Errorf("-targets %s: not all of these are built", o.targets)
	}
	return wanted, nil
}

// clear empties the folder of an earlier release, but no other folder.
func clear(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), "evapbook") && e.Name() != sumsFile {
			return fmt.Errorf("%s holds %s, which is no file of a release; name another folder", folder, e.Name())
		}
	}
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	return os.MkdirAll(filepath.Clean(folder), 0o755)
}
