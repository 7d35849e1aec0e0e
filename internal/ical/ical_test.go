package ical

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func day(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

func write(t require.TestingT, c *Calendar) string {
	var b bytes.Buffer
	require.NoError(t, c.Write(&b))
	return b.String()
}

// The grammar of RFC 5545 section 3.6.1, on one event.
func TestWrite(t *testing.T) {
	c := &Calendar{Product: "-//evapbook//test//EN", Stamp: day(2026, 1, 1), Events: []Event{{
		Key: "a", First: day(2026, 4, 27), Last: day(2026, 5, 3), Summary: "Start-up, Hill Street; 12", Description: "one\ntwo",
	}}}
	got := write(t, c)
	require.Equal(t, got, write(t, c), "same input, same bytes")
	for _, want := range []string{
		"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", "DTSTART;VALUE=DATE:20260427\r\n", "DTEND;VALUE=DATE:20260504\r\n",
		`SUMMARY:Start-up\, Hill Street\; 12` + "\r\n", `DESCRIPTION:one\ntwo` + "\r\n", "DTSTAMP:20260101T000000Z\r\n", "END:VEVENT\r\nEND:VCALENDAR\r\n",
	} {
		require.Contains(t, got, want)
	}
}

// Whatever the text: CR LF at every end, no line over 75 octets, characters
// whole, and unfolding and unescaping give the text back (sections 3.1, 3.3.11).
func TestFoldingGivesTheTextBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.StringOf(rapid.RuneFrom([]rune("aé漢🌡,;\\ \n:\""))).Draw(t, "text")
		got := write(t, &Calendar{Events: []Event{{Summary: want}}})
		require.NotContains(t, strings.ReplaceAll(got, "\r\n", ""), "\n")
		for _, line := range strings.Split(got, "\r\n") {
			require.LessOrEqual(t, len(line), 75)
			require.True(t, utf8.ValidString(line))
		}
		_, rest, _ := strings.Cut(strings.ReplaceAll(got, "\r\n ", ""), "\r\nSUMMARY:")
		value, _, _ := strings.Cut(rest, "\r\n")
		require.Equal(t, want, unescape(value))
	})
}

func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' {
			i++
			if s[i] == 'n' {
				b.WriteByte('\n')
				continue
			}
		}
		b.WriteByte(s[i])
	}
	return b.String()
}
