package fx

// Quantile gives the season position of the day by which a share of
// the evap hours has passed.
func Quantile(share string) string {
	return Fill("IF(AND([evap]>0,[passed]>={S}*Out_hours_evap,[passed]-[evap]<{S}*Out_hours_evap),[season],"+Never+")", "{S}", share)
}

// Never stands in the Days columns for a day that does not qualify.
const Never = "9999"

// SeasonDate is the date of the day at a place in the season.
func SeasonDate(position string) string {
	return `IF(ABS(` + position + `)=` + Never + `,"none",INDEX([Days.date:],MATCH(` + position + `,[Days.season:],0)))`
}
