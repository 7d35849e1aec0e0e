package main

import (
	"archive/tar"
	"archive/zip"
	"cmp"
	"compress/flate"
	"compress/gzip"
	"io"
	"os"
	"slices"
	"time"
)

// file is one file of an archive.
type file struct {
	name string // within the archive, with slashes
	path string // where it is now
	mode int64
}

func sorted(files []file) []file {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b file) int { return cmp.Compare(a.name, b.name) })
	return files
}

// writeTar writes files, sorted by name, of nobody and of one time.
func writeTar(path string, files []file, when time.Time) (err error) {
	out, err := os.Create(path)
	if err != nil {
		return err
	}
	z, err := gzip.NewWriterLevel(out, gzip.BestCompression)
	if err != nil {
		return err
	}
	t := tar.NewWriter(z)
	for _, f := range sorted(files) {
		body, err := os.ReadFile(f.path)
		if err != nil {
			return err
		}
		if err := t.WriteHeader(&tar.Header{Name: f.name, Mode: f.mode, Size: int64(len(body)), ModTime: when, Format: tar.FormatUSTAR}); err != nil {
			return err
		}
		if _, err := t.Write(body); err != nil {
			return err
		}
	}
	return closeAll(t, z, out)
}

// writeZip does the same as a zip archive.
func writeZip(path string, files []file, when time.Time) error {
	out, err := os.Create(path)
	if err != nil {
		return err
	}
	z := zip.NewWriter(out)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestCompression) })
	for _, f := range sorted(files) {
		body, err := os.ReadFile(f.path)
		if err != nil {
			return err
		}
		h := &zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: when}
		h.SetMode(os.FileMode(f.mode))
		w, err := z.CreateHeader(h)
		if err != nil {
			return err
		}
		if _, err := w.Write(body); err != nil {
			return err
		}
	}
	return closeAll(z, out)
}

func closeAll(all ...io.Closer) error {
	for _, c := range all {
		if err := c.Close(); err != nil {
			return err
		}
	}
	return nil
}
