package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

const sumsFile = "SHA256SUMS"

// sums writes the checksums as sha256sum -c reads them, and prints the sizes.
func sums(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	var list strings.Builder
	for _, e := range entries {
		body, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			return err
		}
		fmt.Fprintf(&list, "%x  %s\n", sha256.Sum256(body), e.Name())
		fmt.Printf("%10d  %s\n", len(body), e.Name())
	}
	return os.WriteFile(filepath.Join(folder, sumsFile), []byte(list.String()), 0o644)
}
