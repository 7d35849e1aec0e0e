#!/usr/bin/env bash
# Runs all tests and says what was skipped; with EVAPBOOK_NO_SKIP=1 a skipped
# test counts as failed.
#
# Two runs side by side: packages that work formulas out or drive an office
# program, and the command itself, without the race detector, which would make
# them several times as long; all others with it. The command's one script that
# has everything at once run in parallel follows with the race detector.
set -uo pipefail
cd "$(dirname "$0")/.."

module=$(go list -m)
uses() { printf '{{range .%s}}{{if or (eq . "%s/internal/office") (eq . "%s/internal/evaluator")}}x{{end}}{{end}}' "$1" "$module" "$module"; }
slow=() plain=()
while read -r package mark; do
	case $package in
	*/internal/office | */internal/cli) mark=x ;;
	esac
	if [[ $mark ]]; then slow+=("$package"); else plain+=("$package"); fi
done < <(go list -f "{{.ImportPath}} $(uses TestImports)$(uses XTestImports)" ./...)

race=()
[[ $(go env CGO_ENABLED) == 1 ]] && command -v gcc >/dev/null && race=(-race)

mkdir -p out
go build -o out/testreport ./tools/testreport || exit
go test -json -timeout 20m "${slow[@]}" >out/slow.json 2>&1 &
{
	go test -json ${race[@]+"${race[@]}"} "${plain[@]}"
	[[ ${race[*]-} ]] && go test -json -race -run 'TestRank/vary' ./internal/cli
	wait
	cat out/slow.json
} 2>&1 | out/testreport
