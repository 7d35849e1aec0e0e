#!/usr/bin/env bash
# Runs all tests and says what was skipped; with EVAPBOOK_NO_SKIP=1 a skipped
# test counts as failed. "test.sh programs" runs what is left out otherwise and
# takes minutes: the page in a real browser, the tools around LibreOffice, every
# command that stands in the docs, every public station, and the race detector.
# That makes a run up to ten times as long, so it looks at one test of each place
# that starts goroutines: many sites at once, the writer of a workbook, and the
# command with both.
#
# Else two runs side by side. One holds the packages that work formulas out or
# drive an office program, and the command itself; the other all the rest.
set -uo pipefail
cd "$(dirname "$0")/.."

mkdir -p out
go build -o out/testreport ./tools/testreport || exit
programs=(./tools/pagetest ./tools/recalc ./tools/pictures ./docs)
race() {
	[[ $(go env CGO_ENABLED) == 1 ]] && command -v gcc >/dev/null || return 0
	go test -json -race -run 'TestWorkersDoNotChangeABit|TestAStoppedRun|TestAnErrorOfKeep' ./internal/ranking
	go test -json -race -run 'TestSameBytes' ./internal/xlsx
	go test -json -race -run 'TestRank/vary|TestScripts/write-sample' ./internal/cli
}

if [[ ${1-} == programs ]]; then
	{
		go test -json -timeout 20m "${programs[@]}"
		go test -json -tags long -run TestLong ./internal/places
		race
	} 2>&1 | out/testreport
	exit
fi

module=$(go list -m)
uses() { printf '{{range .%s}}{{if or (eq . "%s/internal/officetest") (eq . "%s/internal/evaluator")}}x{{end}}{{end}}' "$1" "$module" "$module"; }
slow=() plain=()
while read -r package mark; do
	case $package in
	*/tools/pagetest | */tools/recalc | */tools/pictures | */docs) continue ;;
	*/internal/officetest | */internal/cli) mark=x ;;
	esac
	if [[ $mark ]]; then slow+=("$package"); else plain+=("$package"); fi
done < <(go list -f "{{.ImportPath}} $(uses TestImports)$(uses XTestImports)" ./...)

{
	go test -json -timeout 20m "${slow[@]}" >out/slow.json 2>&1 &
	go test -json -timeout 20m "${plain[@]}"
	wait
	cat out/slow.json
} 2>&1 | out/testreport
