#!/usr/bin/env bash
# Makes the files of one system from the commit that is checked out, twice: in
# two folders, the second time with an empty build cache. Both must be the same
# byte for byte. Checks the SBOM, then starts the program from the archive and
# from the package.
set -euo pipefail
cd "$(dirname "$0")/.."

work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
arch=$(go env GOARCH)
nfpm=$(sed -n 's/^const nfpm = "\(.*\)"$/\1/p' tools/release/packages.go)
GOBIN=$work go install "$nfpm"
export NFPM=$work/nfpm

cyclonedx=github.com/CycloneDX/cyclonedx-go@v0.9.3

skipped() { # loudly; where nothing may be skipped this ends the run
	echo "SKIPPED: $1" >&2
	[[ ${EVAPBOOK_NO_SKIP:-} != 1 ]]
}

make_in() { # a folder of its own for the clone
	git clone -q . "$1"
	(cd "$1" && go run ./tools/release -targets "linux/$arch" -page=false -o out/release)
}
make_in "$work/first"
GOCACHE=$work/cache make_in "$work/another folder"
cmp "$work/first/out/release/SHA256SUMS" "$work/another folder/out/release/SHA256SUMS"

cd "$work/first/out/release"
sha256sum --check --quiet SHA256SUMS
# The SBOM against the schema of its standard, which a module has with it.
schemas=$(go mod download -json "$cyclonedx" | sed -n 's/^\t"Dir": "\(.*\)",$/\1/p')/schema
if /usr/bin/python3 -c 'import jsonschema' 2>/dev/null; then
	/usr/bin/python3 "$work/first/tools/release/bomcheck.py" "$schemas" ./*.cdx.json
else
	skipped "no python3-jsonschema: the SBOM was not checked against its schema"
fi
try() { # a program: does it start, and write?
	"$1" version
	"$1" write -q -o "$work/book.xlsx" --force
	cmp "$work/book.xlsx" "$2"
}
tar -xzf ./*.tar.gz -C "$work"
try "$work"/evapbook-*/evapbook "$work"/evapbook-*/sample.xlsx
if command -v dpkg-deb >/dev/null; then
	dpkg-deb -x ./*.deb "$work/deb"
	try "$work/deb/usr/bin/evapbook" "$work/deb/usr/share/doc/evapbook/sample.xlsx"
else
	skipped "no dpkg-deb: the package was not looked into"
fi
