package job

import "github.com/evapbook/evapbook/internal/units"

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
	fanPower         = 0.15 / units.CFM                   // W per m³/s; 0.15 W/cfm
	fanPowerTwoStage = 0.27 / units.CFM                   // W per m³/s; 0.27 W/cfm
	eer2Square       = -0.02
	eer2Linear       = 1.12
)

// Constants lists the figures that the rules' cell formulas refer to.
var Constants = []Constant{
	{"K_airflow_per_area", "Airflow per floor area, 2.5 cfm/ft²", airflowPerArea, "m³/s per m²", "common practice, no source; US consumer guides say 2 to 3 cfm/ft², 3 to 4 in hot desert"},
	{"K_fan_power", "Fan power per airflow, 0.15 W/cfm", fanPower, "W per m³/s", "common practice, no source"},
	{"K_fan_power_two_stage", "Fan power per airflow of a two-stage cooler, 0.27 W/cfm", fanPowerTwoStage, "W per m³/s", "common practice, no source"},
	{"K_eer2_square", "EER2 from SEER2, square term", eer2Square, "", "from memory: EER = -0.02 SEER² + 1.12 SEER, taken to hold between EER2 and SEER2"},
	{"K_eer2_linear", "EER2 from SEER2, linear term", eer2Linear, "", "from memory, as above"},
}
