package docs

import (
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"
)

// tutorials are followed in one folder, from nothing: what a step needs an
// earlier one has made, or the page says how. True: their sentences hold no
// figure that was not met on the way.
var tutorials = map[string]bool{
	"README.md": true, "docs/homeowner.md": true, "docs/salesperson.md": true, "docs/engineer.md": true,
	"docs/technician.md": false, "docs/faq.md": true, "docs/howsure.md": true,
}

// shortened are commands that would take too long, with what makes them short.
var shortened = map[string]string{
	"evapbook rank --places all --csv all.csv": " --shard 1/100",
}

// given puts the files into a visit's folder that its page speaks of without
// making them. All weather is that of the invented town.
func given(v *visit) {
	switch v.page.name {
	case "docs/commands.md":
		v.weather("boise.csv", "stations/a.csv", "stations/b.csv")
		v.weather("archive/1.csv", "archive/2.csv", "archive/3.csv", "archive/4.csv", "archive/5.csv", "archive/6.csv", "archive/7.csv", "archive/8.csv")
		v.save("boise-2010-2019.csv", v.years(2010, 2017, 2019))
		for _, year := range []int{2017, 2018, 2019} {
			v.save(fmt.Sprintf("boise-%d.csv", year), v.years(year))
		}
		v.save("garden.csv", v.logger("Date,Out,Hum"))
		v.save("visits.csv", "altitude,outdoor,wet_bulb,supply\n6035ft,84F,56F,61F\n")
		v.made("evapbook job > house.toml", "evapbook write boise.csv --values -o boise.xlsx", "mkdir parts")
		for _, n := range []int{1, 3, 4, 5, 6, 7, 8} { // the page makes part 2
			v.made(fmt.Sprintf("evapbook rank archive/ --shard %d/8 --parquet parts/%d.parquet", n, n))
		}
	case "docs/places.md":
		v.weather("POWER_Point_Hourly.csv")
	case "docs/salesperson.md":
		v.copied("logo.png", "docs/pictures/offer-logo.png")
	case "docs/weather.md":
		v.save("log.csv", v.logger("When,Porch,Damp"))
	case "docs/zone.md":
		v.weather("a.csv", "more/c.csv", "stations/a.csv", "stations/b.csv", "archive/1.csv", "archive/2.csv", "archive/3.csv", "archive/4.csv")
		v.made("evapbook job > house.toml", "mkdir parts")
		v.packed("b.epw.gz")
	}
}

// save writes a file below the visit's folder.
func (v *visit) save(name, text string) {
	path := filepath.Join(v.folder, name)
	require.NoError(v, os.MkdirAll(filepath.Dir(path), 0o700))
	require.NoError(v, os.WriteFile(path, []byte(text), 0o600))
}

func (v *visit) read(name string) string {
	text, err := os.ReadFile(filepath.Join(root, name))
	require.NoError(v, err)
	return string(text)
}

func (v *visit) copied(name, from string) { v.save(name, v.read(from)) }

// weather gives the invented town's year under other names.
func (v *visit) weather(names ...string) {
	for _, n := range names {
		v.copied(n, "data/sample/ostrel-flat.csv")
	}
}

// made gives what commands write.
func (v *visit) made(lines ...string) {
	for _, line := range lines {
		output, status := v.exec(line)
		require.Zero(v, status, "%s\n%s", line, output)
	}
}

// packed gives the invented year as a gzip file.
func (v *visit) packed(name string) {
	var b strings.Builder
	z := gzip.NewWriter(&b)
	_, err := z.Write([]byte(v.read("data/sample/ostrel-flat.csv")))
	require.NoError(v, err)
	require.NoError(v, z.Close())
	v.save(name, b.String())
}

// hours are the rows of the invented year: stamp, °C, relative humidity in %.
func (v *visit) hours() (head string, rows [][]string) {
	for line := range strings.Lines(v.read("data/sample/ostrel-flat.csv")) {
		if line[0] >= '0' && line[0] <= '9' {
			rows = append(rows, strings.Split(strings.TrimSpace(line), ","))
		} else {
			head += line
		}
	}
	return head, rows
}

// years gives the invented year once for each of several, each a degree warmer than the one before.
func (v *visit) years(years ...int) string {
	head, rows := v.hours()
	var b strings.Builder
	b.WriteString(head)
	for k, year := range years {
		for _, r := range rows {
			t, err := strconv.ParseFloat(r[1], 64)
			require.NoError(v, err)
			fmt.Fprintf(&b, "%d%s,%.1f,%s\n", year, r[0][4:], t+float64(k), strings.Join(r[2:], ","))
		}
	}
	return b.String()
}

// logger gives the invented year as a garden's logger might: headings of its own, in °F.
func (v *visit) logger(headings string) string {
	head, rows := v.hours()
	var b strings.Builder
	for line := range strings.Lines(head) {
		if strings.HasPrefix(line, "#") {
			b.WriteString(line)
		}
	}
	b.WriteString(headings + "\n")
	for _, r := range rows {
		t, err := strconv.ParseFloat(r[1], 64)
		require.NoError(v, err)
		fmt.Fprintf(&b, "%s,%.1f,%s\n", r[0], t*1.8+32, r[2])
	}
	return b.String()
}
