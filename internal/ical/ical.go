// Package ical writes calendars of all-day events that calendar programs
// import: RFC 5545 (2009), sections named where they apply.
//
// It writes what a list of visits needs and no more: no times of day, no time
// zones, no recurrence, no alarms. That is little enough to need no library.
package ical

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// Calendar is one file.
type Calendar struct {
	Product string    // who made it, PRODID; section 3.7.3
	Name    string    // shown by most programs, X-WR-CALNAME
	Stamp   time.Time // DTSTAMP of all events; given, so that the same input writes the same bytes
	Events  []Event
}

// Event takes whole days.
type Event struct {
	Key         string    // makes the UID; the same key is the same event when imported again
	First, Last time.Time // days, both included
	Summary     string
	Location    string
	Description string
}

// Write writes the calendar: lines end in CR LF and are folded at 75 octets
// (section 3.1).
func (c *Calendar) Write(w io.Writer) error {
	b := bufio.NewWriter(w)
	line := func(name, value string) { fold(b, name+":"+value) }
	line("BEGIN", "VCALENDAR")
	line("VERSION", "2.0")
	line("PRODID", text(c.Product))
	line("CALSCALE", "GREGORIAN")
	line("METHOD", "PUBLISH")
	if c.Name != "" {
		line("X-WR-CALNAME", text(c.Name))
	}
	for i := range c.Events {
		c.Events[i].write(line, c.Stamp)
	}
	line("END", "VCALENDAR")
	return b.Flush()
}

// write is one VEVENT; section 3.6.1. DTEND of a DATE is the day after the
// last. Nobody is busy because of it: TRANSP (section 3.8.2.7).
func (e *Event) write(line func(name, value string), stamp time.Time) {
	line("BEGIN", "VEVENT")
	line("UID", e.uid())
	line("DTSTAMP", stamp.UTC().Format("20060102T150405Z"))
	line("DTSTART;VALUE=DATE", e.First.Format("20060102"))
	line("DTEND;VALUE=DATE", e.Last.AddDate(0, 0, 1).Format("20060102"))
	line("SUMMARY", text(e.Summary))
	if e.Location != "" {
		line("LOCATION", text(e.Location))
	}
	if e.Description != "" {
		line("DESCRIPTION", text(e.Description))
	}
	line("TRANSP", "TRANSPARENT")
	line("END", "VEVENT")
}

// uid is the same for the same key, and no other; section 3.8.4.7.
func (e *Event) uid() string {
	sum := sha256.Sum256([]byte(e.Key))
	return hex.EncodeToString(sum[:12]) + "@evapbook"
}

var escape = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// text escapes a value of type TEXT; section 3.3.11. Control characters, which
// it cannot hold, are dropped.
func text(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, escape.Replace(strings.ToValidUTF8(s, "?")))
}

// fold writes a content line, cut into lines of at most 75 octets; all but the
// first begin with a space. Characters stay whole.
func fold(b *bufio.Writer, s string) {
	room := 75
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		b.WriteString(s[:cut]) // bufio keeps the first error for Flush
		b.WriteString("\r\n ")
		s, room = s[cut:], 74
	}
	b.WriteString(s)
	b.WriteString("\r\n")
}
