package season

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/evapbook/evapbook/internal/climate"
)

// The default air conditioner is short in four hours of a thousand, counted over
// the hours that have weather: the 0.4 % of design conditions. Eq. 27; source of
// the share: ASHRAE Handbook of Fundamentals (2021), chapter 14.
func TestNeededRatingLeavesFourHoursInAThousand(t *testing.T) {
	s := &Season{Climate: &climate.Climate{}}
	for i := range 2999 {
		s.Hours = append(s.Hours, Hour{NeededRating: float64((i * 7) % 2999), Outcome: Idle})
	}
	// 2,999 hours: eleven whole hours may be above. 0 to 2998 in some order.
	assert.Equal(t, 2998-11., s.NeededRating())

	s.Hours = append(s.Hours, Hour{NeededRating: 1e6, Outcome: Missing})
	assert.Equal(t, 2998-11., s.NeededRating(), "an hour without weather is none of the thousand")

	s.Hours = append(s.Hours, Hour{NeededRating: 0, Outcome: Idle})
	assert.Equal(t, 2998-12., s.NeededRating(), "3,000 hours: twelve")
}
