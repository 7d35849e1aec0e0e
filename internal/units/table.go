package units

import "strings"

// entry is all the package knows of a kind.
type entry struct {
	name      string
	si, ip    Unit // ip empty: as in SI
	optional  bool // the unit may be left out, there being only one
	spellings []spelling
}

// spelling is a unit a person may write: si = value*scale + offset.
type spelling struct {
	symbol        string // as messages and job files spell it
	also          string // other spellings, separated by spaces
	scale, offset float64
}

// self is a unit shown as stored; per one of which n in SI make one.
func self(symbol, format string) Unit { return Unit{Symbol: symbol, Scale: 1, Format: format} }

func per(symbol string, n float64, format string) Unit {
	return Unit{Symbol: symbol, Scale: 1 / n, Format: format, per: n}
}

// Number formats that recur.
const (
	whole, tenths, hundredths, thousandths = "#,##0", "#,##0.0", "#,##0.00", "#,##0.000"
)

// Spellings that recur.
var (
	length   = []spelling{{"m", "metre metres meter meters", 1, 0}, {"ft", "' feet foot", foot, 0}}
	altitude = append(length[:2:2], spelling{"km", "", 1000, 0})
	volume   = []spelling{{"L", "litre litres liter liters", 1, 0}, {"gal", "usgal gallon gallons", gallon, 0}, {"m³", "", 1000, 0}}
	heat     = []spelling{{"W", "", 1, 0}, {"kW", "", 1000, 0}, {"ton", "tons tr", ton, 0},
		{"Btu/h", "btu/hr btuh", btuPerHour, 0}, {"kBtu/h", "kbtu/hr kbtuh mbh", 1000 * btuPerHour, 0}}
	electric = []spelling{{"W", "watt watts", 1, 0}, {"kW", "", 1000, 0}}

	perKWh    = withCents([]spelling{{"/kWh", "", 1, 0}, {"/MWh", "", 0.001, 0}})
	perVolume = withCents([]spelling{
		{"/m³", "/cum /kl /1000l /1,000l", 1, 0}, {"/kgal", "/1000gal /1,000gal /1000gallons /1,000gallons /thousandgal /thousandgallons", 1 / kilogallon, 0},
		{"/gal", "/gallon /usgal", 1 / (kilogallon / 1000), 0}, {"/ccf", "/hcf /100ft3 /100cf", 1 / (100 * cubicFoot), 0}, {"/L", "/litre /liter", 1000, 0},
	})
)

// withCents adds every unit price in hundredths of the currency: "12 c/kWh".
func withCents(prices []spelling) []spelling {
	for _, s := range prices[:len(prices):len(prices)] {
		var also []string
		for _, cent := range [...]string{"¢", "ct", "cent", "cents", "p"} {
			for _, unit := range append(strings.Fields(s.also), normal(s.symbol)) {
				also = append(also, cent+unit)
			}
		}
		for _, unit := range strings.Fields(s.also) {
			also = append(also, "c"+unit)
		}
		prices = append(prices, spelling{"c" + s.symbol, strings.Join(also, " "), s.scale / 100, 0})
	}
	return prices
}

// table holds one entry for every kind. The unit named first in spellings is
// the one of SI, the second that of IP where it has its own.
var table = [kindCount]entry{
	Plain:    {name: "number", si: self("", "#,##0.0###")},
	Count:    {name: "count", si: self("", whole)},
	Share:    {name: "share", si: self("", "0.0%")},
	Text:     {name: "text", si: self("", "@")},
	Choice:   {name: "choice", si: self("", "@")},
	Date:     {name: "date", si: self("", "yyyy-mm-dd")},
	DateTime: {name: "time", si: self("", "yyyy-mm-dd hh:mm")},

	Temperature: {name: "temperature", si: self("°C", "0.0"), ip: Unit{Symbol: "°F", Scale: 1.8, Offset: 32, Format: "0.0"},
		spellings: []spelling{{"°C", "celsius", 1, 0}, {"°F", "fahrenheit", rankine, -32 * rankine}}},
	TemperatureDifference: {name: "temperature difference", si: self("K", "0.0"), ip: Unit{Symbol: "°F", Scale: 1.8, Format: "0.0"},
		spellings: []spelling{{"K", "c", 1, 0}, {"°F", "", rankine, 0}}},
	Kelvin:   {name: "absolute temperature", si: self("K", "0.00"), spellings: []spelling{{"K", "", 1, 0}}},
	Altitude: {name: "altitude", si: self("m", whole), ip: per("ft", foot, whole), spellings: altitude},
	Length:   {name: "length", si: self("m", "0.00"), ip: per("ft", foot, "0.0"), spellings: length},
	Area: {name: "area", si: self("m²", tenths), ip: per("ft²", squareFoot, whole),
		spellings: []spelling{{"m²", "sqm", 1, 0}, {"ft²", "sqft sf squarefeet", squareFoot, 0}}},
	Volume:      {name: "volume", si: self("L", whole), ip: per("gal", gallon, whole), spellings: volume},
	SmallVolume: {name: "volume", si: self("L", tenths), ip: per("gal", gallon, tenths), spellings: volume},
	Duration: {name: "duration", si: self("h", tenths),
		spellings: []spelling{{"h", "hr hrs hour hours", 1, 0}, {"min", "minute minutes", 1.0 / 60, 0}, {"d", "day days", 24, 0}}},
	Years: {name: "number of years", si: self("years", "0"), optional: true, spellings: []spelling{{"years", "year yr yrs a", 1, 0}}},
	Mass:  {name: "mass", si: self("kg", whole), ip: per("lb", pound, whole), spellings: []spelling{{"kg", "", 1, 0}, {"lb", "lbs", pound, 0}, {"t", "", 1000, 0}}},
	Energy: {name: "energy", si: self("kWh", whole),
		spellings: []spelling{{"kWh", "", 1, 0}, {"MWh", "", 1000, 0}, {"GJ", "", 1000 / 3.6, 0}}},

	Airflow: {name: "airflow", si: self("m³/s", thousandths), ip: per("cfm", cfm, whole),
		spellings: []spelling{{"m³/s", "", 1, 0}, {"cfm", "ft3/min", cfm, 0}, {"m³/h", "cmh", 1.0 / 3600, 0}, {"L/s", "", 0.001, 0}}},
	MassFlow:    {name: "mass flow", si: self("kg/s", thousandths), ip: per("lb/h", pound/3600, whole), spellings: []spelling{{"kg/s", "", 1, 0}, {"lb/h", "lb/hr", pound / 3600, 0}}},
	WaterFlow:   {name: "water flow", si: self("L/h", tenths), ip: per("gal/h", gallon, tenths), spellings: []spelling{{"L/h", "", 1, 0}, {"gal/h", "gph", gallon, 0}, {"L/min", "", 60, 0}, {"gal/min", "gpm", 60 * gallon, 0}}},
	Power:       {name: "power", si: self("W", whole), spellings: electric},
	PowerKW:     {name: "power", si: self("kW", hundredths), spellings: []spelling{{"kW", "", 1, 0}, {"W", "", 0.001, 0}}},
	HeatFlow:    {name: "heat flow", si: self("W", whole), ip: per("Btu/h", btuPerHour, whole), spellings: heat},
	Capacity:    {name: "cooling capacity", si: self("W", whole), ip: per("ton", ton, "0.0"), spellings: heat},
	Conductance: {name: "conductance", si: self("W/K", tenths), ip: per("Btu/h·°F", btuPerHour/rankine, tenths), spellings: []spelling{{"W/K", "", 1, 0}, {"Btu/h·°F", "btu/hf", btuPerHour / rankine, 0}}},
	HeatLoss: {name: "heat loss per floor area", si: self("W/m²K", hundredths), ip: per("Btu/h·ft²·°F", heatLossIP, thousandths),
		spellings: []spelling{{"W/m²K", "w/(m2k) w/m2/k w/k/m2 w/km2", 1, 0}, {"Btu/h·ft²·°F", "btu/(hft2f) btu/hrft2f btu/(hrft2f) btuh/ft2f btu/h/ft2/f", heatLossIP, 0}}},
	Irradiance: {name: "irradiance", si: self("W/m²", whole), ip: per("Btu/h·ft²", btuPerHour/squareFoot, whole), spellings: []spelling{{"W/m²", "", 1, 0}, {"Btu/h·ft²", "btu/hft2", btuPerHour / squareFoot, 0}}},
	Pressure: {name: "pressure", si: self("Pa", whole), ip: per("inHg", inHg, hundredths),
		spellings: []spelling{{"Pa", "", 1, 0}, {"inHg", "", inHg, 0}, {"kPa", "", 1000, 0}, {"hPa", "mbar", 100, 0}, {"psi", "psia", psi, 0}}},
	LapseRate: {name: "lapse rate", si: self("K/km", hundredths), ip: per("°F/1000ft", lapseIP, hundredths),
		spellings: []spelling{{"K/km", "c/km", 1, 0}, {"°F/1000ft", "f/kft f/1,000ft", lapseIP, 0}}},
	SpecificHeat: {name: "specific heat", si: self("J/kg·K", whole), ip: per("Btu/lb·°F", btu/(pound*rankine), "0.0000"), spellings: []spelling{{"J/kg·K", "", 1, 0}, {"Btu/lb·°F", "", btu / (pound * rankine), 0}}},

	SpecificVolume: {name: "specific volume", si: self("m³/kg", "0.0000"), ip: per("ft³/lb", cubicFoot/pound, "0.000"), spellings: []spelling{{"m³/kg", "", 1, 0}, {"ft³/lb", "", cubicFoot / pound, 0}}},
	Density:        {name: "density", si: self("kg/m³", "0.000"), ip: per("lb/ft³", pound/cubicFoot, "0.0000"), spellings: []spelling{{"kg/m³", "", 1, 0}, {"lb/ft³", "", pound / cubicFoot, 0}}},
	HumidityRatio:  {name: "humidity ratio", si: self("kg/kg", "0.00000"), ip: Unit{Symbol: "lb/lb", Scale: 1, Format: "0.00000"}, spellings: []spelling{{"kg/kg", "", 1, 0}, {"lb/lb", "", 1, 0}, {"g/kg", "", 0.001, 0}}},
	DegreeHours:    {name: "degree-hours", si: self("K·h", whole), ip: Unit{Symbol: "°F·h", Scale: 1.8, Format: whole}, spellings: []spelling{{"K·h", "", 1, 0}, {"°F·h", "", rankine, 0}}},
	DegreeDays:     {name: "degree-days", si: self("K·d", whole), ip: Unit{Symbol: "°F·d", Scale: 1.8, Format: whole}, spellings: []spelling{{"K·d", "", 1, 0}, {"°F·d", "", rankine, 0}}},

	Money:       {name: "sum of money", si: self("", whole)},
	PricePerKWh: {name: "price", si: self("/kWh", "0.000"), optional: true, spellings: perKWh},
	PricePerVolume: {name: "price", si: self("/m³", hundredths), ip: Unit{Symbol: "/kgal", Scale: kilogallon, Format: hundredths},
		spellings: perVolume},
	WaterPerEnergy: {name: "water per energy", si: self("L/kWh", hundredths), ip: per("gal/kWh", gallon, thousandths),
		spellings: []spelling{{"L/kWh", "", 1, 0}, {"gal/kWh", "", gallon, 0}, {"gal/MWh", "", gallon / 1000, 0}, {"L/MWh", "m3/gwh", 0.001, 0}}},
	MassPerEnergy: {name: "mass per energy", si: self("kg/kWh", "0.0000"), ip: per("lb/MWh", poundMWh, tenths),
		spellings: []spelling{{"kg/kWh", "", 1, 0}, {"lb/MWh", "", poundMWh, 0}, {"g/kWh", "kg/mwh", 0.001, 0}, {"lb/kWh", "", pound, 0}}},
}
