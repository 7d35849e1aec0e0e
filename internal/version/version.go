// Package version says which evapbook this is.
package version

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// release and date are set by release builds, with the flags of Linker.
var release, date string

// Linker is the flags for go build -ldflags that state a release and its date.
func Linker(release, date string) string {
	const at = "github.com/evapbook/evapbook/internal/version"
	return fmt.Sprintf("-X %s.release=%s -X %s.date=%s", at, release, at, date)
}

// Text is the release, else the module's version or revision, else
// "development".
func Text() string {
	if release != "" {
		return release
	}
	return ofModule()
}

// ofModule is read once: it parses all that the build says of itself.
var ofModule = sync.OnceValue(func() string {
	info, ok := debug.ReadBuildInfo()
	if ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "development"
})

// Date is the day, in UTC, of the commit this was built from, as 2026-05-01;
// empty where the build does not know it.
func Date() string {
	if date != "" {
		return date
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.time" && len(s.Value) >= len("2006-01-02") {
				return s.Value[:len("2006-01-02")]
			}
		}
	}
	return ""
}
