// Package version says which evapbook this is.
package version

import "runtime/debug"

// release is set by release builds with -ldflags "-X …/internal/version.release=v1.2.3".
var release = ""

// Text is the release, else the module's version or revision, else
// "development".
func Text() string {
	if release != "" {
		return release
	}
	info, ok := debug.ReadBuildInfo()
	if ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "development"
}
