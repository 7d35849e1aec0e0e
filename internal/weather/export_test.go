package weather

// StateZone is a station's standard time by its state, for tests that know more
// stations than this package.
func StateZone(s Station) (offset float64, ok bool) { return s.stateZone() }
