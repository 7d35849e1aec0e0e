// Package reading judges one field reading at a cooler: is the air coming off
// the pads what it should be in this weather, at this altitude?
//
// A reading is three measurements made together in the shade: the outdoor dry
// bulb, a humidity (relative humidity, wet bulb or dew point) and the supply
// temperature, taken once the pads have been wet for a quarter of an hour. From
// them follow the wet bulb, the effectiveness reached and its uncertainty; the
// cooler model of package cooler says what to expect. Nothing here reads files.
//
// Sources: definition of saturation effectiveness, ANSI/ASHRAE Standard 133;
// combination of independent errors, JCGM 100:2008 (GUM) eq. 10 (from memory).
// Marks and bands name their source where they stand; a rule of the trade is
// marked "common practice, no source", a value of this program "our own mark".
//
// Leaves out: air from a dirty or sunlit sensor (named as a cause, not
// corrected), the lag of slow sensors, part flow.
package reading

// How far a mark can be trusted, where no publication stands behind it.
const (
	practice = "common practice, no source"
	own      = "our own mark"
	index    = "service-trade cooler index note, Yuma: supply 3 °F or more above the expected index means fault"
)

// Errors of ordinary field instruments, as the limits of a uniform error.
// Source: common practice, no source.
const (
	TemperatureError = 0.5  // K, each thermometer, dry or wet
	HumidityError    = 0.03 // relative humidity, 0..1
)

// Marks by which a reading is judged.
const (
	FaultGap      = 3 / 1.8 // K above the expected supply; published, see index
	WatchGap      = 1.5 / 1.8
	LeastDrop     = 5.0     // K between outdoor dry and wet bulb; our own mark
	WidestError   = 0.15    // half-width of effectiveness: about what parts new from aged aspen pads; our own mark
	NoCooling     = 0.15    // effectiveness below which the pads can be taken for dry; our own mark
	MostWarming   = 3.0     // K a fan and a hot duct may add to the air of dry pads; our own mark
	LeastHumidity = 0.02    // relative humidity below which a failed sensor is likelier than the weather; our own mark
	WetMinutes    = 15      // minutes the pads should have been wet; service-trade cooler index note, Yuma
	DuctGain      = 2 / 1.8 // K the air may gain from pads to diffuser; common practice, no source
)
