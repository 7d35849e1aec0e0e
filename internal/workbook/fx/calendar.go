package fx

import (
	"fmt"
	"strings"
)

// Quantile gives the season position of the day by which a share of
// the evap hours has passed.
func Quantile(share string) string {
	return Fill("IF(AND([evap]>0,[passed]>={S}*Out_hours_evap,[passed]-[evap]<{S}*Out_hours_evap),[season],"+Never+")", "{S}", share)
}

// Never stands in the Days columns for a day that does not qualify.
const Never = "9999"

// SeasonDate is the date of the day at a place in the season, by its number of
// days from midsummer.
func SeasonDate(position string) string {
	return `IF(ABS(` + position + `)=` + Never + `,"none",INDEX([Days.date:],MATCH(` + position + `,[Days.season:],0)))`
}

// FreezeDate is SeasonDate for the freezes, which are sought all round the year:
// their numbers go beyond the cut of the circle.
func FreezeDate(position string, circle int) string {
	if circle == 0 {
		return SeasonDate(position)
	}
	around := fmt.Sprintf("MOD(%s+%d,%d)-%d", position, circle/2, circle, circle/2)
	return `IF(ABS(` + position + `)=` + Never + `,"none",INDEX([Days.date:],MATCH(` + around + `,[Days.season:],0)))`
}

// BeforeMidsummer is a place in the season counted back from midsummer,
// AfterMidsummer one counted forward from it, all round a circle of days. Where
// there is no circle, 0, a day on the other side is Never.
func BeforeMidsummer(season string, circle int) string {
	return around(season, "<0", "-", circle)
}

// AfterMidsummer: see BeforeMidsummer.
func AfterMidsummer(season string, circle int) string {
	return around(season, ">0", "+", circle)
}

func around(season, there, sign string, circle int) string {
	otherSide := fmt.Sprintf("%s%s%d", season, sign, circle)
	if circle == 0 {
		otherSide = strings.TrimPrefix(sign, "+") + Never
	}
	return fmt.Sprintf("IF(%s%s,%s,%s)", season, there, season, otherSide)
}
