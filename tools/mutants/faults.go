package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// fault is one change of source text.
type fault struct {
	area    string
	file    string // path from the module's root
	offset  int    // of the text it replaces
	old     string
	new     string
	line    string // the line it stands in, without indent
	nth     int    // among equal texts of that line
	repeat  int    // among equal lines of the file
	formula bool
}

// String names a fault without its line number, which edits elsewhere move.
func (f fault) String() string {
	name := fmt.Sprintf("%s: %s -> %s (%d) in: %s", f.file, f.old, f.new, f.nth+1, f.line)
	if f.repeat > 0 {
		name += fmt.Sprintf(" (line %d like this)", f.repeat+1)
	}
	return name
}

// faults are all changes that could be made to the areas' source.
func faults(root string) ([]fault, error) {
	var all []fault
	for _, area := range areas {
		err := filepath.WalkDir(filepath.Join(root, area), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			fs, err := faultsIn(area, filepath.ToSlash(path), text)
			all = append(all, fs...)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

// finder collects the faults of one file.
type finder struct {
	fset  *token.FileSet
	text  []byte
	proto fault
	found []fault
}

func faultsIn(area, path string, text []byte) ([]fault, error) {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, path, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	f := &finder{fset: fset, text: text, proto: fault{area: area, file: path, formula: area == "workbook"}}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case nil, *ast.ImportSpec:
			return false
		case *ast.ArrayType:
			return false // a length is a matter of the compiler
		case *ast.ReturnStmt:
			if k := len(n.Results); k > 1 && makesError(n.Results[k-1]) {
				return false // what else is returned is not used
			}
		case *ast.Field:
			return n.Tag == nil // no tags
		case *ast.BasicLit:
			if n.Kind == token.STRING {
				f.formulas(n)
			}
		}
		if !f.proto.formula && n != nil {
			f.inCode(n)
		}
		return true
	})
	seen := map[fault]int{}
	for i := range f.found {
		x := f.found[i]
		x.offset = 0
		f.found[i].repeat = seen[x]
		seen[x]++
	}
	return f.found, nil
}

// inGo and inFormulas are the words and operators that are a likely slip for
// one another.
var (
	inGo = map[string]string{
		"+": "-", "-": "+", "*": "/", "/": "*", "%": "*", "+=": "-=", "-=": "+=", "*=": "/=", "/=": "*=",
		"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&",
		"min": "max", "max": "min", "true": "false", "false": "true", "continue": "break",
		"Floor": "Ceil", "Ceil": "Floor", "Sin": "Cos", "Cos": "Sin", "Round": "Floor", "Before": "After", "After": "Before",
	}
	inFormulas = map[string]string{
		"+": "-", "-": "+", "*": "/", "/": "*", "<": "<=", "<=": "<", ">": ">=", ">=": ">", "<>": "=", "=": "<>",
		"MIN": "MAX", "MAX": "MIN", "AND": "OR", "OR": "AND", "SUM": "AVERAGE", "ROUNDUP": "ROUND", "LARGE": "SMALL",
	}
)

func (f *finder) swap(pos token.Pos, old string) {
	if new, ok := inGo[old]; ok {
		f.add(f.fset.Position(pos).Offset, old, new)
	}
}

func (f *finder) add(offset int, old, new string) {
	x := f.proto
	x.offset, x.old, x.new = offset, old, new
	from := strings.LastIndexByte(string(f.text[:offset]), '\n') + 1
	line, _, _ := strings.Cut(string(f.text[from:]), "\n")
	x.line = strings.TrimSpace(line)
	x.nth = strings.Count(string(f.text[from:offset]), old)
	f.found = append(f.found, x)
}

func (f *finder) inCode(n ast.Node) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		if n.Op != token.ADD || !mentionsText(n) {
			f.swap(n.OpPos, n.Op.String())
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			f.add(f.fset.Position(n.OpPos).Offset, n.Op.String(), "")
		}
	case *ast.AssignStmt:
		f.swap(n.TokPos, n.Tok.String())
	case *ast.BranchStmt:
		f.swap(n.TokPos, n.Tok.String())
	case *ast.Ident:
		f.swap(n.NamePos, n.Name)
	case *ast.BasicLit:
		if n.Kind == token.INT || n.Kind == token.FLOAT {
			f.number(f.fset.Position(n.ValuePos).Offset, n.Value)
		}
	}
}

// makesError knows err and calls like fmt.Errorf and fileError.
func makesError(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return strings.Contains(strings.ToLower(e.Name), "err")
	case *ast.SelectorExpr:
		return makesError(e.Sel)
	case *ast.CallExpr:
		return makesError(e.Fun)
	}
	return false
}

// mentionsText reports a sum that joins strings.
func mentionsText(e ast.Expr) (text bool) {
	ast.Inspect(e, func(n ast.Node) bool {
		if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
			text = true
		}
		return !text
	})
	return text
}

var digits = regexp.MustCompile(`^[0-9_]*\.?[0-9_]*`)

// number changes the last digit. A bare power of ten (1e-9) is a tolerance,
// which no test pins and none should.
func (f *finder) number(offset int, text string) {
	mantissa := digits.FindString(text)
	if mantissa == "" || mantissa == "." || mantissa == "1" && mantissa != text || strings.HasPrefix(text, "0x") {
		return
	}
	last := strings.TrimRight(mantissa, "._")
	d := last[len(last)-1]
	to := d + 1
	if d == '9' {
		to = '8'
	}
	f.add(offset, text, last[:len(last)-1]+string(to)+mantissa[len(last):]+text[len(mantissa):])
}

var (
	// A formula names cells or calls functions, and it is no sentence.
	looksFormula = regexp.MustCompile(`\[[a-z][a-z0-9_]*\]|\{[A-Z]\}|\b[A-Z][a-z]{0,3}_[a-z]|\b[A-Z]{2,}\(`)
	looksProse   = regexp.MustCompile(`[a-z]{2,},? [a-z]{2,}`)
	part         = regexp.MustCompile(`"[^"]*"|\[[^\]]*\]|\{[^}]*\}|%[-+.0-9]*[a-z]|\$?[A-Z]{1,3}\$?[0-9]+|[A-Za-z_][A-Za-z_0-9.]*|[0-9]+\.?[0-9]*(?:E[-+]?[0-9]+)?|<=|>=|<>|[-+*/<>=]`)
)

// formulas are the faults in a string literal that holds formula text.
func (f *finder) formulas(lit *ast.BasicLit) {
	if !f.proto.formula || !looksFormula.MatchString(lit.Value) || looksProse.MatchString(lit.Value) {
		return
	}
	start := f.fset.Position(lit.ValuePos).Offset
	text := lit.Value[1 : len(lit.Value)-1]
	for _, at := range part.FindAllStringIndex(strings.ReplaceAll(text, `\"`, `""`), -1) {
		word := text[at[0]:at[1]]
		switch {
		case word[0] >= '0' && word[0] <= '9':
			f.number(start+1+at[0], word)
		case at[0] == 0 && word == "=":
		default:
			if new, ok := inFormulas[word]; ok {
				f.add(start+1+at[0], word, new)
			}
		}
	}
}
