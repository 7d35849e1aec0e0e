package job

import (
	_ "embed"
	"fmt"
	"strings"

	"github.com/gocarina/gocsv"
)

// electricityTable holds the residential price of electricity by US state. Its
// first lines name its source.
//
//go:embed electricity-2023.csv
var electricityTable string

// countryPrice is the price per kWh where no state is known: the residential
// average of the United States in 2023, from memory.
const countryPrice = 0.16

// statePrices are dollars per kWh by the state's two letters.
var statePrices = func() map[string]float64 {
	var rows []struct {
		State string  `csv:"state"`
		Cents float64 `csv:"residential_cents_per_kwh"`
	}
	table := electricityTable
	for strings.HasPrefix(table, "#") {
		_, table, _ = strings.Cut(table, "\n")
	}
	if err := gocsv.UnmarshalString(table, &rows); err != nil {
		panic(fmt.Sprintf("job: electricity-2023.csv: %v", err))
	}
	prices := make(map[string]float64, len(rows))
	for _, r := range rows {
		prices[r.State] = r.Cents / 100
	}
	return prices
}()

// statePrice is the price per kWh in a US state, that of the country where the
// state is empty or unknown.
func statePrice(state string) float64 {
	if p, ok := statePrices[state]; ok {
		return p
	}
	return countryPrice
}
