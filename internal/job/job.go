// Package job holds everything a person states about one site, house and
// cooler: the inputs of a run. Each input is declared once, in the table in
// inputs.go, and that declaration drives the job file, the --set flag, the
// Inputs sheet and the reference page.
package job

// Job is the full set of inputs in SI. The zero value is not useful: start
// from New, which fills in the declared defaults.
type Job struct {
	Site   Site
	Cooler Cooler
	House  House
	AC     AC
	Price  Price
	Plant  Plant

	Proposal Proposal

	region  string          // of the weather station, as Resolve was told: the rules ask for it
	stated  map[string]bool // keys set by the user, as against defaults
	options []Option        // alternatives to be set side by side
	shown   int             // the option a book shows, counted from 1; 0: the job itself
	base    *Job            // of a job with an option's inputs stated, the job without them
}

// Site is where the house stands.
type Site struct {
	Name      string
	Place     string  // town and state, number of a station, or coordinates; may be empty
	Altitude  float64 // m
	LapseRate float64 // K/km, fall of dry bulb with height between station and site
	Warmer    float64 // K added to the dry bulb of every hour at the same relative humidity
	Clearness float64 // share of clear-sky irradiance, used where the file has none
}

// CoolerKind tells how the cooler uses its water.
type CoolerKind string

// The three kinds of cooler.
const (
	Direct   CoolerKind = "direct"
	Indirect CoolerKind = "indirect"
	TwoStage CoolerKind = "two-stage"
)

// WaterCare is the way a cooler keeps its sump water from concentrating.
type WaterCare string

// The three ways.
const (
	Bleed  WaterCare = "bleed"
	Purge  WaterCare = "purge"
	NoCare WaterCare = "none"
)

// Drive is how the fan's speed is set.
type Drive string

// The three drives.
const (
	OneSpeed Drive = "one-speed"
	TwoSpeed Drive = "two-speed"
	Variable Drive = "variable"
)

// Cooler is the evaporative cooler.
type Cooler struct {
	Kind                  CoolerKind
	Airflow               float64 // m³/s delivered at full speed
	Effectiveness         float64 // rated saturation effectiveness of the direct stage, 0..1
	IndirectEffectiveness float64 // wet-bulb effectiveness of the indirect stage, 0..1
	PadCondition          float64 // share of the rated effectiveness the pads still reach
	FanPower              float64 // W at full speed in air of 1.2 kg/m³
	PumpPower             float64 // W
	Drive                 Drive
	LowestSpeed           float64 // lowest fan speed as a share of full speed
	LowSpeedPower         float64 // fan power at the lowest of fixed speeds as a share of full power; of a variable drive what it loses whatever its speed
	DuctGain              float64 // K the air gains between the cooler and the room
	WaterCare             WaterCare
	Cycles                float64 // cycles of concentration when bleeding, > 1
	Sump                  float64 // L emptied by one purge
	PurgeInterval         float64 // h of pump running between purges
}

// House is the building to be cooled.
type House struct {
	FloorArea     float64 // m²
	Ceiling       float64 // m
	People        float64
	HeatLoss      float64 // W/K per m² of floor
	SolarShare    float64 // m² of solar aperture per m² of floor
	ThermalMass   float64 // kJ/K per m² of floor; 0: none
	DesignLoad    float64 // W sensible at the 1 % dry bulb; 0: not stated
	Setpoint      float64 // °C
	HumidityLimit float64 // relative humidity, 0..1
	MovingAir     float64 // K above the setpoint that people who feel the air move still find comfortable
	Infiltration  float64 // air changes per hour of the closed house
}

// AC is the refrigerated air conditioner the cooler is compared with.
type AC struct {
	Capacity      float64 // W, rated total cooling
	EER2          float64 // Btu/h per W
	SEER2         float64
	Cycling       float64 // cycling degradation coefficient Cd
	FieldShare    float64 // share of its rated efficiency an installed unit reaches
	IndoorWetBulb float64 // °C entering the coil
	WindowsOpen   bool    // windows carry the hours that outdoor air alone can hold
}

// Price holds money inputs, in whatever currency the user thinks in.
type Price struct {
	Currency    string  // sign or code put before amounts; may be empty
	Electricity float64 // per kWh, outside the season

	SeasonElectricity float64 // per kWh, in the months of the season
	PeakElectricity   float64 // per kWh, in the season's peak hours
	SeasonFirst       float64 // month, 1 to 12
	SeasonLast        float64 // month, 1 to 12
	PeakFrom          float64 // hour on the civil clock, 0 to 23
	PeakTo            float64 // hour on the civil clock, 1 to 24
	PeakDays          PeakDays
	SummerTime        SummerTime

	Water                                                 float64 // per m³
	Sewer                                                 float64 // per m³ of cooler water billed as sewage
	CoolerInstalled                                       float64 // of the cooler's kind
	DirectInstalled, IndirectInstalled, TwoStageInstalled float64
	ACInstalled                                           float64
	CoolerCare                                            float64 // per year
	ACCare                                                float64 // per year
	CoolerLife                                            float64 // years
	ACLife                                                float64 // years
	Discount                                              float64 // real rate a year, 0..1
	Escalation                                            float64 // real growth of energy and water prices a year
}

// Plant holds what a delivered kWh costs elsewhere.
type Plant struct {
	Water float64 // L evaporated at the power plant per kWh
	CO2   float64 // kg per kWh
}

// Proposal is what the cover of a printed proposal says. All of it may be empty.
type Proposal struct {
	PreparedFor string
	PreparedBy  string
	Date        string // as it is to be printed
	Logo        string // path of a PNG or JPEG file
	Note        string
}
