package licences

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// The list in NOTICE stands between its heading and the end of the file.
const heading = "\nIt is built from the work of others. Their licences stand in full in the file\nTHIRD-PARTY-LICENSES of each release (name, version, licence):\n\n"

// List is the modules as NOTICE names them. Go's own library has the version of
// whoever builds, and so none there.
func List(modules []Module) string {
	var b strings.Builder
	for _, m := range modules {
		if m.Path == "std" {
			m.Path, m.Version = "Go standard library", ""
		}
		fmt.Fprintf(&b, "  %s\n", strings.Join(strings.Fields(m.Path+" "+m.Version+" "+m.Licence), " "))
	}
	return b.String()
}

// Listed is the list as NOTICE has it.
func Listed(root string) (string, error) {
	_, list, err := split(root)
	return list, err
}

// WriteNotice puts the list into NOTICE.
func WriteNotice(root string, modules []Module) error {
	before, _, err := split(root)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(root, "NOTICE"), []byte(before+heading+List(modules)), 0o644)
}

func split(root string) (before, list string, err error) {
	text, err := os.ReadFile(filepath.Join(root, "NOTICE"))
	if err != nil {
		return "", "", err
	}
	before, list, _ = strings.Cut(string(text), heading)
	return before, list, nil
}

// ThirdParty is the name of the file that holds Full.
const ThirdParty = "THIRD-PARTY-LICENSES"

// Copy puts into a folder what goes with the program: LICENSE, NOTICE and the
// licences of others.
func Copy(root, folder string, modules []Module) error {
	for _, name := range []string{"LICENSE", "NOTICE"} {
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(folder, ThirdParty), []byte(Full(modules)), 0o644)
}

// Full is every licence word for word, for those who get the program without
// its sources.
func Full(modules []Module) string {
	const rule = "================================================================================"
	var b strings.Builder
	b.WriteString("evapbook is under the Apache License, Version 2.0 (LICENSE). It holds the work of\nothers, listed in NOTICE. These are their licences, word for word.\n")
	for _, m := range modules {
		for _, t := range m.Texts {
			fmt.Fprintf(&b, "\n%s\n%s %s: %s\n%s\n\n%s\n", rule, m.Path, m.Version, t.Name, rule, strings.Trim(t.Body, "\n"))
		}
	}
	return b.String()
}
