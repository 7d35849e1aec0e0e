package reading

// Cautions are those of anybody who opens a cooler on a roof. Local codes and
// licensed trades come before them.
var Cautions = []string{
	"switch the power off and prove it off before reaching in; ladder, roof edge, wind and heat first (local rules and licensed trades decide)",
}
