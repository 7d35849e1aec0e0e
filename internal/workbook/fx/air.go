package fx

import (
	"github.com/evapbook/evapbook/internal/climate"
	"github.com/evapbook/evapbook/internal/psychro"
)

// triplePoint is psychro.TriplePoint in kelvin.
var triplePoint = Num(psychro.ZeroCelsius + psychro.TriplePoint)

// psat is the saturation pressure in Pa on one curve at X kelvin; eq. 2, the
// polynomial in nested form.
func psat(c psychro.VapourCurve) string {
	square := Num(c.Square) + signed(c.Cube) + "*{X}"
	if c.Fourth != 0 {
		square = Num(c.Square) + "+{X}*(" + Num(c.Cube) + signed(c.Fourth) + "*{X})"
	}
	return "EXP(" + Num(c.Inverse) + "/{X}" + signed(c.Constant) + "+{X}*(" + Num(c.Linear) + "+{X}*(" + square + "))" + signed(c.Log) + "*LN({X}))"
}

var psatIce, psatWater = psat(psychro.OverIce), psat(psychro.OverWater)

// SaturationPressure is the saturation pressure in Pa at x kelvin.
func SaturationPressure(x string) string {
	return Fill("IF({X}<="+triplePoint+","+psatIce+","+psatWater+")", "{X}", x)
}

// SaturationPressureOverWater is [SaturationPressure] where x is known to be
// above freezing.
func SaturationPressureOverWater(x string) string { return Fill(psatWater, "{X}", x) }

// Moles is the ratio of vapour to dry air, in moles, of saturated air
// at pressure p and saturation pressure ps: psat/(P - psat).
func Moles(p, ps string) string { return "1/(" + p + "/" + ps + "-1)" }

// MolesOf is the value of [Moles].
func MolesOf(p, ps float64) float64 { return 1 / (p/ps - 1) }

// VapourPressure is eq. 3 solved for e: the vapour pressure in Pa of humidity
// ratio w at pressure p.
func VapourPressure(w, p string) string { return p + "*" + w + "/(" + massRatio + "+" + w + ")" }

// RelHum is the relative humidity of humidity ratio w at pressure p and
// saturation pressure ps; eq. 3 solved for e.
func RelHum(w, p, ps string) string {
	return Fill(VapourPressure("{W}", "{P}")+"/{S}", "{W}", w, "{P}", p, "{S}", ps)
}

// HumidityRatio is eq. 3.
func HumidityRatio(e, p string) string {
	return Fill(massRatio+"*{E}/({P}-{E})", "{E}", e, "{P}", p)
}

// Volume is the specific volume in m³ per kg of dry air; ASHRAE eq. 26.
func Volume(t, w, p string) string {
	return Fill(GasConstant+"*({T}+"+Zero+")*(1+"+Num(psychro.VolumeOfVapour)+"*{W})/{P}", "{T}", t, "{W}", w, "{P}", p)
}

// HumidityRatioAtWetBulb is eq. 33 or 35: the humidity ratio of air at t °C
// whose wet bulb is tw °C, with r the moles of air saturated there. A wet bulb
// solved to 0 °C is 0 °C whichever way its last digits fell.
func HumidityRatioAtWetBulb(t, tw, r string) string {
	on := func(k psychro.Wick) string {
		return Fill("(({L}-{A}*{Y})*{m}*{R}-{cp}*({T}-{Y}))/({L}+{cv}*{T}-{B}*{Y})", "{L}", perGram(k.Latent), "{A}", perGram(k.Left), "{B}", perGram(k.Right),
			"{m}", massRatio, "{cp}", perGram(psychro.HeatDryAir), "{cv}", perGram(psychro.HeatVapour))
	}
	over := "IF({Y}<-" + Num(psychro.FreezingMargin) + "," + on(psychro.IceWick) + "," + on(psychro.WaterWick) + ")"
	return Fill(over, "{T}", t, "{Y}", tw, "{R}", r)
}

// perGram writes a heat per kilogram per gram, as the wet-bulb equations are
// usually written.
func perGram(heat float64) string { return Num(heat / 1000) }

// StandardPressure is eq. 1: the standard pressure in Pa at z metres.
func StandardPressure(z string) string {
	return Num(psychro.SeaLevelPressure) + "*(1-" + Num(psychro.PressureSlope) + "*" + z + ")^" + Num(psychro.PressureExponent)
}

// Capped counts the hours of climate.Climate.Capped. The products keep
// rounding of equal numbers out, as the engine does.
var Capped = "SUMPRODUCT(([Working.w:]*(1+" + Num(climate.CappedMargin) + ")<[Working.st_w:])*1)"
