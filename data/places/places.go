// Package places holds the weather of some thousand United States stations and
// the towns of the United States, as files of this folder embedded in the
// program. internal/places finds and unpacks them; generate/ makes them.
//
// Stations are typical years of the TMY3 set of the National Solar Radiation
// Data Base: S. Wilcox and W. Marion, Users Manual for TMY3 Data Sets,
// NREL/TP-581-43156 (revised May 2008). Towns are from GeoNames
// (geonames.org), Creative Commons Attribution 4.0. See NOTICE.
package places

import _ "embed"

// Stations is the catalogue: a CSV table with one line a station, in the order
// of the blocks in Pack. The column bytes says how long a station's block is.
//
//go:embed stations.csv
var Stations string

// Pack is the blocks of all stations one behind the other, each the year of one
// station as internal/places/columns writes it.
//
//go:embed stations.pack
var Pack string

// Towns is a CSV table of populated places of 500 people or more.
//
//go:embed towns.csv
var Towns string
