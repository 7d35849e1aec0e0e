package reading

import "github.com/evapbook/evapbook/internal/job"

// Cause is something that makes a reading what it is, and how to find out.
// All causes are common practice, no source, unless one is named.
type Cause struct {
	What string
	Look string
}

// What goes wrong, and where to look.
var (
	notWetYet  = Cause{"the pads are not wet through yet", "dry pads soak up the first fill, so the pump may stop and start again; read once they have been wet for 15 minutes"}
	pumpOff    = Cause{"the pump does not run", "power and plug of the pump; a water-level sensor crusted with scale keeps it from starting: clean the sensor"}
	noWater    = Cause{"no water in the sump", "tap, supply line and valve; water running from the drain while the cooler is off says that the supply valve is fitted the wrong way round or the drain does not close"}
	dryStreaks = Cause{"dry streaks on the pads", "look along the pads against the light; clean the holes of the distributor and level the cabinet"}
	scaled     = Cause{"pads scaled, sagging or past their life", "press and lift a corner; renew aspen every season, rigid pads when they no longer come clean"}
	badSeat    = Cause{"pads wrongly seated or the wrong way round", "edges tight in the frame, no daylight beside them, rigid pads sloping as marked"}
	littleFlow = Cause{"too little water over the pads", "water level in the sump, pump basket and riser; all troughs should run along their whole length"}
	bypass     = Cause{"air passes by the pads", "doors and panels shut, seals whole, no opening in the cabinet below the pads"}
	ductGain   = Cause{"the ducts warm the air", "read again at the pads: more than 2 °F (1.1 K) between pads and diffuser is too much"}
	hotSupply  = Cause{"the supply sensor gets sun, or heat from the cabinet", "shade it, hold it in the middle of the stream and wait two minutes"}
	coolShade  = Cause{"the outdoor sensor is cooler than the air going in", "hot air from roof, wall or condenser enters the pads: read where the air goes in, in the shade"}
	wetSensor  = Cause{"the supply sensor is wet", "drops carried over from the pads make it a wet bulb: dry and shield it"}
	hotOutdoor = Cause{"the outdoor sensor stands in the sun or over a hot roof", "shade it where the air goes in"}
	highRH     = Cause{"the humidity sensor reads high", "compare with a wet bulb or with the nearest weather station"}
	lowSpeed   = Cause{"the fan runs at a low speed", "effectiveness rises a little with less air: read at full speed"}
	fastAir    = Cause{"more air than the pads are made for", "fan speed and pulley; the air should rise and fall with every fan speed"}
	dryFirst   = Cause{"the indirect stage does not cool", "its water and its own fan or dampers; read the air between the stages"}
	understate = Cause{"the cooler is better than it was stated", "state its effectiveness or the kind of its pads"}
)

// Part of the expected effectiveness below which pads that were wet would have
// to be nearly missing: want of water is then the likelier cause. Our own mark.
const halfOf = 0.5

// causes lists what such a reading usually means, likeliest first.
func causes(r *Result) []Cause {
	switch r.Verdict {
	case NotCooling:
		return []Cause{notWetYet, pumpOff, noWater, littleFlow, hotSupply}
	case Better:
		return []Cause{wetSensor, hotOutdoor, highRH, lowSpeed, understate}
	case Watch, Fault:
		return tooWarm(r)
	default:
		return nil
	}
}

func tooWarm(r *Result) []Cause {
	expected := r.Visit.Outdoor - r.Expected
	list := []Cause{dryStreaks, scaled, badSeat, littleFlow, bypass, ductGain, hotSupply, coolShade, fastAir}
	if r.Visit.Outdoor-r.Visit.Supply < halfOf*expected {
		list = []Cause{littleFlow, notWetYet, dryStreaks, badSeat, bypass, scaled, hotSupply, ductGain}
	}
	if r.Cooler.Kind != job.Direct {
		list = first(dryFirst, list)
	}
	if r.Band != nil && r.Band.Old(r.Cooler.Age) {
		list = first(scaled, list)
	}
	if r.Visit.AtDiffuser && r.Gap.Value < FaultGap+DuctGain {
		list = first(ductGain, list)
	}
	return list
}

// first moves a cause to the front.
func first(c Cause, list []Cause) []Cause {
	out := []Cause{c}
	for _, each := range list {
		if each != c {
			out = append(out, each)
		}
	}
	return out
}
