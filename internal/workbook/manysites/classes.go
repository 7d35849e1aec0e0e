package manysites

import (
	"fmt"

	"github.com/evapbook/evapbook/internal/look"
	"github.com/evapbook/evapbook/internal/ranking"
	"github.com/evapbook/evapbook/internal/workbook/sheet"
)

// classesSay is what the classes are and are not.
var classesSay = []string{
	"Computed thermal zone, not the code zone: degree-days of the file (above 10 °C and below 18.3 °C, brought to 365 days) put to the thermal criteria of ANSI/ASHRAE Standard 169. Building codes go by lists of counties drawn from older records: by its 2009 record Phoenix computes as zone 1 and Las Vegas as 2, while the lists have 2B and 3B.",
	"Dryness is this program's own, from the mean wet-bulb depression of the hours at 26.7 °C (80 °F) and above: very dry from 16 K, dry from 12 K, mixed from 8 K, humid below; cool where no hour is that warm. It is not the moisture letter A, B, C of the standard, which goes by rain, and hourly files do not carry rain reliably.",
	"A dry year can hold a damp season: compare the share held with that of the worst month. In monsoon country July and August are dampest just when they are hottest.",
}

func (z *Book) layClasses(p *sheet.Page) {
	p.Cols = []float64{26, 10, 14, 14, 14, 14, 14, 14}
	p.Print.Landscape = true
	for _, s := range classesSay {
		p.Text(s, "", 8, 1+len(s)/135, sheet.Text)
	}
	p.Row++
	p.Section("Thermal zone and dryness", 8)
	p.Heads("Class", "Sites", "Depression at 1 %", "Need, hours", "Direct held", "Indirect held", "Two-stage held", "Direct, worst month")
	for n := range look.ColdToHot {
		for _, dry := range ranking.Drynesses {
			in := func(s ranking.Site) bool { return s[0].ThermalZone == int64(n) && s[0].Dryness == dry }
			if !z.any(in) {
				continue
			}
			z.meansRow(p, fmt.Sprintf("%s, %s", zoneName(int64(n)), dry),
				fmt.Sprintf(`[Ranking.zone%s],%d,[Ranking.dryness%s],"%s"`, z.charted(), n, z.charted(), dry), in)
		}
	}
	p.Row++
	p.Section("Dryness alone", 8)
	p.Heads("Class", "Sites", "Depression at 1 %", "Need, hours", "Direct held", "Indirect held", "Two-stage held", "Direct, worst month")
	for _, dry := range ranking.Drynesses {
		in := func(s ranking.Site) bool { return s[0].Dryness == dry }
		if z.any(in) {
			z.meansRow(p, dry, fmt.Sprintf(`[Ranking.dryness%s],"%s"`, z.charted(), dry), in)
		}
	}
}

func (z *Book) any(in func(ranking.Site) bool) bool {
	for _, s := range z.lines[:z.first] {
		if in(s) {
			return true
		}
	}
	return false
}
