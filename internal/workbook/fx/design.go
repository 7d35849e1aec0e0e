package fx

import "github.com/evapbook/evapbook/internal/climate"

// Exceeded is the value of a Working column exceeded in a share of the
// hours; eq. 29.
func Exceeded(key string, share float64) string {
	return Fill("LARGE([Working.{K}:],MIN(ROUND({S}*COUNT([Working.{K}:]),0)+1,COUNT([Working.{K}:])))", "{K}", key, "{S}", Num(share))
}

// Coincident is the mean of another column over the hours within 0.5 K.
func Coincident(key, other, at string) string {
	const within = "([Working.{K}:]-{A}<={H})*([Working.{K}:]-{A}>=-{H})*([Working.p:]>0)"
	return Fill("SUMPRODUCT("+within+"*[Working.{O}:])/SUMPRODUCT("+within+")", "{K}", key, "{O}", other, "{A}", at, "{H}", Num(climate.Coincidence))
}
