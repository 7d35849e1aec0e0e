package fx

// Drained mirrors season.Water.Drained: eqs. 22 and 23.
func Drained(evaporated, pumpHours, days string) string {
	return Fill(`IF(In_cooler_water_care="bleed",{E}/(Si_cooler_cycles-1),IF(In_cooler_water_care="purge",Si_cooler_sump*({H}/Si_cooler_purge_interval+{D}),0))`,
		"{E}", evaporated, "{H}", pumpHours, "{D}", days)
}
