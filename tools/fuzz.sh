#!/usr/bin/env bash
# Runs every fuzz target for the same time, FUZZTIME (default 16s: about three
# minutes in all). A finding is kept under testdata/fuzz of its package, fails
# this run, and every later test run until it is mended. Inputs that are only new
# are made smaller for a second, not for the usual minute, which is spent better.
set -euo pipefail
cd "$(dirname "$0")/.."

grep -rn --include='*_test.go' -o '^func Fuzz[A-Za-z]*' internal | while IFS=: read -r file _ target; do
	target=${target#func }
	printf '== %s %s, %s\n' "$(dirname "$file")" "$target" "${FUZZTIME:=16s}"
	go test "./$(dirname "$file")" -run '^$' -fuzz "^$target\$" -fuzztime "$FUZZTIME" -fuzzminimizetime 1s </dev/null
done
