package job

import "github.com/evapbook/evapbook/internal/units"

// How far a default can be trusted, where no publication stands behind it.
const (
	practice = "common practice, no source"
	memory   = "from memory"
)

var siteInputs = []Input{
	{Key: "site.name", Label: "Name of the site", Kind: units.Text, Example: "Hill Street 12",
		Rule: &Rule{Text: "the name of the town, or of the weather station"}, Why: "the weather says where it is from",
		word: text(func(j *Job) *string { return &j.Site.Name })},
	{Key: "site.place", Label: "Town whose weather is taken", Kind: units.Text, Example: "Bend, OR",
		Why: "optional; without it a weather file is named", Help: "Town and state, the number of a station within the program, or coordinates as 44.06,-121.31. Read when the workbook is written.",
		word: text(func(j *Job) *string { return &j.Site.Place })},
	{Key: "site.altitude", Label: "Altitude of the site", Kind: units.Altitude, Min: -430, Max: 4500, Example: "5430 ft",
		Rule: &Rule{Text: "the elevation of the town, or of the weather station", Cell: "B_place_elevation"}, Why: "the house stands in the town, or beside the station, unless stated otherwise",
		Help:   "Air is thinner and wet bulbs lower the higher the site lies.",
		number: func(j *Job) *float64 { return &j.Site.Altitude }},
	{Key: "site.lapse_rate", Label: "Fall of dry bulb with height between station and site", Kind: units.LapseRate, Default: "0 K/km", Min: -10, Max: 10,
		Why:    "no correction unless asked for; the standard atmosphere has 6.5 K/km (ICAO Doc 7488), valleys at night the opposite",
		number: func(j *Job) *float64 { return &j.Site.LapseRate }},
	{Key: "site.clearness", Label: "Share of clear-sky sun where the file has none", Kind: units.Share, Default: "0.75", Min: 0.1, Max: 1,
		Why: practice, Help: "Used only in hours without irradiance, on Haurwitz (1945) clear-sky values.",
		number: func(j *Job) *float64 { return &j.Site.Clearness }},
}

var coolerInputs = []Input{
	{Key: "cooler.kind", Label: "Kind of cooler", Kind: units.Choice, Default: string(Direct), Choices: []string{string(Direct), string(Indirect), string(TwoStage)},
		Why: "the usual kind", Help: "Two-stage is an indirect stage before a direct one.",
		word: choice(func(j *Job) *CoolerKind { return &j.Cooler.Kind })},
	{Key: "cooler.airflow", Label: "Air delivered at full speed", Kind: units.Airflow, Min: 0.05, Max: 30, Example: "4500 cfm",
		Rule: &Rule{Text: "2.5 cfm per ft² of floor",
			Value: func(j *Job) float64 { return j.House.FloorArea * airflowPerArea },
			Cell:  "Si_house_floor_area*K_airflow_per_area"},
		Why: practice + "; US consumer guides say 2 to 3, in hot desert 3 to 4", Help: "Delivered against the real ducts, not the free-air figure.",
		number: func(j *Job) *float64 { return &j.Cooler.Airflow }},
	{Key: "cooler.effectiveness", Label: "Rated saturation effectiveness of the direct stage", Kind: units.Share, Default: "0.80", Min: 0.05, Max: 1,
		Why: "service-trade allowance for any cooler in good order; 6 to 8 in of rigid pad reach 0.72 to 0.87 (" + memory + ")", Help: "As measured by ASHRAE Standard 133.",
		number: func(j *Job) *float64 { return &j.Cooler.Effectiveness }},
	{Key: "cooler.indirect_effectiveness", Label: "Wet-bulb effectiveness of the indirect stage", Kind: units.Share, Default: "0.60", Min: 0.05, Max: 1,
		Why: "one-stage indirect 0.54 to 0.60 in six hot cities: Moshari, Heidarinejad and Fathipour (2016)", Help: "Not used by a direct cooler.",
		number: func(j *Job) *float64 { return &j.Cooler.IndirectEffectiveness }},
	{Key: "cooler.pad_condition", Label: "Share of the rated effectiveness the pads still reach", Kind: units.Share, Default: "1", Min: 0.05, Max: 1,
		Why:    "pads as new; aged, sagging or scaled aspen reaches 0.50 to 0.65 where new reaches 0.70 to 0.80 (" + memory + ")",
		number: func(j *Job) *float64 { return &j.Cooler.PadCondition }},
	{Key: "cooler.fan_power", Label: "Fan power at full speed", Kind: units.Power, Min: 1, Max: 15000, Example: "675 W",
		Rule: &Rule{Text: "0.15 W per cfm of airflow, 0.27 W per cfm in a two-stage cooler",
			Value: func(j *Job) float64 {
				if j.Cooler.Kind == TwoStage {
					return j.Cooler.Airflow * fanPowerTwoStage
				}
				return j.Cooler.Airflow * fanPower
			},
			Cell: `Si_cooler_airflow*IF(In_cooler_kind="two-stage",K_fan_power_two_stage,K_fan_power)`},
		Why: practice, Help: "In air of 1.2 kg/m³.",
		number: func(j *Job) *float64 { return &j.Cooler.FanPower }},
	{Key: "cooler.pump_power", Label: "Pump power", Kind: units.Power, Default: "50 W", Min: 0, Max: 2000,
		Why:    practice + "; 30 to 60 W (" + memory + ")",
		number: func(j *Job) *float64 { return &j.Cooler.PumpPower }},
	{Key: "cooler.lowest_speed", Label: "Lowest fan speed as a share of full speed", Kind: units.Share, Default: "0.67", Min: 0.1, Max: 1,
		Why: practice, Help: "1 for a single-speed fan, 0.67 for two speeds, 0.3 for a variable drive.",
		number: func(j *Job) *float64 { return &j.Cooler.LowestSpeed }},
	{Key: "cooler.water_care", Label: "How the sump water is kept from concentrating", Kind: units.Choice, Default: string(Bleed), Choices: []string{string(Bleed), string(Purge), string(NoCare)},
		Why: practice, Help: "Bleed lets a little water go all the time, purge empties the sump at intervals.",
		word: choice(func(j *Job) *WaterCare { return &j.Cooler.WaterCare })},
	{Key: "cooler.cycles", Label: "Cycles of concentration when bleeding", Kind: units.Plain, Default: "3", Min: 1.05, Max: 20,
		Why: "3 to 4 with typical water, 2 to 3 with very hard (" + memory + "); 3 also fits homes with bleed using half as much again in Karpiscak et al. (1998)", Help: "Dissolved solids in the sump over those in the supply.",
		number: func(j *Job) *float64 { return &j.Cooler.Cycles }},
	{Key: "cooler.sump", Label: "Water emptied by one purge", Kind: units.SmallVolume, Default: "4 gal", Min: 0.5, Max: 500,
		Why: practice, number: func(j *Job) *float64 { return &j.Cooler.Sump }},
	{Key: "cooler.purge_interval", Label: "Pump running time between purges", Kind: units.Duration, Default: "8 h", Min: 0.1, Max: 168,
		Why:    "controls use 6 to 12 h (" + memory + "); a US laboratory's consumer text says half an hour",
		number: func(j *Job) *float64 { return &j.Cooler.PurgeInterval }},
}

var houseInputs = []Input{
	{Key: "house.floor_area", Label: "Cooled floor area", Kind: units.Area, Default: "1800 ft2", Min: 5, Max: 5000,
		Why: practice + ", a middling US house", number: func(j *Job) *float64 { return &j.House.FloorArea }},
	{Key: "house.ceiling", Label: "Ceiling height", Kind: units.Length, Default: "2.44 m", Min: 1.8, Max: 12,
		Why: practice + ", 8 ft", Help: "Used for the infiltration of the closed house.",
		number: func(j *Job) *float64 { return &j.House.Ceiling }},
	{Key: "house.people", Label: "People in the house", Kind: units.Plain, Default: "3", Min: 0, Max: 100,
		Why: practice, number: func(j *Job) *float64 { return &j.House.People }},
	{Key: "house.heat_loss", Label: "Heat loss per floor area", Kind: units.HeatLoss, Default: "1.8 W/m2K", Min: 0.1, Max: 20,
		Why: practice, Help: "2.5 for a loose house, 1.2 for a tight one, in W/m²K. A stated design load replaces it.",
		number: func(j *Job) *float64 { return &j.House.HeatLoss }},
	{Key: "house.solar_share", Label: "Solar aperture as a share of floor area", Kind: units.Share, Default: "0.03", Min: 0, Max: 0.5,
		Why: practice, Help: "Glass area times the share of sun it lets in, after shading.",
		number: func(j *Job) *float64 { return &j.House.SolarShare }},
	{Key: "house.design_load", Label: "Sensible design load; 0: not stated", Kind: units.HeatFlow, Default: "0 W", Min: 0, Max: 500000,
		Why: "the load follows from floor area and heat loss unless stated", Help: "At the 1 % dry bulb, from a load calculation of the house.",
		number: func(j *Job) *float64 { return &j.House.DesignLoad }},
	{Key: "house.setpoint", Label: "Indoor temperature to keep", Kind: units.Temperature, Default: "78 F", Min: 15, Max: 35,
		Why: practice, number: func(j *Job) *float64 { return &j.House.Setpoint }},
	{Key: "house.humidity_limit", Label: "Highest indoor relative humidity", Kind: units.Share, Default: "0.70", Min: 0.3, Max: 1,
		Why: practice, number: func(j *Job) *float64 { return &j.House.HumidityLimit }},
	{Key: "house.infiltration", Label: "Air changes per hour of the closed house", Kind: units.Plain, Default: "0.5", Min: 0, Max: 10,
		Why: practice, number: func(j *Job) *float64 { return &j.House.Infiltration }},
}

var acInputs = []Input{
	{Key: "ac.capacity", Label: "Rated total cooling capacity", Kind: units.Capacity, Min: 500, Max: 500000, Example: "3 ton",
		Rule: &Rule{Text: "the smallest half ton that meets the 99.6 % hour"}, Why: "a fair size: neither starved nor oversized",
		number: func(j *Job) *float64 { return &j.AC.Capacity }},
	{Key: "ac.eer2", Label: "EER2, Btu/h per W", Kind: units.Plain, Min: 3, Max: 25, Example: "11.9",
		Rule: &Rule{Text: "-0.02 SEER2² + 1.12 SEER2",
			Value: func(j *Job) float64 { return eer2Square*j.AC.SEER2*j.AC.SEER2 + eer2Linear*j.AC.SEER2 },
			Cell:  "K_eer2_square*Si_ac_seer2^2+K_eer2_linear*Si_ac_seer2"},
		Why: memory + ": the usual relation between EER and SEER", Help: "At 95 °F outdoors.",
		number: func(j *Job) *float64 { return &j.AC.EER2 }},
	{Key: "ac.seer2", Label: "SEER2, Btu/h per W", Kind: units.Plain, Default: "14.3", Min: 4, Max: 28,
		Why: "the US minimum in the South and Southwest since 2023 for units below 45,000 Btu/h (10 CFR 430.32, " + memory + ")", Help: "Used only where EER2 is not stated.",
		number: func(j *Job) *float64 { return &j.AC.SEER2 }},
	{Key: "ac.cycling", Label: "Cycling degradation coefficient", Kind: units.Plain, Default: "0.20", Min: 0, Max: 0.5,
		Why:    "default of the US test procedure (10 CFR 430 subpart B appendix M1, " + memory + ")",
		number: func(j *Job) *float64 { return &j.AC.Cycling }},
	{Key: "ac.indoor_wet_bulb", Label: "Wet bulb entering the coil", Kind: units.Temperature, Default: "63 F", Min: 5, Max: 25,
		Why: practice + "; units are rated at 67 °F, dry climates lie below", number: func(j *Job) *float64 { return &j.AC.IndoorWetBulb }},
	{Key: "ac.windows_open", Label: "Windows carry the hours that outdoor air alone can hold", Kind: units.Choice, Default: "yes", Choices: []string{"yes", "no"},
		Why: "the careful choice: it does not flatter the cooler", word: yesNo(func(j *Job) *bool { return &j.AC.WindowsOpen })},
}

var priceInputs = []Input{
	{Key: "price.electricity", Label: "Price of electricity", Kind: units.PricePerKWh, Default: "0.155 /kWh", Min: 0, Max: 1000,
		Why: "US residential average, EIA Electricity Monthly Update, January 2024 (15.45 cents)", number: func(j *Job) *float64 { return &j.Price.Electricity }},
	{Key: "price.water", Label: "Price of water", Kind: units.PricePerVolume, Default: "6 /kgal", Min: 0, Max: 100000,
		Why: memory + ": 5 to 8 per 1,000 gal in the United States", number: func(j *Job) *float64 { return &j.Price.Water }},
	{Key: "price.sewer", Label: "Sewer charge on the cooler's water", Kind: units.PricePerVolume, Default: "0 /kgal", Min: 0, Max: 100000,
		Why: "evaporated water earns no sewer volume, but some utilities bill it", number: func(j *Job) *float64 { return &j.Price.Sewer }},
	{Key: "price.cooler_installed", Label: "Cooler, installed", Kind: units.Money, Default: "3500", Max: 1e9,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.CoolerInstalled }},
	{Key: "price.ac_installed", Label: "Refrigerated air conditioner, installed", Kind: units.Money, Default: "9000", Max: 1e9,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.ACInstalled }},
	{Key: "price.cooler_care", Label: "Care of the cooler, per year", Kind: units.Money, Default: "150", Max: 1e9,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.CoolerCare }},
	{Key: "price.ac_care", Label: "Care of the air conditioner, per year", Kind: units.Money, Default: "150", Max: 1e9,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.ACCare }},
	{Key: "price.cooler_life", Label: "Life of the cooler", Kind: units.Years, Default: "15", Min: 1, Max: 30, Whole: true,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.CoolerLife }},
	{Key: "price.ac_life", Label: "Life of the air conditioner", Kind: units.Years, Default: "15", Min: 1, Max: 30, Whole: true,
		Why: practice, number: func(j *Job) *float64 { return &j.Price.ACLife }},
	{Key: "price.discount", Label: "Discount rate a year, without inflation", Kind: units.Share, Default: "0.03", Min: 0, Max: 0.5,
		Why: "the floor of the US federal real rate, 10 CFR 436.14", number: func(j *Job) *float64 { return &j.Price.Discount }},
	{Key: "price.escalation", Label: "Growth of energy and water prices a year, without inflation", Kind: units.Share, Default: "0", Min: -0.2, Max: 0.2,
		Why: "the careful choice: growth flatters whichever uses less", number: func(j *Job) *float64 { return &j.Price.Escalation }},
}

var plantInputs = []Input{
	{Key: "plant.water", Label: "Water evaporated per kWh delivered", Kind: units.WaterPerEnergy, Default: "0.47 gal/kWh", Min: 0, Max: 200,
		Why: "US thermoelectric plants, Torcellini, Long and Judkoff, NREL/TP-550-33905 (2003), read in quoting texts; about 2 gal/kWh with reservoirs", number: func(j *Job) *float64 { return &j.Plant.Water }},
	{Key: "plant.co2", Label: "Carbon dioxide per kWh delivered", Kind: units.MassPerEnergy, Default: "0.3934 kg/kWh", Min: 0, Max: 5,
		Why: "US average, EPA eGRID2022 total output 823.1 lb/MWh and 5.1 % grid loss; non-baseload rates suit a saving better", number: func(j *Job) *float64 { return &j.Plant.CO2 }},
}

var proposalInputs = []Input{
	{Key: "proposal.prepared_for", Label: "Prepared for", Kind: units.Text, Why: "printed only where given", word: text(func(j *Job) *string { return &j.Proposal.PreparedFor })},
	{Key: "proposal.prepared_by", Label: "Prepared by", Kind: units.Text, Why: "printed only where given", word: text(func(j *Job) *string { return &j.Proposal.PreparedBy })},
	{Key: "proposal.date", Label: "Date, as it is to be printed", Kind: units.Text, Why: "the program reads no clock", word: text(func(j *Job) *string { return &j.Proposal.Date })},
	{Key: "proposal.logo", Label: "Logo, path of a PNG or JPEG file", Kind: units.Text, Why: "printed only where given", word: text(func(j *Job) *string { return &j.Proposal.Logo })},
	{Key: "proposal.note", Label: "Note", Kind: units.Text, Why: "printed only where given", word: text(func(j *Job) *string { return &j.Proposal.Note })},
}
