#!/usr/bin/env bash
# Runs all tests: with the race detector, except in the packages that drive an
# office program, where it would only slow the waiting. Then says what was
# skipped. With EVAPBOOK_NO_SKIP=1 a skipped test counts as failed.
set -uo pipefail
cd "$(dirname "$0")/.."

usesOffice='{{range .TestImports}}{{if eq . "github.com/evapbook/evapbook/internal/office"}}x{{end}}{{end}}{{range .XTestImports}}{{if eq . "github.com/evapbook/evapbook/internal/office"}}x{{end}}{{end}}'
office=internal/office
plain=() driving=()
while read -r package mark; do
	if [[ $mark || $package == */$office ]]; then driving+=("$package"); else plain+=("$package"); fi
done < <(go list -f "{{.ImportPath}} $usesOffice" ./...)

race=()
[[ $(go env CGO_ENABLED) == 1 ]] && command -v gcc >/dev/null && race=(-race)

mkdir -p out
go build -o out/testreport ./tools/testreport || exit
{
	go test -json ${race[@]+"${race[@]}"} "${plain[@]}"
	((${#driving[@]})) && go test -json -timeout 20m "${driving[@]}"
} 2>&1 | out/testreport
