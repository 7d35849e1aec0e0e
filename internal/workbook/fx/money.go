package fx

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
