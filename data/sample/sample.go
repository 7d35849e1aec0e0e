// Package sample holds one year of invented hourly weather for an invented
// high-desert town, so that the tool can be tried without a weather file. No
// station measured it; generate/ says how it was made up.
package sample

import (
	"bytes"
	_ "embed"
	"io"
)

//go:generate go run ./generate -o ostrel-flat.csv

// Name is the file name of the sample.
const Name = "ostrel-flat.csv"

//go:embed ostrel-flat.csv
var text []byte

// Open gives the sample as a file in the plain CSV format of package weather,
// with its name for messages.
func Open() (io.Reader, string) {
	return bytes.NewReader(text), Name
}
