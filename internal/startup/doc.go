// Package startup works out what a technician needs for the start-up and the
// close-down of a cooler in one place: openings to let the air out, the supply
// line, and the weeks for both visits.
//
// Values are in SI: m, m², m³/s, Pa, kg/m³, L/h.
package startup
