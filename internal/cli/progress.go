package cli

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"golang.org/x/term"
)

// progress tells how far a run over many files is: on a terminal in one line
// that is written over, elsewhere a line now and then.
type progress struct {
	w       io.Writer
	what    string // "files"
	live    bool   // w is a terminal
	started time.Time
	told    time.Time
	width   int // of the line that stands there
}

// Distances between two reports: often enough to be watched, and seldom enough
// for a log.
const (
	liveEvery  = 100 * time.Millisecond
	plainEvery = 10 * time.Second
)

func newProgress(w io.Writer, what string) *progress {
	f, ok := w.(*os.File)
	now := time.Now()
	return &progress{w: w, what: what, live: ok && term.IsTerminal(int(f.Fd())), started: now, told: now}
}

// report is told of every file done.
func (p *progress) report(done, of int) {
	now := time.Now()
	every := plainEvery
	if p.live {
		every = liveEvery
	}
	if now.Sub(p.told) < every {
		return
	}
	p.told = now
	line := progressLine(p.what, done, of, now.Sub(p.started))
	if !p.live {
		fmt.Fprintln(p.w, line)
		return
	}
	n := len([]rune(line))
	fmt.Fprint(p.w, "\r"+line+strings.Repeat(" ", max(0, p.width-n)))
	p.width = n
}

// clear takes the line off a terminal, so that what follows stands alone.
func (p *progress) clear() {
	if p.live && p.width > 0 {
		fmt.Fprint(p.w, "\r"+strings.Repeat(" ", p.width)+"\r")
		p.width = 0
	}
}

// progressLine says how many are done, how fast, and how long the rest takes.
func progressLine(what string, done, of int, spent time.Duration) string {
	rate := float64(done) / spent.Seconds()
	left := time.Duration(float64(of-done) / rate * float64(time.Second))
	return fmt.Sprintf("%s of %s %s, %.1f a second, %s left", count(done), count(of), what, rate, left.Round(time.Second))
}
