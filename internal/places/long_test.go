//go:build long

package places

import "testing"

// Every station that is offered can be read.
func TestLongEveryStationReads(t *testing.T) { readStations(t, 1) }
