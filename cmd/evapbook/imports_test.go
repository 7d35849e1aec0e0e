package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "github.com/evapbook/evapbook/internal/"

// allowed lists the packages of this module that a package may depend on.
var allowed = map[string][]string{
	"hint":          {},
	"spelling":      {},
	"units":         {},
	"psychro":       {},
	"weather":       {},
	"solar":         {},
	"ical":          {},
	"xlsx":          {},
	"look":          {},
	"job":           {"units"},
	"cooler":        {"job", "psychro", "units"},
	"refrigeration": {"job", "units"},
	"climate":       {"job", "psychro", "solar", "units", "weather"},
	"house":         {"cooler", "job", "psychro", "units"},
	"season":        {"climate", "cooler", "house", "job", "psychro", "refrigeration", "solar", "units", "weather"},

	"workbook/fx":         {"climate", "cooler", "house", "job", "psychro", "refrigeration", "season", "solar", "units", "weather"},
	"workbook/figures":    append([]string{"workbook/fx"}, computed...),
	"workbook/sheet":      append([]string{"workbook/figures", "workbook/fx", "look", "xlsx"}, computed...),
	"workbook/methods":    append([]string{"workbook/figures"}, page...),
	"workbook/given":      append([]string{"workbook/figures"}, page...),
	"workbook/steps":      append([]string{"workbook/figures"}, page...),
	"workbook/engineer":   append([]string{"workbook/figures"}, page...),
	"workbook/technician": append([]string{"workbook/figures", "workbook/given", "workbook/steps", "ical", "reading", "startup"}, page...),
	"workbook/customer":   append([]string{"workbook/figures", "workbook/given", "workbook/methods"}, page...),
}

// anyone may use these; they know nothing of the rest.
var anyone = []string{"hint", "spelling"}

// computed is what a computed house is made of, and page what else a sheet takes.
var (
	computed = []string{"climate", "cooler", "house", "job", "money", "places", "places/columns", "psychro", "refrigeration", "season", "solar", "units", "weather", "years"}
	page     = append([]string{"workbook/fx", "workbook/sheet", "look", "xlsx"}, computed...)
)

// libraries that one package alone may know.
var known = map[string]string{
	"github.com/xuri/excelize/v2": "xlsx",
	"github.com/spf13/cobra":      "cli",
}

// Imports point one way, as DEVELOPERS.md draws them.
func TestImports(t *testing.T) {
	text, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \" \"}} | {{join .Deps \" \"}}", "../../internal/...").Output()
	require.NoError(t, err)
	seen := 0
	for line := range strings.Lines(string(text)) {
		direct, deps, _ := strings.Cut(strings.TrimSpace(line), " | ")
		fields := strings.Fields(direct)
		name, imports := strings.TrimPrefix(fields[0], module), fields[1:]
		for library, owner := range known {
			assert.False(t, name != owner && slices.Contains(imports, library), "%s imports %s, which only %s may know", name, library, owner)
		}
		may, ruled := allowed[name]
		if !ruled {
			continue
		}
		seen++
		for _, d := range strings.Fields(deps) {
			if other, ok := strings.CutPrefix(d, module); ok && !slices.Contains(anyone, other) {
				assert.Contains(t, may, other, "%s depends on %s", name, other)
			}
		}
	}
	assert.Equal(t, len(allowed), seen, "packages with a rule")
}
