package weather

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A text as long as a file name may be stays whole; of a longer one as much is
// kept, and the cut shows.
func TestTextsAreCutWhereTheyAreTooLong(t *testing.T) {
	fits := strings.Repeat("ä", 255)
	assert.Equal(t, fits, shortened(fits))
	assert.Equal(t, fits[:254*len("ä")]+"…", shortened(fits+"b"))
}

// Hours are counted alike before and after 1970, where the count begins.
func TestHoursBefore1970(t *testing.T) {
	for _, at := range []time.Time{date(1955, 7, 1), date(1969, 12, 31).Add(23 * time.Hour), date(1970, 1, 1), date(2023, 7, 1)} {
		for _, past := range []time.Duration{0, time.Minute, 59 * time.Minute} {
			assert.Equal(t, at, fromEpochHour(epochHour(at.Add(past))), "%v past %v", past, at)
		}
	}
	assert.Equal(t, epochHour(date(1970, 1, 1)), epochHour(date(1969, 12, 31))+24)
}

// What is stated of the stamps goes before what their heading says: time_local
// reads them as local standard time, whatever clock the heading names.
func TestStatedLocalTime(t *testing.T) {
	for _, heading := range []string{"time (PDT)", "time utc"} {
		named, err := ParseColumns("time_local=" + heading)
		require.NoError(t, err)
		text := "# utc_offset_h: -7\n" + heading + ",temp_c,rh\n2023-07-01 10:00,25,40\n2023-07-01 11:00,26,38\n"
		s, err := readText(text, Options{AllowGaps: true, Columns: named})
		require.NoError(t, err, heading)
		assert.Equal(t, 25.0, at(t, s, "2023-07-01 10:00").DryBulb, heading)
	}
}

// The shortest stamp has one digit of hour and one of minute; a shorter one is
// none.
func TestShortestStamp(t *testing.T) {
	got, err := parseStamp("2023-07-01 9:0")
	require.NoError(t, err)
	assert.Equal(t, date(2023, 7, 1).Add(9*time.Hour), got)
	for _, cut := range []string{"2023-07-01 9:", "2023-07-01 9", "2023-07-01", ""} {
		_, err := parseStamp(cut)
		assert.ErrorContains(t, err, "is not a time of the form", cut)
	}
}

// What is too large is read to one byte beyond the limit: it shows as too large
// and is not taken for a whole file that ends there.
func TestTooLargeShows(t *testing.T) {
	for size, want := range map[int]int{99: 99, 100: 100, 101: 101, 500: 101} {
		got, err := readStored(strings.NewReader(strings.Repeat("1,2\n", 125)[:size]), 100)
		require.NoError(t, err)
		assert.Len(t, got, want, "%d bytes", size)
	}
}
