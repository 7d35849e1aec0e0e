package job

import (
	"math"

	"github.com/evapbook/evapbook/internal/units"
)

// Constant is a number that rules use, with the name it has in cells.
type Constant struct {
	Name   string // defined name, K_…
	Label  string
	Value  float64 // in Unit
	Unit   string
	Source string
}

// Figures of the rules, as the trade states them and in SI.
const (
	airflowPerArea   = 2.5 * units.CFM / units.SquareFoot // m³/s per m²; 2.5 cfm/ft²
	fanPowerFit      = 2.79                               // W/cfm at 1 cfm
	fanPowerExponent = -0.29                              // of the airflow in cfm
	fanPowerMost     = 0.6                                // W/cfm
	fanPowerIndirect = 0.27                               // W/cfm, at least, with an indirect stage
	lowestTwoSpeed   = 0.67                               // share of full speed
	lowestVariable   = 0.3                                // share of full speed
	lowPowerTwoSpeed = 0.45                               // share of full power
	lowPowerVariable = 0.08                               // share of full power
	eer2Square       = -0.02
	eer2Linear       = 1.12
)

// Constants lists the figures that the rules' cell formulas refer to.
var Constants = []Constant{
	{"K_airflow_per_area", "Airflow per floor area, 2.5 cfm/ft²", airflowPerArea, "m³/s per m²", "common practice, no source; US consumer guides say 2 to 3 cfm/ft², 3 to 4 in hot desert"},
	{"K_cfm", "One cubic foot per minute", units.CFM, "m³/s", "NIST SP 811 (2008), from memory"},
	{"K_fan_power_fit", "Fan power per airflow, factor of the fit", fanPowerFit, "W/cfm", "fit of an open residential energy model to a state's list of rated coolers"},
	{"K_fan_power_exponent", "Fan power per airflow, exponent of the fit", fanPowerExponent, "", "as above"},
	{"K_fan_power_most", "Fan power per airflow, at most", fanPowerMost, "W/cfm", "as above"},
	{"K_fan_power_indirect", "Fan power per airflow with an indirect stage, at least", fanPowerIndirect, "W/cfm", "common practice, no source"},
	{"K_lowest_two_speed", "Lowest of two speeds over full speed", lowestTwoSpeed, "", "common practice, no source"},
	{"K_lowest_variable", "Lowest speed of a variable drive over full speed", lowestVariable, "", "common practice, no source"},
	{"K_low_power_two_speed", "Power at the lower of two speeds over full power", lowPowerTwoSpeed, "", "between the cube of the speed, 0.30, and 0.56 that one owner metered"},
	{"K_low_power_variable", "Loss of a variable drive over full power", lowPowerVariable, "", "common practice, no source"},
	{"K_eer2_square", "EER2 from SEER2, square term", eer2Square, "", "from memory: EER = -0.02 SEER² + 1.12 SEER, taken to hold between EER2 and SEER2"},
	{"K_eer2_linear", "EER2 from SEER2, linear term", eer2Linear, "", "from memory, as above"},
}

// fanPower is the fan's power by rule, W in air of 1.2 kg/m³.
func fanPower(j *Job) float64 {
	cfm := j.Cooler.Airflow / units.CFM
	perCFM := min(fanPowerMost, fanPowerFit*math.Pow(cfm, fanPowerExponent))
	if j.Cooler.Kind != Direct {
		perCFM = max(perCFM, fanPowerIndirect)
	}
	return cfm * perCFM
}

// byDrive chooses by the drive of the fan.
func byDrive(j *Job, one, two, variable float64) float64 {
	switch j.Cooler.Drive {
	case OneSpeed:
		return one
	case Variable:
		return variable
	default:
		return two
	}
}
