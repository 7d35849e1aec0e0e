package weather

import "math"

// disagreement is how far relative humidity from the dew point may be from the
// relative humidity column before an hour counts.
const disagreement = 0.05

// HumidityDisagreement counts the hours in which relative humidity and dew
// point, where a file has both, differ by more than 5 points of relative
// humidity. It happens where typical-year files blend the temperatures of two
// months over their joint but not the humidity. The saturation pressure, in any
// unit, at a temperature in °C comes from the caller, for readers do no
// physics. ok is false where the file does not have both columns.
func (s *Series) HumidityDisagreement(saturation func(celsius float64) float64) (hours int, ok bool) {
	dewUsed := s.Humidity == DewPoint && s.SpareKind == RelHum
	if s.Spare == nil || !dewUsed && (s.Humidity != RelHum || s.SpareKind != DewPoint) {
		return 0, false
	}
	for i, h := range s.Hours {
		rh, dew := h.Humidity, s.Spare[i]
		if dewUsed {
			rh, dew = dew, rh
		}
		if math.Abs(rh-saturation(dew)/saturation(h.DryBulb)) > disagreement {
			hours++
		}
	}
	return hours, true
}
