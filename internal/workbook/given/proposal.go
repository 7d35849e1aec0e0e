package given

import (
	"strings"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// What a person types into the cells of the proposal stands on the first page,
// which must not cut it: no program makes merged rows higher by itself. So the
// page reserves room by the longest text each cell takes, and the cells refuse
// longer ones. A job file may state longer texts; the room grows with them.

// lineChars is how many characters surely fit across the first page, capitals
// among them; titleChars the same in the size of titles.
const (
	lineChars  = 96
	titleChars = 44
)

// roomFor is the room of texts in characters, before what is stated.
var roomFor = map[string]int{
	"site.name": titleChars, "proposal.prepared_for": 80, "proposal.prepared_by": 90, "proposal.date": 30, "proposal.note": lineChars,
}

// Room is the longest text that an input's cell takes, in characters; 0 where
// the length does not matter.
func Room(c *figures.Case, in job.Input) int {
	room := roomFor[in.Key]
	if room == 0 {
		return 0
	}
	stated := 0
	for _, line := range strings.Split(in.Words(c.Season.Job), "\n") {
		stated += max(lineChars, len([]rune(line))) // a line break takes the rest of a line
	}
	if text := in.Words(c.Season.Job); !strings.Contains(text, "\n") {
		stated = len([]rune(text))
	}
	return max(room, stated)
}

// lines is how many lines texts of the given inputs may take together, with so
// many characters of our own between them.
func lines(c *figures.Case, perLine, between int, keys ...string) int {
	n := between
	for _, key := range keys {
		in, _ := job.Find(key)
		n += Room(c, in)
	}
	return (n + perLine - 1) / perLine
}

// TitleLines, WhoLines and NoteLines are the lines to reserve on the first page.
func TitleLines(c *figures.Case) int { return lines(c, titleChars, 0, "site.name") }

func WhoLines(c *figures.Case) int {
	return lines(c, lineChars, len("Prepared for  by , "), "proposal.prepared_for", "proposal.prepared_by", "proposal.date")
}

func NoteLines(c *figures.Case) int { return lines(c, lineChars, 0, "proposal.note") }

// WhoLine says who the page is for, by whom and when, as far as that is given.
func WhoLine(c *figures.Case) *sheet.Sentence {
	pr := c.Season.Job.Proposal
	say := func() *sheet.Sentence { return new(sheet.Sentence) }
	anybody := pr.PreparedFor+pr.PreparedBy != ""
	return say().
		When(`In_proposal_prepared_for&In_proposal_prepared_by<>""`, anybody, say().Say("Prepared")).
		When(`In_proposal_prepared_for<>""`, pr.PreparedFor != "", say().Say(" for ").Word("In_proposal_prepared_for", pr.PreparedFor)).
		When(`In_proposal_prepared_by<>""`, pr.PreparedBy != "", say().Say(" by ").Word("In_proposal_prepared_by", pr.PreparedBy)).
		When(`In_proposal_date<>""`, pr.Date != "", say().
			When(`In_proposal_prepared_for&In_proposal_prepared_by<>""`, anybody, say().Say(", ")).Word("In_proposal_date", pr.Date))
}

// Note is the proposal's note.
func Note(c *figures.Case) *sheet.Sentence {
	return new(sheet.Sentence).Word(`In_proposal_note&""`, c.Season.Job.Proposal.Note)
}
