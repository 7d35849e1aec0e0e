package fx

import (
	"strconv"

	"github.com/evapbook/evapbook/internal/job"
)

// Present is the present value of a way's cash flow within the study,
// less what is left of its machines at the end.
func Present(way, left string) string {
	return Fill("SUMPRODUCT([Cash.study:],[Cash.discount:],[Cash.{W}:])-{L}*(1+Si_price_discount)^-M_years", "{W}", way, "{L}", left)
}

// Payback mirrors money.Comparison.Payback against refrigeration.
func Payback(way string) string {
	return Fill(`IF(AND({I}<=0,{S}>=0),0,IF(OR({I}<=0,{S}<=0),"none",{I}/{S}))`,
		"{I}", "(M_"+way+"_installed-M_refrigerated_installed)", "{S}", "(M_refrigerated_yearly-M_"+way+"_yearly)")
}

// Ratio is a over b, "none" where b is 0.
func Ratio(a, b string) string { return `IF(` + b + `=0,"none",` + a + "/" + b + ")" }

// PeakPrice is the price of a kWh in peak hours, as the mean of days with and
// without; eq. 28.
const PeakPrice = `IF(In_price_peak_days="weekdays",5*Si_price_peak_electricity+2*Si_price_season_electricity,7*Si_price_peak_electricity)/7`

// PriceAt is the price of a kWh in an hour of a month, the hour by the clock on
// the wall. Season and peak may run over the new year and over midnight.
func PriceAt(month, clock string) string {
	within := func(x, first, last, before string) string {
		return Fill("IF({F}<={L},AND({F}<={X},{X}{B}{L}),OR({F}<={X},{X}{B}{L}))", "{X}", x, "{F}", first, "{L}", last, "{B}", before)
	}
	return "IF(" + within(month, "Si_price_season_first", "Si_price_season_last", "<=") +
		",IF(" + within(clock, "Si_price_peak_from", "Si_price_peak_to", "<") + ",B_peak_price,Si_price_season_electricity),Si_price_electricity)"
}

// CivilHour is the hour by the clock on the wall, a day being month*100+day.
func CivilHour(hour, day string) string {
	return Fill("MOD({H}+IF(IF(B_clock_ahead<=B_clock_back,AND(B_clock_ahead<={D},{D}<B_clock_back),OR(B_clock_ahead<={D},{D}<B_clock_back)),1,0),24)", "{H}", hour, "{D}", day)
}

// ClockChange is the day on which clocks change, by where they do.
func ClockChange(day func(job.SummerTime) int) string {
	at := func(s job.SummerTime) string { return strconv.Itoa(day(s)) }
	return Fill(`IF(In_price_summer_time="us",{U},IF(In_price_summer_time="eu",{E},IF(In_price_summer_time="south",{S},0)))`,
		"{U}", at(job.SummerTimeUS), "{E}", at(job.SummerTimeEU), "{S}", at(job.SummerTimeSouth))
}

// EnergyBill is what a way's energy costs in the year, every hour at its price.
func EnergyBill(column string) string {
	return "SUMPRODUCT([Working.price:],[Working." + column + ":])"
}
