package places

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Towns as people type them. docs/places.md shows the same table.
func TestFindAsPeopleType(t *testing.T) {
	for _, c := range []struct {
		typed, want, station string
	}{
		{"Bend, OR", "Bend, OR", "REDMOND ROBERTS FIELD, OR"},
		{"bend oregon", "Bend, OR", "REDMOND ROBERTS FIELD, OR"},
		{"Bend OR", "Bend, OR", "REDMOND ROBERTS FIELD, OR"},
		{"12 Hill Street, Bend, OR 97701", "Bend, OR", "REDMOND ROBERTS FIELD, OR"},
		{"St George UT", "Saint George, UT", "SAINT GEORGE (AWOS), UT"},
		{"ft collins", "Fort Collins, CO", "FORT COLLINS (AWOS), CO"},
		{"Mt. Shasta, Calif.", "Mount Shasta, CA", "KLAMATH FALLS INTL AP [UO], OR"},
		{"Española, N.M.", "Espanola, NM", "SATA FE COUNTY MUNICIPAL AP, NM"},
		{"coeur dalene", "Coeur d'Alene, ID", "COEUR D`ALENE(AWOS), ID"},
		{"Las Vegas", "Las Vegas, NV", "LAS VEGAS MCCARRAN INTL AP, NV"},
		{"las vegas new mexico", "Las Vegas, NM", "LAS VEGAS MUNICIPAL ARPT, NM"},
		{"N. Las Vegas", "North Las Vegas, NV", "NELLIS AFB, NV"},
		{"Springfield", "Springfield, MO", "SPRINGFIELD REGIONAL ARPT, MO"},
		{"New York", "New York City, NY", "NEW YORK LAGUARDIA ARPT, NY"},
		{"Washington, DC", "Washington, DC", "WASHINGTON DC REAGAN AP, VA"},
		{"Tucson AZ 85701 USA", "Tucson, AZ", "TUCSON INTERNATIONAL AP, AZ"},
		{"OFallon MO", "O'Fallon, MO", "ST LOUIS SPIRIT OF ST LOUIS A, MO"},
		{"Village of Oak Creek AZ", "Village of Oak Creek (Big Park), AZ", "PRESCOTT LOVE FIELD, AZ"},
		{"Leadville", "Leadville, CO", "LEADVILLE/LAKE CO., CO"},
		{"Telluride Colorado", "Telluride, CO", "GUNNISON CO. (AWOS), CO"},
		{"Borrego Springs CA", "Borrego Springs, CA", "PALM SPRINGS INTL, CA"},
		{"Needles CA", "Needles, CA", "NEEDLES AIRPORT, CA"},
		{"Cloudcroft, NM", "Cloudcroft, NM", "SIERRA BLANCA RGNL, NM"},
		{"724880", "RENO TAHOE INTERNATIONAL AP, NV", "RENO TAHOE INTERNATIONAL AP, NV"},
		{"Reno Tahoe Intl Airport", "RENO TAHOE INTERNATIONAL AP, NV", "RENO TAHOE INTERNATIONAL AP, NV"},
		{"44.06,-121.31", "44.06, -121.31", "REDMOND ROBERTS FIELD, OR"},
		{"44.06N 121.31W", "44.06, -121.31", "REDMOND ROBERTS FIELD, OR"},
	} {
		p, err := Find(c.typed)
		if assert.NoError(t, err, c.typed) {
			assert.Equal(t, c.want, p.Name, c.typed)
			assert.Equal(t, c.station, p.Candidates(math.NaN(), 1)[0].Station.Full(), c.typed)
		}
	}
}

func TestFindNamesTheOthers(t *testing.T) {
	p, err := Find("springfield")
	require.NoError(t, err)
	assert.Equal(t, "Springfield, MA", p.Others[0].Full())
	for i := 1; i < len(p.Others); i++ {
		assert.GreaterOrEqual(t, p.Others[i-1].Population, p.Others[i].Population)
	}
	p, err = Find("Springfield, OR")
	require.NoError(t, err)
	assert.Empty(t, p.Others)
}

func TestFindUnknown(t *testing.T) {
	for typed, want := range map[string]string{
		"albuqerque": "Albuquerque, NM", "Phenix AZ": "Phoenix, AZ", "Sante Fe": "Santa Fe, NM", "Wasington UT": "Washington, UT",
		"Flagstaf, AZ": "Flagstaff, AZ", "Tuscon, AZ": "Tucson, AZ", "Albuq": "Albuquerque, NM",
	} {
		_, err := Find(typed)
		var unknown *UnknownError
		if assert.ErrorAs(t, err, &unknown, typed) && assert.NotEmpty(t, unknown.Similar, typed) {
			assert.Equal(t, want, unknown.Similar[0], typed)
			assert.LessOrEqual(t, len(unknown.Similar), suggestions)
		}
	}
	for _, typed := range []string{"", " , ", "xyzzyxyzzy", "Bend, Ontario", "91,0", "\xff\xfe", "703884"} {
		_, err := Find(typed)
		assert.Error(t, err, typed)
	}
}

// Every town of the list is found by its own full name, or one of the same name
// in the same state that has more people.
func TestEveryTownIsFoundByItsName(t *testing.T) {
	step := 37
	if testing.Short() {
		step = 997
	}
	all := Towns()
	for i := 0; i < len(all); i += step {
		p, err := Find(all[i].Full())
		if assert.NoError(t, err, all[i].Full()) {
			assert.Equal(t, all[i].Full(), p.Name)
			assert.GreaterOrEqual(t, p.Town.Population, all[i].Population)
		}
	}
}

func FuzzFind(f *testing.F) {
	f.Add("Bend, OR")
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := Find(text); err == nil {
			assert.NotEmpty(t, p.Candidates(math.NaN(), 3))
		}
	})
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		if _, err := Find("bend oregon"); err != nil {
			b.Fatal(err)
		}
	}
}
