package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
)

// nfpm makes the packages; its version is pinned here. It stays out of go.mod,
// which lists what the program is made of. NFPM may name one that is installed.
const nfpm = "github.com/goreleaser/nfpm/v2/cmd/nfpm@v2.45.2"

// packages makes the deb and the rpm of one architecture.
func (r *release) packages(arch, program string) error {
	contents, err := r.contents(program)
	if err != nil {
		return err
	}
	config, err := json.MarshalIndent(map[string]any{ // nfpm reads YAML, of which JSON is a part
		"name": "evapbook", "arch": arch, "platform": "linux", "section": "science", "priority": "optional",
		"version": r.origin.packaged(), "version_schema": "none", "mtime": r.origin.date,
		"maintainer": "The evapbook authors <evapbook@example.invalid>", "license": "Apache-2.0",
		"homepage":    "https://github.com/evapbook/evapbook",
		"description": "What an evaporative cooler does for a house, in its climate, at its altitude\nReads an hourly weather file and writes the answer as a workbook of live formulas.",
		"rpm":         map[string]any{"buildhost": "localhost", "summary": "What an evaporative cooler does for a house"},
		"contents":    contents,
	}, "", "\t")
	if err != nil {
		return err
	}
	stated := filepath.Join(r.work, "nfpm-"+arch+".yaml")
	if err := os.WriteFile(stated, config, 0o644); err != nil {
		return err
	}
	for _, kind := range []string{"deb", "rpm"} {
		target := filepath.Join(r.folder, fmt.Sprintf("evapbook-%s-linux-%s.%s", r.origin.number(), arch, kind))
		cmd := exec.Command("go", "run", nfpm)
		if installed := os.Getenv("NFPM"); installed != "" {
			cmd = exec.Command(installed)
		}
		cmd.Args = append(cmd.Args, "package", "--config", stated, "--packager", kind, "--target", target)
		cmd.Env = append(os.Environ(), fmt.Sprintf("SOURCE_DATE_EPOCH=%d", r.origin.date.Unix()))
		if err := run(cmd); err != nil {
			return err
		}
	}
	return nil
}

// content is a file of a package, where the system looks for its kind.
type content struct {
	Src      string         `json:"src"`
	Dst      string         `json:"dst"`
	Packager string         `json:"packager,omitempty"` // only in packages of this kind
	Info     map[string]any `json:"file_info"`
}

func (r *release) contents(program string) ([]content, error) {
	info := func(mode int) map[string]any {
		return map[string]any{"mode": mode, "mtime": r.origin.date, "owner": "root", "group": "root"}
	}
	all := []content{{program, "/usr/bin/evapbook", "", info(0o755)}}
	add := func(src, dst, packager string) { all = append(all, content{src, dst, packager, info(0o644)}) }
	for _, p := range r.papers {
		switch folder, name := path.Split(p.name); {
		case folder == "man/":
			packed, err := gzipped(p.path)
			if err != nil {
				return nil, err
			}
			add(packed, "/usr/share/man/man1/"+name+".gz", "")
		case name == "evapbook.bash":
			add(p.path, "/usr/share/bash-completion/completions/evapbook", "")
		case name == "evapbook.fish":
			add(p.path, "/usr/share/fish/vendor_completions.d/evapbook.fish", "")
		case name == "_evapbook":
			add(p.path, "/usr/share/zsh/vendor-completions/_evapbook", "deb")
			add(p.path, "/usr/share/zsh/site-functions/_evapbook", "rpm")
		case strings.HasSuffix(name, ".ps1"):
		case name == "NOTICE": // Debian policy 12.5: what is whose, under this name
			add(p.path, "/usr/share/doc/evapbook/copyright", "deb")
			add(p.path, "/usr/share/doc/evapbook/NOTICE", "rpm")
		default:
			add(p.path, "/usr/share/doc/evapbook/"+p.name, "")
		}
	}
	return all, nil
}

// gzipped packs a file as packages hold manual pages, without name or time.
func gzipped(path string) (string, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return "", err
	}
	if _, err := z.Write(text); err != nil {
		return "", err
	}
	if err := z.Close(); err != nil {
		return "", err
	}
	return path + ".gz", os.WriteFile(path+".gz", b.Bytes(), 0o644)
}
