package main

import "math"

// day is the weather of one day, valid at noon.
type day struct {
	mean     float64 // °C
	swing    float64 // K between the lowest and the highest hour
	dew      float64 // °C
	cloud    float64 // share of the sky
	pressure float64 // hPa
}

// event is a spell that is put in by hand, strongest at its middle day.
type event struct {
	middle, width float64 // day of the year, days to either side
	warmer        float64 // K on the daily mean
	dewTo         float64 // °C the dew point is drawn to, 0: not at all
	cloudier      float64
}

// events of the invented year.
var events = []event{
	{middle: 163, width: 4, warmer: -0.5, dewTo: 13, cloudier: 0.3},   // humid, mid-June
	{middle: 193, width: 5, warmer: 0.3, dewTo: 16.4, cloudier: 0.35}, // humid, mid-July
	{middle: 206, width: 4, warmer: 3.8},                              // heat wave, late July
	{middle: 224, width: 5, warmer: 3.3, dewTo: 17, cloudier: 0.4},    // humid, mid-August
	{middle: 17, width: 5, warmer: -5},                                // cold spell, mid-January
}

// makeDays makes up the year with a day on either side.
func makeDays() []day {
	temperature, damp, cloud, pressure := newNoise(1), newNoise(2), newNoise(3), newNoise(4)
	out := make([]day, days+2)
	for i := range out {
		n := float64(i) // day of the year; 0 is the day before
		summer := math.Cos((n - 201) / days * 2 * math.Pi)
		d := day{
			mean:     10.8 + 13.6*summer + (2.6-0.9*summer)*temperature.persistent(0.72),
			swing:    14.2 + 4.4*summer,
			dew:      -2.2 + 6.4*summer + 2.6*damp.persistent(0.65),
			cloud:    0.42 - 0.17*summer + 0.24*cloud.persistent(0.5),
			pressure: 847.7 + 3.4*pressure.persistent(0.7),
		}
		for _, e := range events {
			e.change(&d, n)
		}
		d.cloud = clamp(d.cloud, 0, 1)
		d.swing *= 1.12 - 0.45*d.cloud
		out[i] = d
	}
	return out
}

// change lays the event over a day.
func (e event) change(d *day, n float64) {
	x := (n - e.middle) / e.width
	strength := math.Exp(-x * x * x * x)
	d.mean += e.warmer * strength
	d.cloud += e.cloudier * strength
	if e.dewTo != 0 {
		d.dew += (e.dewTo - d.dew) * strength
	}
}

// between is the weather at a moment, in days since the year began, on straight
// lines from noon to noon.
func between(all []day, moment float64) day {
	at := moment + 0.5 // all[0] is noon of the day before
	i := int(at)
	f := at - float64(i)
	a, b := all[i], all[i+1]
	mix := func(x, y float64) float64 { return x + (y-x)*f }
	return day{mix(a.mean, b.mean), mix(a.swing, b.swing), mix(a.dew, b.dew), mix(a.cloud, b.cloud), mix(a.pressure, b.pressure)}
}

// The hours of the lowest and the highest temperature.
const coldest, hottest = 5.0, 15.5

// temperature is the dry bulb at an hour of the day.
func (d day) temperature(hour float64) float64 {
	var phase float64
	if hour >= coldest && hour < hottest {
		phase = math.Pi * (1 - (hour-coldest)/(hottest-coldest))
	} else {
		after := math.Mod(hour-hottest+24, 24)
		phase = math.Pi * after / (24 - hottest + coldest)
	}
	return d.mean + d.swing/2*math.Cos(phase)
}
