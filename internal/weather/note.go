package weather

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Note is something a reader of the results must know about the data: what
// kind of thing, of what, how many and where. The sentence is made of it where
// it is shown.
type Note struct {
	Kind   NoteKind
	Line   int     // 1-based line of the file, 0 if it concerns the whole file
	Of     string  // the quantity, column, file or year it is about
	Other  string  // what is set against it, as the kind says
	Count  int     // hours, rows or values
	Want   int     // how many there should be
	Value  float64 // a further number, as the kind says
	Places []Place // where, the first few
}

// Place is one cell of a file.
type Place struct {
	Line  int       // 1-based; 0 if the hour has no line of its own
	Time  time.Time // stamp of the hour in local standard time, zero if not known
	Value float64   // as the reader understood it, in the unit messages name
}

// NoteKind says what a note is about.
type NoteKind int

// The kinds of notes.
const (
	NoteTypical          NoteKind = iota + 1 // its months are from the years Of to Other
	NoteTypicalOld                           // the same, and all of them before RecentFrom
	NoteHumidityAbsent                       // Of was asked for, Other is used
	NoteAbsent                               // the file has no Of
	NoteInterpolated                         // Count hours of Of in gaps of up to Value h
	NoteLeftOut                              // Count hours of Of
	NoteShortSeason                          // Count of Want hours of the half-year Of; Other is the best of several years, Value their number
	NoteWarmestHour                          // Value is the clock hour
	NoteOffsetEstimated                      // Value is hours ahead of UTC, Of where it is from
	NoteMoved                                // from UTC by Value hours
	NoteTurned                               // the same, within one year
	NoteNoLeapDay                            // 29 February
	NoteNightOffset                          // Count readings of irradiance
	NoteClockChange                          // Places[0] is missing
	NoteSorted                               // reports
	NoteFurtherReports                       // Count of them within an hour
	NoteAveraged                             // Count rows a Value minutes
	NoteWindows1252                          // the text encoding
	NoteSuspect                              // Count values marked by NOAA
	NoteRejected                             // Count values by NOAA's checks
	NoteHeaderRemoved                        // of NASA POWER
	NoteSolarTime                            // stamps are local solar time
	NoteColumn                               // Of from column Other, in the unit behind it
	NoteTimeColumn                           // Other is the column
	NoteWetBulbUnused                        // Other is the column
	NotePressureUnused                       // Other is the column
	NoteHoursTo24                            // hours run from 1 to 24
	NoteYearLeftOut                          // Of is the year, Other the file, Count of Want hours
	NoteYearTwice                            // Of is the year, Other the file or place
	NoteShownYear                            // Of is the year, Other why, Count whole years
	NoteOnlyYear                             // Of is the year
	NoteImpossible                           // Count values of Of, in the unit Other, count as missing
	NoteSaturated                            // Count values of Of above 100 % were read as 100 %
	NoteSpikes                               // Count hours of Of, in the unit Other, jumped out and back
	NoteFilled                               // Count hours of Want were not observed but filled in by the publisher
	NoteFilledNights                         // the same, where they are most nights
	NoteNameCut                              // Count characters, Want of them kept
	NoteJoined                               // Count files of one place were joined; Of is what tells that it is one
	NoteJoinedUnknown                        // Count files were joined that do not say where they are from
	NoteElevationFitted                      // Value is the elevation in m that the pressures fit, used instead of Other in the file
	NoteElevationDoubted                     // Value is the same, Other the elevation the user states, used
	NoteSeaLevel                             // the pressures are of sea level, not of the elevation Other in m
	NoteNoSun                                // irradiance never exceeds Value W/m²
	NoteSunOff                               // the sun's day has its middle at hour Value, by place and clock it is Want
	NoteZoneOff                              // the offset Value lies Count hours from the longitude Other
	NoteHemisphere                           // the warm half-year at latitude Value is the colder one
	NoteCold                                 // no hour of the warm half-year is above Value °C
	NoteStill                                // the dry bulb is Value for Count hours
	NoteAboveDryBulb                         // Count values of Of, in the unit Other, are above the dry bulb and count as missing
	NoteCutToDryBulb                         // the same, by little, and were read as equal to it
	NoteSpareAbove                           // Of, which is not used, is above the dry bulb in Count of Want hours
	noteKinds                                // how many there are, and one
)

// noteTexts are the sentences, without full stop. A word in braces stands for a
// field of the note.
var noteTexts = [noteKinds]string{
	NoteTypical:          "typical year joined from months of {of} to {other}",
	NoteTypicalOld:       "typical year joined from months of {of} to {other}: recent summers have mostly been warmer",
	NoteHumidityAbsent:   "{of} was asked for but is not in the file; {other} is used",
	NoteAbsent:           "the file has no {of}",
	NoteInterpolated:     "{of}: {count} missing hours in gaps of up to {value} h were interpolated",
	NoteLeftOut:          "{of}: {count} hours are missing and left out",
	NoteShortSeason:      "only {count} of {want} hours of the warm half-year ({of}) have dry bulb and humidity; results cover no more than that",
	NoteWarmestHour:      "the warmest hour of the mean day is stamped {clock}, not in the afternoon; the stamps may be UTC or daylight-saving time instead of local standard time",
	NoteOffsetEstimated:  "UTC offset {signed} h taken from {of}",
	NoteMoved:            "stamps moved from UTC by {signed} h",
	NoteTurned:           "stamps moved from UTC by {signed} h; the hours that fall outside the year stand at its other end",
	NoteNoLeapDay:        "29 February is left out of the file",
	NoteNightOffset:      "global irradiance: {count} readings between {value} and 0 W/m², the offset of a pyranometer at night, were taken as 0",
	NoteClockChange:      "the hour of {place} is missing, as clocks show when daylight-saving time begins; if the stamps are clock time, download the file again in local standard time or in UTC",
	NoteSorted:           "the reports were not in the order of time and were sorted",
	NoteFurtherReports:   "{count} further reports within an hour were not used",
	NoteAveraged:         "{count} rows a {value} minutes were averaged to hours",
	NoteWindows1252:      "the text is not UTF-8 and was read as Windows-1252",
	NoteSuspect:          "{count} values marked as suspect by NOAA count as missing",
	NoteRejected:         "{count} values that NOAA's checks call suspect or wrong count as missing",
	NoteHeaderRemoved:    "the header was removed: place unknown, stamps taken as local time",
	NoteSolarTime:        "stamps are local solar time, up to half an hour from standard time",
	NoteColumn:           "{of} from column {other}",
	NoteTimeColumn:       "time from column {other}",
	NoteWetBulbUnused:    "column {other} is not used: some publishers' is no psychrometric wet bulb",
	NotePressureUnused:   "column {other} is not used: the heading does not say that it is station pressure, not reduced to sea level; name it with --columns pressure=… if it is",
	NoteHoursTo24:        "hours run from 1 to 24 and are taken to end at their stamp",
	NoteYearLeftOut:      "{of} of {other} is left out of the range over years: {count} of {want} hours of the warm half-year have dry bulb and humidity",
	NoteYearTwice:        "{other}: {of} stands in two files and counts once",
	NoteShownYear:        "the weather holds {count} whole years; the hours are those of {of}, {other}",
	NoteImpossible:       "{of}: {count} values no air can have count as missing ({places})",
	NoteSaturated:        "{of}: {count} values above 100 % between damp hours were read as 100 % ({places})",
	NoteSpikes:           "{of}: {count} hours that jump out and back count as missing ({places})",
	NoteFilled:           "dry bulb: {count} of {want} hours were filled in by the publisher, not observed; freezes that rest on them alone set no date",
	NoteFilledNights:     "dry bulb: {count} of {want} hours were filled in by the publisher, most of the nights among them; freeze dates rest on them",
	NoteJoined:           "{count} files of one place were joined, {of}",
	NoteJoinedUnknown:    "{count} files were joined and taken to be of one place; they do not say where they are from",
	NoteElevationFitted:  "the pressures in the file fit a height of {value} m, not its elevation of {other} m; {value} m is used for the station, --elevation sets another",
	NoteElevationDoubted: "the pressures in the file fit a height of {value} m, not the stated elevation of {other} m, which is used",
	NoteSeaLevel:         "the pressures in the file are those of sea level, not of its elevation of {other} m; they are not used",
	NoteNoSun:            "global irradiance never exceeds {value} W/m² and is not used: it looks like another unit, or like none measured",
	NoteSunOff:           "the sun in the file stands highest around {clock}, at its place and by its clock it does around {want}:00; longitude, UTC offset or the clock of the stamps is wrong",
	NoteZoneOff:          "UTC offset {signed} h lies {count} hours from the sun's time at longitude {other}; one of the two is wrong, perhaps its sign",
	NoteHemisphere:       "at latitude {value} the months of summer are the colder ones; the sign of the latitude or the stamps are wrong",
	NoteCold:             "no hour of the warm half-year is above {value} °C; is the dry bulb in the unit that its heading says?",
	NoteStill:            "dry bulb: {value} °C in each of {count} hours from {place}, as of a sensor that is stuck",
	NoteAboveDryBulb:     "{of}: {count} values above the dry bulb, which no air has, count as missing ({places})",
	NoteCutToDryBulb:     "{of}: {count} values up to 1 °C above the dry bulb were read as equal to it ({places})",
	NoteSpareAbove:       "{of}, which is not used, is above the dry bulb in {count} of {want} hours; are two columns exchanged, or is one in another unit?",
	NoteOnlyYear:         "the hours are those of {of}, the only whole year",
	NoteNameCut:          "the name of the station has {count} characters and is cut to {want}",
}

const stampForm = "2006-01-02 15:04"

// Text is the note as a sentence without full stop.
func (n Note) Text() string {
	text := noteTexts[n.Kind]
	if n.Kind == NoteShortSeason && n.Other != "" {
		text = "in the best of {value} years, {other}, " + text
	}
	place := ""
	if len(n.Places) > 0 {
		place = n.Places[0].Time.Format(stampForm)
	}
	return strings.NewReplacer(
		"{of}", n.Of, "{other}", n.Other, "{count}", strconv.Itoa(n.Count), "{want}", strconv.Itoa(n.Want),
		"{value}", fmt.Sprintf("%g", n.Value), "{signed}", fmt.Sprintf("%+g", n.Value), "{clock}", fmt.Sprintf("%02.0f:00", n.Value),
		"{place}", place, "{places}", n.where(),
	).Replace(text)
}

// where lists the places with their values, and how many more there are.
func (n Note) where() string {
	var all []string
	for _, p := range n.Places {
		text := fmt.Sprintf("%.4g %s", p.Value, n.Other)
		switch {
		case !p.Time.IsZero():
			text += " at " + p.Time.Format(stampForm)
		case p.Line > 0:
			text += fmt.Sprintf(" on line %d", p.Line)
		}
		all = append(all, text)
	}
	if more := n.Count - len(n.Places); more > 0 {
		all = append(all, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(all, ", ")
}

// String is the note as a sentence, with the line of the file it concerns.
func (n Note) String() string {
	if n.Line > 0 {
		return fmt.Sprintf("line %d: %s", n.Line, n.Text())
	}
	return n.Text()
}

// With is the series with further notes; the series itself stays as it is.
func (s *Series) With(notes ...Note) *Series {
	out := *s
	out.Notes = append(s.Notes[:len(s.Notes):len(s.Notes)], notes...)
	return &out
}
