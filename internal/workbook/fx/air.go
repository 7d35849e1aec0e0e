package fx

// Kelvin is 0 °C in kelvin.
const Kelvin = 273.15

// The saturation pressure in Pa over ice and over water at X kelvin; eq. 2,
// the polynomials in nested form.
const (
	psatIce   = "EXP(-5674.5359/{X}+6.3925247+{X}*(-0.009677843+{X}*(6.2215701E-7+{X}*(2.0747825E-9-9.484024E-13*{X})))+4.1635019*LN({X}))"
	psatWater = "EXP(-5800.2206/{X}+1.3914993+{X}*(-0.048640239+{X}*(4.1764768E-5-1.4452093E-8*{X}))+6.5459673*LN({X}))"
)

// SaturationPressure is the saturation pressure in Pa at x kelvin.
func SaturationPressure(x string) string {
	return Fill("IF({X}<=273.16,"+psatIce+","+psatWater+")", "{X}", x)
}

// SaturationPressureOverWater is psatFormula where x is known to be above freezing.
func SaturationPressureOverWater(x string) string { return Fill(psatWater, "{X}", x) }

// Moles is the ratio of vapour to dry air, in moles, of saturated air
// at pressure p and saturation pressure ps: psat/(P - psat).
func Moles(p, ps string) string { return "1/(" + p + "/" + ps + "-1)" }

// MolesOf is the value of [Moles].
func MolesOf(p, ps float64) float64 { return 1 / (p/ps - 1) }

// RelHum is the relative humidity of humidity ratio w at pressure p and
// saturation pressure ps; eq. 3 solved for e.
func RelHum(w, p, ps string) string {
	return Fill("{P}*{W}/(0.621945+{W})/{S}", "{W}", w, "{P}", p, "{S}", ps)
}

// HumidityRatio is eq. 3.
func HumidityRatio(e, p string) string {
	return Fill("0.621945*{E}/({P}-{E})", "{E}", e, "{P}", p)
}

// Volume is the specific volume in m³ per kg of dry air; ASHRAE eq. 26.
func Volume(t, w, p string) string {
	return Fill("287.042*({T}+273.15)*(1+1.607858*{W})/{P}", "{T}", t, "{W}", w, "{P}", p)
}

// HumidityRatioAtWetBulb is eq. 33 or 35: the humidity ratio of air at t °C
// whose wet bulb is tw °C, with r the moles of air saturated there. The 1E-9 is
// psychro.FreezingMargin: a wet bulb solved to 0 °C is 0 °C whichever way its
// last digits fell.
func HumidityRatioAtWetBulb(t, tw, r string) string {
	const over = "IF({Y}<-1E-9," +
		"((2830-0.24*{Y})*0.621945*{R}-1.006*({T}-{Y}))/(2830+1.86*{T}-2.1*{Y})," +
		"((2501-2.326*{Y})*0.621945*{R}-1.006*({T}-{Y}))/(2501+1.86*{T}-4.186*{Y}))"
	return Fill(over, "{T}", t, "{Y}", tw, "{R}", r)
}

// StandardPressure is eq. 1: the standard pressure in Pa at z metres.
func StandardPressure(z string) string {
	return "101325*(1-2.25577E-5*" + z + ")^5.2559"
}

// Capped counts the hours of climate.Climate.Capped. The products keep
// rounding of equal numbers out, as the engine does.
const Capped = "SUMPRODUCT(([Working.w:]*(1+1E-9)<[Working.st_w:])*1)"

// LatentHeat is the latent heat in formulas, J/kg; cooler.EvaporationHeat.
const LatentHeat = "2450000"
