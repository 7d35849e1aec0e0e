#!/usr/bin/env bash
# Runs every fuzz target for the same time, FUZZTIME (default 16s: about three
# minutes in all). A finding is kept under testdata/fuzz of its package, fails
# this run, and every later test run until it is mended. Inputs that are only new
# are made smaller for a second, not for the usual minute, which is spent better.
set -euo pipefail
cd "$(dirname "$0")/.."

log=$(mktemp)
trap 'rm -f "$log"' EXIT

# out_of_time tells whether a target failed by nothing but the end of its time: up
# to Go 1.26 the program that leads the workers may take its own deadline for a
# failure, the more so on a busy machine (golang/go#75804, mended in Go 1.27). A
# finding, a hang among them, always comes with the input that made it.
out_of_time() {
	grep -qx ' *context deadline exceeded' "$log" && ! grep -q 'Failing input written' "$log"
}

grep -rn --include='*_test.go' -o '^func Fuzz[A-Za-z]*' internal | while IFS=: read -r file _ target; do
	target=${target#func }
	printf '== %s %s, %s\n' "$(dirname "$file")" "$target" "${FUZZTIME:=16s}"
	if ! go test "./$(dirname "$file")" -run '^$' -fuzz "^$target\$" -fuzztime "$FUZZTIME" -fuzzminimizetime 1s </dev/null 2>&1 | tee "$log"; then
		out_of_time || exit 1
		echo "no finding: the time was over (golang/go#75804)"
	fi
done
