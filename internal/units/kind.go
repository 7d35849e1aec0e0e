package units

// Kind is a quantity that is read, written or shown.
type Kind int

// The kinds. The unit in brackets is that of the value inside the program and
// of Unit(SI).
const (
	Plain    Kind = iota // a number without a unit
	Count                // a whole number
	Share                // 0..1, shown in percent
	Text                 // words
	Choice               // one word of a list
	Date                 // calendar day, shown by a spreadsheet
	DateTime             // calendar day and time

	Temperature           // [°C]
	TemperatureDifference // [K]
	Kelvin                // absolute temperature [K], in both systems
	Altitude              // [m]
	Length                // [m]
	Area                  // [m²]
	Volume                // [L]
	SmallVolume           // [L] with a decimal place, as of a sump
	Duration              // [h]
	Years                 // [years]
	Mass                  // [kg]
	Energy                // [kWh]

	Airflow      // [m³/s]
	MassFlow     // [kg/s]
	WaterFlow    // [L/h]
	Power        // electric [W]
	PowerKW      // electric [kW]
	HeatFlow     // thermal [W]
	Capacity     // of refrigeration [W]
	Conductance  // [W/K]
	HeatLoss     // [W/(m² K)]
	Irradiance   // [W/m²]
	Pressure     // [Pa]
	LapseRate    // [K/km]
	SpecificHeat // [J/(kg K)]

	SpecificVolume // [m³/kg]
	Density        // [kg/m³]
	HumidityRatio  // [kg/kg]
	DegreeHours    // [K h]
	DegreeDays     // [K d]

	Money          // any currency
	PricePerKWh    // [per kWh]
	PricePerVolume // [per m³]
	WaterPerEnergy // [L/kWh]
	MassPerEnergy  // [kg/kWh]

	kindCount // their number
)

// String names the quantity as messages do, such as "temperature".
func (k Kind) String() string { return k.entry().name }

// Numeric tells whether values of the kind are numbers a person can state.
func (k Kind) Numeric() bool {
	switch k {
	case Text, Choice, Date, DateTime:
		return false
	}
	return true
}

// NeedsUnit tells whether a person must write a unit: not for plain numbers,
// and not where one unit serves everywhere, such as years.
func (k Kind) NeedsUnit() bool {
	e := k.entry()
	return len(e.spellings) > 0 && !e.optional
}

// Unit is the unit of the kind in a system. That of SI is the one of values
// inside the program: Scale 1, Offset 0.
func (k Kind) Unit(sys System) Unit {
	e := k.entry()
	if sys == IP && e.ip != (Unit{}) {
		return e.ip
	}
	return e.si
}

// Priced is Unit with the sign of a currency before sums of money and in unit
// prices; other kinds are as they are.
func (k Kind) Priced(sys System, sign string) Unit {
	u := k.Unit(sys)
	switch {
	case sign == "" || !k.priced():
	case k == Money:
		u.Format = `"` + sign + `"` + u.Format
	default:
		u.Symbol = sign + u.Symbol
	}
	return u
}

func (k Kind) entry() *entry {
	if k < 0 || k >= kindCount {
		panic("units: no such kind")
	}
	return &table[k]
}

// Unit says how a value in SI is shown: display = si*Scale + Offset.
type Unit struct {
	Symbol        string // "°F", or empty
	Scale, Offset float64
	Format        string // spreadsheet number format

	per float64 // SI in one of the unit, where that is the exact figure; else 0
}

// FromSI converts a value inside the program to the unit.
func (u Unit) FromSI(v float64) float64 {
	if u.per != 0 {
		return v / u.per
	}
	return v*u.Scale + u.Offset
}

// ToSI converts a value in the unit to that inside the program.
func (u Unit) ToSI(v float64) float64 {
	if u.per != 0 {
		return v * u.per
	}
	return (v - u.Offset) / u.Scale
}

// FromSICell is the formula text that shows the SI value of a cell in the
// unit, such as "Si_site_altitude/0.3048". The cell must be a single term.
func (u Unit) FromSICell(cell string) string {
	if u.per != 0 {
		return cell + "/" + number(u.per)
	}
	return affine(cell, "*", u.Scale, u.Offset)
}

// ToSICell is the formula text that converts a cell in the unit to SI, such as
// "In_site_altitude*0.3048". The cell must be a single term.
func (u Unit) ToSICell(cell string) string {
	if u.per != 0 {
		return cell + "*" + number(u.per)
	}
	if u.Offset == 0 {
		return affine(cell, "/", u.Scale, 0)
	}
	return affine("("+affine(cell, "*", 1, -u.Offset)+")", "/", u.Scale, 0)
}

func affine(cell, op string, scale, offset float64) string {
	if scale != 1 {
		cell += op + number(scale)
	}
	switch {
	case offset > 0:
		cell += "+" + number(offset)
	case offset < 0:
		cell += number(offset)
	}
	return cell
}
