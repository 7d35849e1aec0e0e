#!/usr/bin/env bash
# Pictures of every sheet as it prints, in out/pictures: the sample and, where
# the real weather files are, a site that fits and one that does not. The
# sample's go into docs/pictures, with the first page of the others. With the
# word tutorials: only the pictures that the tutorials show.
set -euo pipefail
cd "$(dirname "$0")/.."

weather=../shared/weather
mkdir -p out
go build -o out/evapbook ./cmd/evapbook

# book NAME SHEETS [argument of write...]
book() {
	local name=$1 keep=$2 prefix=$1-
	shift 2
	[[ $name == sample ]] && prefix=""
	out/evapbook write --force --quiet -o "out/$name.xlsx" "$@"
	echo "$name:"
	go run ./tools/pictures -out "out/pictures/$name" -keep "$keep" -prefix "$prefix" "out/$name.xlsx"
}

if [[ ${1-} == tutorials ]]; then
	book reno "Answer" --place "Reno, NV" --floor-area 1600ft2 --for customer
	book houston "Answer" --place "Houston, TX" --floor-area 1600ft2 --for customer
	book lascruces "Hot weeks" --place "Las Cruces, NM" --floor-area 1600ft2 --for customer
	sed -n '/^```toml/,/^```/{/^```/d;s,"logo.png","../docs/pictures/offer-logo.png",;p}' docs/salesperson.md >out/house.toml
	book offer "Answer,Options" --job out/house.toml --for customer
	book engineer "Working" --place "Grand Junction, CO"
	rm -f docs/pictures/engineer-Working-2.png
	exit
fi
book sample "Answer,Options,Inputs,Money,Months,Heat map,Hot weeks,Air chart,Sizing,Bins,Water,What if,Start-up,Methods"
if [[ -d $weather ]]; then
	book fit "Answer,Options" "$weather/tmy3-albuquerque-nm.csv"
	book poor "Answer,Heat map" "$weather/epw-miami-fl.epw" --units si
else
	echo "no $weather: the two real sites are left out"
fi
