#!/usr/bin/env bash
# Checks one workbook of each kind: by the rules of Excel that no schema states
# (tools/xlsxlint), and against the schemas of ISO/IEC 29500-4. The schemas are
# not ours to copy: they and the program that reads them lie in
# ../shared/tools/schema where this is developed. Without them this says that
# nothing was checked against them; with EVAPBOOK_NO_SKIP=1 that is a failure.
set -euo pipefail
cd "$(dirname "$0")/.."

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
go build -o "$folder/evapbook" ./cmd/evapbook
"$folder/evapbook" write -q -o "$folder/sample.xlsx"
"$folder/evapbook" write -q --values --units ip -o "$folder/values.xlsx"
"$folder/evapbook" rank testdata/weather -q -o "$folder/sites.xlsx" --allow-gaps || [[ $? == 3 ]]
go run ./tools/xlsxlint "$folder"/*.xlsx

check=../shared/tools/schema/schemacheck.py
if [[ ! -f $check ]] || ! /usr/bin/python3 -c 'import lxml' 2>/dev/null; then
	echo "SKIPPED: no $check, or no python3-lxml: no workbook was checked against the schemas" >&2
	[[ ${EVAPBOOK_NO_SKIP:-} != 1 ]]
	exit
fi
/usr/bin/python3 "$check" "$folder"/*.xlsx
