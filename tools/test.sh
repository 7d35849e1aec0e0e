#!/usr/bin/env bash
# Runs all tests and says what was skipped; with EVAPBOOK_NO_SKIP=1 a skipped
# test counts as failed.
#
# Two runs side by side. One holds the packages that work formulas out or drive
# an office program, and the command itself; the other all the rest. Packages
# that start goroutines of their own (they import sync or errgroup) run a second
# time with the race detector, and so does the command's one script that has
# everything at once run in parallel: for the others it could find nothing and
# would make them ten times as long.
set -uo pipefail
cd "$(dirname "$0")/.."

module=$(go list -m)
uses() { printf '{{range .%s}}{{if or (eq . "%s/internal/officetest") (eq . "%s/internal/evaluator")}}x{{end}}{{end}}' "$1" "$module" "$module"; }
slow=() plain=()
while read -r package mark; do
	case $package in
	*/internal/officetest | */internal/cli) mark=x ;;
	esac
	if [[ $mark ]]; then slow+=("$package"); else plain+=("$package"); fi
done < <(go list -f "{{.ImportPath}} $(uses TestImports)$(uses XTestImports)" ./...)

race=()
if [[ $(go env CGO_ENABLED) == 1 ]] && command -v gcc >/dev/null; then
	mapfile -t race < <(go list -f '{{.ImportPath}}{{range .Imports}}{{if or (eq . "sync") (eq . "golang.org/x/sync/errgroup")}} x{{end}}{{end}}' ./... |
		sed -n 's/ x.*//p' | grep -v -e /internal/cli -e /internal/places$ -e /tools/)
fi

mkdir -p out
go build -o out/testreport ./tools/testreport || exit
go test -json -timeout 20m "${slow[@]}" >out/slow.json 2>&1 &
{
	go test -json -timeout 20m "${plain[@]}"
	if [[ ${race[*]-} ]]; then
		go test -json -race -timeout 20m "${race[@]}"
		go test -json -race -run 'TestRank/vary' ./internal/cli
	fi
	wait
	cat out/slow.json
} 2>&1 | out/testreport
