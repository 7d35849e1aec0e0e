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

// allowed lists the packages of this module that a package may depend on. Every
// package under internal has its line.
var allowed = map[string][]string{
	"hint":           {},
	"spelling":       {},
	"plaintext":      {},
	"version":        {},
	"look":           {},
	"csvcell":        {},
	"ical":           {},
	"xlsx/chart":     {},
	"xlsx/rowflate":  {},
	"xlsx":           {"xlsx/chart", "xlsx/rowflate"},
	"units":          {},
	"psychro":        {},
	"solar":          {},
	"weather":        {},
	"places/columns": {},
	"places":         {"places/columns", "units", "weather"},
	"inspect":        {"psychro", "units", "weather"},
	"job":            {"units"},
	"cooler":         {"job", "psychro", "units"},
	"refrigeration":  {"job", "units"},
	"climate":        {"job", "psychro", "solar", "units", "weather"},
	"house":          {"cooler", "job", "psychro", "units"},
	"season":         year[1:],
	"years":          year,
	"money":          year,
	"startup":        year,
	"reading":        {"cooler", "job", "psychro", "units"},
	"ranking":        append([]string{"csvcell"}, computed...),

	"workbook/fx":           year,
	"workbook/figures":      append([]string{"workbook/fx"}, computed...),
	"workbook/sheet":        append([]string{"workbook/figures", "workbook/fx", "look", "xlsx", "xlsx/chart", "xlsx/rowflate"}, computed...),
	"workbook/methods":      page,
	"workbook/given":        page,
	"workbook/steps":        page,
	"workbook/engineer":     page,
	"workbook/technician":   append([]string{"workbook/given", "workbook/steps", "reading", "startup"}, page...),
	"workbook/variants":     append([]string{"workbook/figures", "workbook/fx"}, computed...),
	"workbook/costs":        append([]string{"workbook/given", "workbook/variants"}, page...),
	"workbook/alternatives": append([]string{"workbook/costs", "workbook/given", "workbook/variants"}, page...),
	"workbook/customer":     append([]string{"workbook/costs", "workbook/given", "workbook/methods", "workbook/variants"}, page...),
	"workbook/manysites":    append([]string{"workbook/methods", "csvcell", "ranking"}, page...),
	"workbook":              book,
	"readback":              append([]string{"workbook/given"}, page...),

	"page":       append([]string{"version", "workbook"}, book...),
	"page/site":  {},
	"page/serve": {},
	"page/build": {"look", "page/site", "places", "places/columns", "units", "weather"},
	"cli":        append([]string{"csvcell", "ical", "inspect", "readback", "version", "workbook", "workbook/manysites", "ranking"}, book...),

	// Test support; no rule above names these, so only tests and tools use them.
	"officetest": {},
	"evaluator":  {"officetest"},
}

// anyone may use these; they know nothing of the rest.
var anyone = []string{"hint", "plaintext", "spelling"}

// year is what a year of one house is made of, computed what a house with its
// figures is made of, page what else a sheet takes, and book all of one house.
var (
	year     = []string{"season", "climate", "cooler", "house", "job", "psychro", "refrigeration", "solar", "units", "weather"}
	computed = append([]string{"money", "places", "places/columns", "years"}, year...)
	page     = append([]string{"workbook/figures", "workbook/fx", "workbook/sheet", "look", "xlsx", "xlsx/chart", "xlsx/rowflate"}, computed...)
	book     = append([]string{"workbook/alternatives", "workbook/costs", "workbook/customer", "workbook/engineer", "workbook/given", "workbook/methods", "workbook/steps", "workbook/technician", "workbook/variants", "reading", "startup"}, page...)
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
		assert.True(t, ruled, "%s has no rule: say here what it may depend on", name)
		seen++
		for _, d := range strings.Fields(deps) {
			if other, ok := strings.CutPrefix(d, module); ok && !slices.Contains(anyone, other) {
				assert.Contains(t, may, other, "%s depends on %s", name, other)
			}
		}
	}
	assert.Equal(t, len(allowed), seen, "packages with a rule")
}
