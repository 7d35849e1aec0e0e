package main

import (
	"archive/zip"
	"io"
	"path"
	"strings"
)

const typesPart = "[Content_Types].xml"

func (l *lint) unpack(path string) bool {
	z, err := zip.OpenReader(path)
	if err != nil {
		l.say("no zip archive: %v", err)
		return false
	}
	defer z.Close()
	for _, f := range z.File {
		if _, twice := l.parts[f.Name]; twice {
			l.say("part %s twice", f.Name)
		}
		r, err := f.Open()
		if err == nil {
			l.parts[f.Name], err = io.ReadAll(r)
			r.Close()
		}
		if err != nil {
			l.say("part %s: %v", f.Name, err)
			return false
		}
	}
	return true
}

// contentTypes: every part has one, and none is given to a part that is not there.
func (l *lint) contentTypes() {
	byEnding, byName := map[string]bool{}, map[string]bool{}
	l.walk(typesPart, func(e *element) {
		switch e.Name.Local {
		case "Default":
			byEnding[strings.ToLower(e.attr("Extension"))] = true
		case "Override":
			name := strings.TrimPrefix(e.attr("PartName"), "/")
			if byName[name] {
				l.say("content type of %s twice", name)
			}
			byName[name] = true
			if _, ok := l.parts[name]; !ok {
				l.say("content type of %s, which is missing", name)
			}
		}
	})
	for name := range l.parts {
		ending := strings.ToLower(strings.TrimPrefix(path.Ext(name), "."))
		if name != typesPart && ending != "rels" && !byName[name] && (ending == "xml" || !byEnding[ending]) {
			l.say("no content type for %s", name)
		}
	}
}

type relation struct{ kind, target string }

// relations of a part by their identifiers; of the package where part is empty.
func (l *lint) relations(part string) map[string]relation {
	rels := path.Join(path.Dir(part), "_rels", path.Base("/"+part)+".rels")
	if part == "" {
		rels = "_rels/.rels"
	}
	out := map[string]relation{}
	if l.parts[rels] == nil {
		return out
	}
	l.walk(rels, func(e *element) {
		if e.Name.Local != "Relationship" {
			return
		}
		id, target := e.attr("Id"), e.attr("Target")
		if e.attr("TargetMode") != "External" {
			if rooted, ok := strings.CutPrefix(target, "/"); ok {
				target = rooted
			} else {
				target = path.Join(path.Dir(part), target)
			}
			if _, ok := l.parts[target]; !ok {
				l.say("%s: target %s is missing", rels, target)
			}
		}
		if _, twice := out[id]; twice {
			l.say("%s: %s twice", rels, id)
		}
		out[id] = relation{path.Base(e.attr("Type")), target}
	})
	return out
}

// wellFormed reads every part that no other check reads.
func (l *lint) wellFormed() {
	for name := range l.parts {
		ending := path.Ext(name)
		if (ending == ".xml" || ending == ".rels" || ending == ".vml") && !strings.HasPrefix(name, "xl/worksheets/sheet") {
			l.walk(name, nil)
		}
	}
}

// charts refer to sheets that are there.
func (l *lint) charts() {
	for name := range l.parts {
		if strings.HasPrefix(name, "xl/drawings/drawing") {
			l.relations(name)
		}
		if !strings.HasPrefix(name, "xl/charts/chart") {
			continue
		}
		l.relations(name)
		l.walk(name, func(e *element) {
			var ref string
			if e.Name.Local == "f" && e.take(&ref) == nil {
				l.sheetsOf(name, ref)
			}
		})
	}
}

// workbook checks the names of sheets and of ranges, and gives the sheets' parts.
func (l *lint) workbook() (parts []string) {
	const part = "xl/workbook.xml"
	rels := l.relations(part)
	type defined struct{ name, scope, ref string }
	var all []defined
	l.walk(part, func(e *element) {
		switch e.Name.Local {
		case "sheet":
			l.sheetName(e.attr("name"))
			parts = append(parts, rels[e.attr("id")].target)
		case "definedName":
			var ref string
			if e.take(&ref) == nil {
				all = append(all, defined{e.attr("name"), e.attr("localSheetId"), ref})
			}
		}
	})
	seen := map[string]bool{}
	for _, d := range all {
		key := strings.ToLower(d.scope + "!" + d.name)
		if seen[key] {
			l.say("name %s twice", d.name)
		}
		seen[key] = true
		if !validName(strings.TrimPrefix(d.name, "_xlnm.")) {
			l.say("%q is no name for a range", d.name)
		}
		l.names[strings.ToLower(d.name)] = true
		l.sheetsOf("name "+d.name, d.ref)
	}
	return parts
}

func (l *lint) sheetName(name string) {
	if name == "" || len([]rune(name)) > 31 || strings.ContainsAny(name, `:\/?*[]`) || strings.HasPrefix(name, "'") || strings.HasSuffix(name, "'") || strings.EqualFold(name, "history") {
		l.say("%q is no name for a sheet", name)
	}
	if l.sheets[strings.ToLower(name)] {
		l.say("sheet %q twice", name)
	}
	l.sheets[strings.ToLower(name)] = true
}
