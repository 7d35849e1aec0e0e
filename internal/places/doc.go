// Package places finds a town or a weather station of the United States the way
// people type it, and gives the typical year of the station whose climate is
// nearest, from data embedded in the program.
//
// Nothing is read before it is asked for: the two tables are parsed at their
// first use, a station's year is unpacked alone.
//
// The years are those of the TMY3 set, 1976 to 2005 and mostly 1991 to 2005:
// summers since then have mostly been warmer. Stations whose values were seen
// to be wrong are left out; data/places/generate names them.
package places
