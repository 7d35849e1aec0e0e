// Package build makes the folder that a web host serves: the page, the program
// as WebAssembly, one file for each weather station. It needs the go command.
package build

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"github.com/klauspost/compress/gzip"

	"github.com/evapbook/evapbook/internal/page/site"
	"github.com/evapbook/evapbook/internal/places"
)

// File is one file of the page.
type File struct {
	Name  string
	Bytes int
}

// To makes the page in a folder, which is emptied first. Files lists what a
// browser loads at once; the stations come when they are asked for. Linker is
// further flags for go build -ldflags, such as those of version.Linker.
func To(folder, linker string) (files []File, err error) {
	b := builder{folder: folder, linker: linker, sum: map[string]string{}}
	if err := b.clear(); err != nil {
		return nil, err
	}
	for _, step := range []func() error{b.site, b.look, b.engine, b.list, b.stations} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return b.files, nil
}

type builder struct {
	folder, linker string
	files          []File
	sum            map[string]string
}

// mark is a file by which clear knows a folder of ours.
const mark = "worker.js"

// clear empties a folder, but never one that holds something else.
func (b *builder) clear() error {
	entries, err := os.ReadDir(b.folder)
	if err != nil && !os.IsNotExist(err) {
		return err
	}
	if len(entries) > 0 {
		if _, err := os.Stat(filepath.Join(b.folder, mark)); err != nil {
			return fmt.Errorf("%s holds something that is not the page; name another folder", b.folder)
		}
	}
	if err := os.RemoveAll(b.folder); err != nil {
		return err
	}
	return os.MkdirAll(b.folder, 0o755)
}

// put writes a file that a browser loads at once.
func (b *builder) put(name string, text []byte) error {
	sum := sha256.Sum256(text)
	b.sum[name] = hex.EncodeToString(sum[:])
	b.files = append(b.files, File{name, len(text)})
	return os.WriteFile(filepath.Join(b.folder, name), text, 0o644)
}

// site copies the files that are served as they stand.
func (b *builder) site() error {
	return fs.WalkDir(site.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := site.Files.ReadFile(name)
		if err != nil {
			return err
		}
		return b.put(name, text)
	})
}

// look writes the colours and sizes of package look for the style sheet.
func (b *builder) look() error { return b.put("look.css", lookCSS()) }

// engine compiles the program and packs it, so that every host sends it small.
func (b *builder) engine() error {
	root, err := goTool("env", "GOROOT")
	if err != nil {
		return err
	}
	start, err := os.ReadFile(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("%w; the Go that builds the page must have its lib/wasm", err)
	}
	if err := b.put("wasm_exec.js", start); err != nil {
		return err
	}
	wasm := filepath.Join(b.folder, "engine.wasm")
	if _, err := goTool("build", "-trimpath", "-ldflags=-s -w -buildid= "+b.linker, "-o", wasm, "github.com/evapbook/evapbook/cmd/evapbook-page"); err != nil {
		return err
	}
	plain, err := os.ReadFile(wasm)
	if err != nil {
		return err
	}
	if err := os.Remove(wasm); err != nil {
		return err
	}
	packed, err := pack(plain)
	if err != nil {
		return err
	}
	return b.put("engine.bin", packed)
}

func goTool(args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, complaints.String())
	}
	return string(out), nil
}

func pack(plain []byte) ([]byte, error) {
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(plain); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// list writes what the service worker keeps, and a version that changes with any
// of it. The service worker itself is kept by the browser.
func (b *builder) list() error {
	names := []string{"./"}
	all := sha256.New()
	for _, f := range b.files {
		if f.Name != "sw.js" {
			names = append(names, f.Name)
		}
		fmt.Fprintln(all, f.Name, b.sum[f.Name])
	}
	slices.Sort(names)
	list, err := json.MarshalIndent(names, "", "\t")
	if err != nil {
		return err
	}
	text := fmt.Sprintf("\"use strict\";\nself.pageVersion = %q;\nself.pageFiles = %s;\n", hex.EncodeToString(all.Sum(nil))[:16], list)
	return b.put("files.js", []byte(text))
}

// stations writes the year of each station into a file of its own.
func (b *builder) stations() error {
	folder := filepath.Join(b.folder, "stations")
	if err := os.Mkdir(folder, 0o755); err != nil {
		return err
	}
	all := places.Stations()
	for i := range all {
		if err := os.WriteFile(filepath.Join(folder, all[i].Number+".bin"), places.Block(&all[i]), 0o644); err != nil {
			return err
		}
	}
	return nil
}
