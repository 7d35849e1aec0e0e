package fx

import "github.com/evapbook/evapbook/internal/cooler"

// AfterIndirect is eq. 10: what leaves the indirect stage.
const AfterIndirect = "[t]-B_indirect_stage*Si_cooler_indirect_effectiveness*([t]-[wb])"

// AfterPads is eq. 9: what leaves the pads.
const AfterPads = "[t1]-B_direct_stage*B_pad_effectiveness*([t1]-[tb])"

// MassFlow is eq. 12: the dry air in kg/s that the fan moves at full speed, of
// air at t, w and p.
func MassFlow(t, w, p string) string { return "Si_cooler_airflow/(" + Volume(t, w, p) + ")" }

// SpecificHeat is eq. 12: J/K per kg of dry air.
func SpecificHeat(w string) string { return heatDryAir + "+" + heatVapour + "*" + w }

// FanPower is eq. 13: in W at full speed, moving m kg/s of air at w.
func FanPower(w, m string) string {
	return Fill("Si_cooler_fan_power*(1+{W})*{M}/Si_cooler_airflow/{D}", "{D}", Num(cooler.RatedDensity), "{W}", w, "{M}", m)
}

// AfterFan is eq. 13: air at t warmed by the fan and on its way to the room.
func AfterFan(t, fan, m, cp string) string {
	return Fill("{T}+{F}/({M}*{C})+Si_cooler_duct_gain", "{T}", t, "{F}", fan, "{M}", m, "{C}", cp)
}

// Evaporating is eq. 21: water per kg of air, on the pads and on the wet side
// of an indirect stage.
var Evaporating = "MAX(0,[w2]-[w])+(" + SpecificHeat("[w]") + ")*([t]-[t1])/" + LatentHeat
