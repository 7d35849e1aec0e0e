package main

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// origin is the commit a release is made from.
type origin struct {
	version string    // its tag, else as Go names a commit without one: v0.0.0-20260501120000-0123456789ab
	date    time.Time // of the commit
}

// originOf asks git about the folder's commit. SOURCE_DATE_EPOCH, seconds since
// 1970, and EVAPBOOK_VERSION state it where there is no git.
// Source: reproducible-builds.org, SOURCE_DATE_EPOCH.
func originOf(folder string) (origin, error) {
	o := origin{version: os.Getenv("EVAPBOOK_VERSION")}
	seconds := os.Getenv("SOURCE_DATE_EPOCH")
	if seconds == "" {
		var err error
		if seconds, err = git(folder, "log", "-1", "--format=%ct"); err != nil {
			return o, err
		}
	}
	n, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		return o, fmt.Errorf("SOURCE_DATE_EPOCH: %q is no number of seconds", seconds)
	}
	o.date = time.Unix(n, 0).UTC()
	if o.version == "" {
		o.version, err = versionOf(folder, o.date)
	}
	return o, err
}

func versionOf(folder string, date time.Time) (string, error) {
	revision, err := git(folder, "rev-parse", "HEAD")
	if err != nil {
		return "", err
	}
	version := fmt.Sprintf("v0.0.0-%s-%.12s", date.Format("20060102150405"), revision)
	if tag, err := git(folder, "describe", "--tags", "--exact-match", "--match", "v[0-9]*"); err == nil {
		version = tag
	}
	changed, err := git(folder, "status", "--porcelain", "--untracked-files=no")
	if changed != "" {
		version += "+changed"
	}
	return version, err
}

func git(folder string, args ...string) (string, error) {
	out, err := exec.Command("git", append([]string{"-C", folder}, args...)...).Output()
	if err != nil {
		return "", fmt.Errorf("git %s: %w; a release is made from a commit, or from what SOURCE_DATE_EPOCH and EVAPBOOK_VERSION state", args[0], err)
	}
	return strings.TrimSpace(string(out)), nil
}

// number is the version as file names have it: without v.
func (o origin) number() string { return strings.TrimPrefix(o.version, "v") }

// packaged is the version as packages order it: what comes before a release
// sorts before it.
func (o origin) packaged() string {
	return strings.NewReplacer("-", "~", "+", ".").Replace(o.number())
}
