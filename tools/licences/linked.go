// Package licences finds out whose work the shipped program holds, and under
// which licence each of them gave it.
package licences

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// Build is a program as it is shipped: a package for one system.
type Build struct{ OS, Arch, Package string }

// Programs are the packages under cmd that are shipped; Page is the one that
// runs in a browser.
const (
	Program = "./cmd/evapbook"
	Page    = "./cmd/evapbook-page"
)

// Builds are all builds that are shipped.
func Builds() []Build {
	var all []Build
	for _, system := range []string{"linux", "darwin", "windows"} {
		for _, arch := range []string{"amd64", "arm64"} {
			all = append(all, Build{system, arch, Program})
		}
	}
	return append(all, Build{"js", "wasm", Page})
}

// Module is somebody else's module of which packages are linked.
type Module struct {
	Path, Version string
	Sum           string // as in go.sum, h1:…
	Licence       string // an expression of SPDX identifiers
	Texts         []Text
}

// Text is one licence file, named from the folder of its module.
type Text struct{ Name, Body string }

// Linked lists the modules that any of the builds links, by path, with Go's own
// library at the end. It needs the go command, and the modules in its cache. Root is the
// folder of this module.
func Linked(root string, builds []Build) ([]Module, error) {
	found := map[string]*held{}
	for _, b := range builds {
		if err := list(root, b, found); err != nil {
			return nil, err
		}
	}
	var modules []Module
	for _, path := range slices.Sorted(maps.Keys(found)) {
		m, err := found[path].module()
		if err != nil {
			return nil, err
		}
		modules = append(modules, m)
	}
	std, err := standardLibrary(root)
	if err != nil {
		return nil, err
	}
	return append(modules, std), nil
}

// held is a module with the folders of the packages that are linked.
type held struct {
	Module
	folder   string
	packages map[string]bool
}

func list(root string, b Build, found map[string]*held) error {
	const format = "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Sum}}\t{{.Dir}}\t{{$.Dir}}{{end}}{{end}}"
	cmd := exec.Command("go", "list", "-deps", "-f", format, b.Package)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS="+b.OS, "GOARCH="+b.Arch, "CGO_ENABLED=0")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("go list for %s/%s: %w", b.OS, b.Arch, err)
	}
	for line := range strings.Lines(string(out)) {
		f := strings.Split(strings.TrimSpace(line), "\t")
		if len(f) != 5 {
			continue // of Go or ours
		}
		if found[f[0]] == nil {
			found[f[0]] = &held{Module{Path: f[0], Version: f[1], Sum: f[2]}, f[3], map[string]bool{}}
		}
		found[f[0]].packages[f[4]] = true
	}
	return nil
}

// module collects the licences of a module: those in its folder, and those
// beside the packages that are linked or above them.
func (h *held) module() (Module, error) {
	folders := map[string]bool{h.folder: true}
	for p := range h.packages {
		for ; len(p) > len(h.folder); p = filepath.Dir(p) {
			folders[p] = true
		}
	}
	var err error
	if h.Texts, err = texts(h.folder, slices.Sorted(maps.Keys(folders))); err != nil {
		return Module{}, err
	}
	h.Licence, err = Identify(h.Texts)
	if err != nil {
		return Module{}, fmt.Errorf("%s %s: %w", h.Path, h.Version, err)
	}
	return h.Module, nil
}

func texts(root string, folders []string) ([]Text, error) {
	var all []Text
	for _, folder := range folders {
		entries, err := os.ReadDir(folder)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if !isLicence(e.Name()) || e.IsDir() {
				continue
			}
			body, err := os.ReadFile(filepath.Join(folder, e.Name()))
			if err != nil {
				return nil, err
			}
			name, err := filepath.Rel(root, filepath.Join(folder, e.Name()))
			if err != nil {
				return nil, err
			}
			all = append(all, Text{filepath.ToSlash(name), strings.ReplaceAll(string(body), "\r\n", "\n")})
		}
	}
	return all, nil
}

// isLicence tells by its name whether a file says what may be done with others.
func isLicence(name string) bool {
	name, _, _ = strings.Cut(strings.ToLower(name), ".")
	return slices.Contains([]string{"license", "licence", "copying", "notice", "patents"}, name)
}

func standardLibrary(root string) (Module, error) {
	cmd := exec.Command("go", "env", "GOROOT", "GOVERSION")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		return Module{}, fmt.Errorf("go env: %w", err)
	}
	folder, version, _ := strings.Cut(strings.TrimSpace(string(out)), "\n")
	m := Module{Path: "std", Version: strings.TrimSpace(version)}
	if m.Texts, err = texts(folder, []string{folder}); err != nil {
		return Module{}, err
	}
	m.Licence, err = Identify(m.Texts)
	return m, err
}
