package psychro_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/psychro"
)

func TestErrors(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	drop := func(_ psychro.Air, err error) error { return err }
	first := func(_ float64, err error) error { return err }
	for _, tc := range []struct {
		name string
		err  error
		want string
	}{
		{"pressure zero", drop(psychro.FromRelHum(20, 0.5, 0)), "pressure 0 Pa is outside 10000 to 1e+06 Pa"},
		{"pressure negative", drop(psychro.FromDewPoint(20, 5, -101325)), "pressure -101325 Pa is outside 10000 to 1e+06 Pa"},
		{"pressure in hPa", drop(psychro.FromWetBulb(20, 15, 1013.25)), "pressure 1013.25 Pa is outside 10000 to 1e+06 Pa"},
		{"pressure NaN", drop(psychro.FromHumidityRatio(20, 0.005, nan)), "pressure NaN Pa is outside 10000 to 1e+06 Pa"},
		{"dry bulb NaN", drop(psychro.FromRelHum(nan, 0.5, 101325)), "dry bulb NaN °C is outside -100 to 200 °C"},
		{"dry bulb infinite", drop(psychro.FromRelHum(inf, 0.5, 101325)), "dry bulb +Inf °C is outside -100 to 200 °C"},
		{"humidity in percent", drop(psychro.FromRelHum(20, 50, 101325)), "relative humidity 50 is outside 0 to 1.01"},
		{"humidity negative", drop(psychro.FromRelHum(20, -0.01, 101325)), "relative humidity -0.01 is outside 0 to 1.01"},
		{"humidity NaN", drop(psychro.FromRelHum(20, nan, 101325)), "relative humidity NaN is outside 0 to 1.01"},
		{"dew point infinite", drop(psychro.FromDewPoint(20, -inf, 101325)), "dew point -Inf °C is outside -100 to 200 °C"},
		{"wet bulb NaN", drop(psychro.FromWetBulb(20, nan, 101325)), "wet bulb NaN °C is outside -100 to 200 °C"},
		{"wet bulb too low", drop(psychro.FromWetBulb(20, -273.15, 101325)), "wet bulb: temperature -273.15 °C is outside -100 to 200 °C"},
		{"humidity ratio negative", drop(psychro.FromHumidityRatio(20, -1e-6, 101325)), "humidity ratio -1e-06 kg/kg is outside 0 to 10 kg/kg"},
		{"humidity ratio NaN", first(psychro.Air{T: 20, W: nan, P: 101325}.WetBulb()), "humidity ratio NaN kg/kg is outside 0 to 10 kg/kg"},
		{"zero state", first(psychro.Air{}.DewPoint()), "pressure 0 Pa is outside 10000 to 1e+06 Pa"},
		{"altitude", first(psychro.StandardPressure(12000)), "altitude 12000 m is outside -5000 to 11000 m"},
		{"altitude NaN", first(psychro.StandardPressure(nan)), "altitude NaN m is outside -5000 to 11000 m"},
		{"saturation of NaN", first(psychro.SaturationHumidityRatio(nan, 101325)), "temperature NaN °C is outside -100 to 200 °C"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var limits *psychro.RangeError
			require.ErrorAs(t, tc.err, &limits)
			require.EqualError(t, tc.err, tc.want)
		})
	}
}

func TestConditions(t *testing.T) {
	drop := func(_ psychro.Air, err error) error { return err }
	first := func(_ float64, err error) error { return err }
	fog := psychro.Air{T: 20, W: 0.02, P: 101325}
	_, _, rootsErr := fog.WetBulbRoots()
	for _, tc := range []struct {
		name string
		err  error
		want error
	}{
		{"saturated at boiling", drop(psychro.FromRelHum(101, 1, 101325)), psychro.ErrBoiling},
		{"dew point at boiling", drop(psychro.FromDewPoint(150, 120, 101325)), psychro.ErrBoiling},
		{"wet bulb at boiling", drop(psychro.FromWetBulb(150, 100, 101325)), psychro.ErrBoiling},
		{"saturation at boiling", first(psychro.SaturationHumidityRatio(100, 101325)), psychro.ErrBoiling},
		{"fog as humidity ratio", drop(psychro.FromHumidityRatio(20, 0.02, 101325)), psychro.ErrSupersaturated},
		{"fog as dew point", drop(psychro.FromDewPoint(20, 20.5, 101325)), psychro.ErrSupersaturated},
		{"fog as wet bulb", drop(psychro.FromWetBulb(20, 20.5, 101325)), psychro.ErrSupersaturated},
		{"wet bulb of fog", first(fog.WetBulb()), psychro.ErrSupersaturated},
		{"roots of fog", rootsErr, psychro.ErrSupersaturated},
		{"dew point of fog", first(fog.DewPoint()), psychro.ErrSupersaturated},
		{"dew point of dry air", first(psychro.Air{T: 20, W: 0, P: 101325}.DewPoint()), psychro.ErrNoDewPoint},
		{"impossible depression", drop(psychro.FromWetBulb(40, 5, 101325)), psychro.ErrTooDry},
	} {
		t.Run(tc.name, func(t *testing.T) { require.ErrorIs(t, tc.err, tc.want) })
	}
}

// A wet bulb or dew point a rounded tenth above the dry bulb is saturated air.
func TestRoundedAboveDryBulb(t *testing.T) {
	for _, tdb := range []float64{-20, -5, 0, 15, 30} {
		ws, err := psychro.SaturationHumidityRatio(tdb, 95e3)
		require.NoError(t, err)
		a, err := psychro.FromDewPoint(tdb, tdb+0.1, 95e3)
		require.NoError(t, err)
		require.InEpsilon(t, ws, a.W, 1e-14)
		a, err = psychro.FromWetBulb(tdb, tdb+0.1, 95e3)
		require.NoError(t, err)
		require.InEpsilon(t, ws, a.W, 1e-14)
	}
}
