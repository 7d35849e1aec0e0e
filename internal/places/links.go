package places

import "fmt"

// Link is an address of hourly weather for any point of the earth.
type Link struct {
	Service string `json:"service"`
	What    string `json:"what"`
	Address string `json:"address"`
}

// Links are ready-made addresses for a point in degrees, from which anybody can
// download a file that this program reads. They follow the documented
// parameters of each service and were not tried:
//
//   - NASA POWER, hourly API (power.larc.nasa.gov/docs/services/api/temporal/hourly)
//   - Open-Meteo, historical weather API (open-meteo.com/en/docs/historical-weather-api)
//   - PVGIS, non-interactive service, tmy (joint-research-centre.ec.europa.eu, PVGIS API)
func Links(latitude, longitude float64) []Link {
	const first, last = 2023, 2024
	return []Link{
		{"NASA POWER", fmt.Sprintf("hours of %d and %d in UTC, from satellites and a weather model", first, last),
			fmt.Sprintf("https://power.larc.nasa.gov/api/temporal/hourly/point?parameters=T2M,RH2M,T2MDEW,PS,ALLSKY_SFC_SW_DWN&community=SB&longitude=%.4f&latitude=%.4f&start=%d0101&end=%d1231&format=CSV&time-standard=UTC", longitude, latitude, first, last)},
		{"Open-Meteo", fmt.Sprintf("hours of %d from a reanalysis (ERA5), free for non-commercial use", last),
			fmt.Sprintf("https://archive-api.open-meteo.com/v1/archive?latitude=%.4f&longitude=%.4f&start_date=%d-01-01&end_date=%d-12-31&hourly=temperature_2m,relative_humidity_2m,dew_point_2m,surface_pressure,shortwave_radiation&timezone=GMT&format=csv", latitude, longitude, last, last)},
		{"PVGIS", "a typical year of the European Commission's Joint Research Centre, hours in UTC",
			fmt.Sprintf("https://re.jrc.ec.europa.eu/api/v5_3/tmy?lat=%.4f&lon=%.4f&outputformat=csv", latitude, longitude)},
	}
}
