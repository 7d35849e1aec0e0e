package docs

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// root is the folder of the project as seen from here.
const root = ".."

// page is one text that people read.
type page struct {
	name   string // from root, as docs/places.md
	lines  []string
	blocks []block
}

// block is a piece of a page that is not prose: fenced, or indented by four.
type block struct {
	line  int    // of its first line, from 1
	fence string // console, sh, toml, text; empty where indented
	mark  string // the comment directly before it, without its brackets
	lines []string
}

// command is what somebody would type, with what the page says comes of it.
type command struct {
	line  int
	text  string
	mark  string
	first bool     // of those that belong together: a block, or one example of a help text
	shown []string // output on the page; nil where none is shown
}

// pages are README, DEVELOPERS and everything under docs.
func pages(t *testing.T) []*page {
	t.Helper()
	names, err := filepath.Glob("*.md")
	require.NoError(t, err)
	for i, n := range names {
		names[i] = "docs/" + n
	}
	var all []*page
	for _, name := range append([]string{"README.md", "DEVELOPERS.md"}, names...) {
		all = append(all, readPage(t, name))
	}
	return all
}

func readPage(t *testing.T, name string) *page {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, name))
	require.NoError(t, err)
	p := &page{name: name, lines: strings.Split(string(text), "\n")}
	p.split()
	return p
}

var comment = regexp.MustCompile(`^<!-- (.*) -->$`)

// split finds the blocks. A comment counts as a block's mark where nothing but
// blank lines lies between.
func (p *page) split() {
	mark, open := "", -1
	for i, line := range p.lines {
		switch fence, isFence := strings.CutPrefix(line, "```"); {
		case isFence && open >= 0:
			open = -1
		case isFence:
			p.blocks = append(p.blocks, block{line: i + 2, fence: fence, mark: mark})
			open, mark = len(p.blocks)-1, ""
		case open >= 0:
			p.blocks[open].lines = append(p.blocks[open].lines, line)
		case strings.HasPrefix(line, "    "):
			last := len(p.blocks) - 1
			if last < 0 || p.blocks[last].fence != "" || p.blocks[last].line+len(p.blocks[last].lines) != i+1 {
				p.blocks = append(p.blocks, block{line: i + 1, mark: mark})
				last++
			}
			p.blocks[last].lines = append(p.blocks[last].lines, strings.TrimPrefix(line, "    "))
			mark = ""
		case comment.MatchString(line):
			mark = comment.FindStringSubmatch(line)[1]
		case line != "":
			mark = ""
		}
	}
}

// prose is the page without its blocks and comments, line by line.
func (p *page) prose() []string {
	out := append([]string(nil), p.lines...)
	for _, b := range p.blocks {
		for i := range b.lines {
			out[b.line-1+i] = ""
		}
	}
	for i, line := range out {
		if strings.HasPrefix(line, "```") || comment.MatchString(line) {
			out[i] = ""
		}
	}
	return out
}

// commands are the block's. In a console block they follow a $ and what is below
// is their output; in the help of a command they are its examples; elsewhere
// every line is one that is no comment. A backslash carries on to the next line.
func (b *block) commands() []command {
	var found []command
	inExamples, open, first := false, false, true
	for i, line := range b.lines {
		if open {
			last := &found[len(found)-1]
			last.text = strings.TrimSuffix(last.text, `\`) + strings.TrimSpace(line)
			open = strings.HasSuffix(line, `\`)
			continue
		}
		text, typed := "", false
		switch b.fence {
		case "console":
			text, typed = strings.CutPrefix(line, "$ ")
			if !typed && len(found) > 0 {
				last := &found[len(found)-1]
				last.shown = append(last.shown, line)
			}
		case "text":
			first = first || line == ""
			inExamples = line == "Examples:" || inExamples && !strings.HasSuffix(line, "lags:")
			text = strings.TrimSpace(line)
			typed = inExamples && strings.HasPrefix(text, "evapbook")
		case "sh", "":
			text = strings.TrimSpace(line)
			typed = text != "" && text[0] != '#' && (b.fence == "sh" || program.MatchString(text))
		}
		if typed {
			found = append(found, command{line: b.line + i, text: text, mark: b.mark, first: first})
			first = false
			open = strings.HasSuffix(text, `\`)
		}
	}
	return found
}

// program tells a command in an indented block from anything else there.
var program = regexp.MustCompile(`^(evapbook|go|make) `)

// file is the name under which a reader is told to save the block, if so.
func (b *block) file() string {
	name, _ := strings.CutPrefix(b.mark, "file: ")
	if name == b.mark {
		return ""
	}
	return name
}
