package steps

import (
	"github.com/evapbook/evapbook/internal/season"
	"github.com/evapbook/evapbook/internal/units"
	"github.com/evapbook/evapbook/internal/workbook/figures"
	"github.com/evapbook/evapbook/internal/workbook/fx"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// refrigerationColumns are what the refrigerated unit takes in the same hour.
func refrigerationColumns(c *figures.Case, out func(int) *season.Hour) []sheet.Column {
	capacity := c.Season.AC.Capacity
	return []sheet.Column{
		before(c, "ref_before", "ref_house", "Refrigerated air conditioner", func(i int) float64 { return out(i).RefBefore }),
		{
			Key: "ref_q", Title: "Sensible load", Kind: units.Power, Eq: 17,
			Formula: fx.Load("[ref_before]"),
			Value:   func(i int) any { return out(i).RefSensible },
		},
		{
			Key: "closed_w", Title: "Load, house closed", Kind: units.Power, Eq: 25,
			Formula: "IF(AND([ref_q]>0,[ref_q]+[leak]>0),[ref_q]+[leak]+B_latent+B_infiltration*" + fx.LatentHeat + "*MAX(0,[w]-B_room_w),0)",
			Value:   func(i int) any { return out(i).ClosedLoad },
		},
		{
			Key: "ref_house", Title: "House at the end of the hour", Kind: units.Temperature, Eq: 17,
			Formula: "IF([closed_w]>0,Si_house_setpoint," + fx.Drift(fx.Shut("[ref_before]")) + ")",
			Value:   func(i int) any { return out(i).RefHouse },
		},
		{
			Key: "capacity", Title: "Capacity over rating", Kind: units.Share, Eq: 26,
			Formula: "(B_capacity_0+B_capacity_1*([t]*1.8+32)+B_capacity_2*([t]*1.8+32)^2)*B_altitude_factor",
			Value:   func(i int) any { return out(i).CapacityShare },
		},
		{
			Key: "eir", Title: "Input ratio over rating", Kind: units.Share, Eq: 26,
			Formula: "(B_eir_0+B_eir_1*([t]*1.8+32)+B_eir_2*([t]*1.8+32)^2)/B_altitude_factor",
			Value:   func(i int) any { return out(i).EIRShare },
		},
		{
			Key: "rating", Title: "Rating that carries it", Kind: units.Power, Eq: 26,
			Formula: "[closed_w]/[capacity]",
			Value:   func(i int) any { return out(i).NeededRating },
		},
		{
			Key: "plr", Title: "Part load", Kind: units.Share, Eq: 27,
			Formula: "MIN(1,[rating]/Si_ac_capacity)",
			Value:   func(i int) any { return min(1, out(i).NeededRating/capacity) },
		},
		{
			Key: "closed_kwh", Fine: true, Title: "Energy, windows closed", Kind: units.Energy, Eq: 27,
			Formula: "[plr]*Si_ac_capacity*[capacity]*[eir]/((1-Si_ac_cycling*(1-[plr]))*Si_ac_field_share*B_cop)/1000",
			Value:   func(i int) any { return out(i).ClosedKWh },
		},
		{
			Key: "ref_kwh", Fine: true, Title: "Energy", Kind: units.Energy, Eq: 27,
			Formula: `IF(AND(In_ac_windows_open="yes",[outcome]="vent"),0,[closed_kwh])`,
			Value:   func(i int) any { return out(i).RefKWh },
		},
		{
			Key: "both_kwh", Fine: true, Title: "Energy, both together", Kind: units.Energy,
			Formula: "IF([uncovered]=1,[closed_kwh],[cooler_kwh])",
			Value:   func(i int) any { return out(i).BothKWh },
		},
		{
			Key: "unmet", Title: "Refrigeration falls short", Kind: units.Count,
			Formula: "IF([rating]>Si_ac_capacity,1,0)",
			Value:   func(i int) any { return fx.Flag(out(i).Unmet) },
		},
	}
}
