#!/usr/bin/env bash
# Makes the files of one system from the commit that is checked out, twice: in
# two folders, the second time with an empty build cache. Both must be the same
# byte for byte. Then starts the program from the archive and from the package.
set -euo pipefail
cd "$(dirname "$0")/.."

work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
arch=$(go env GOARCH)
nfpm=$(sed -n 's/^const nfpm = "\(.*\)"$/\1/p' tools/release/packages.go)
GOBIN=$work go install "$nfpm"
export NFPM=$work/nfpm

make_in() { # a folder of its own for the clone
	git clone -q . "$1"
	(cd "$1" && go run ./tools/release -targets "linux/$arch" -page=false -o out/release)
}
make_in "$work/first"
GOCACHE=$work/cache make_in "$work/another folder"
cmp "$work/first/out/release/SHA256SUMS" "$work/another folder/out/release/SHA256SUMS"

cd "$work/first/out/release"
sha256sum --check --quiet SHA256SUMS
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
	echo "SKIPPED: no dpkg-deb: the package was not looked into" >&2
	[[ ${EVAPBOOK_NO_SKIP:-} != 1 ]]
fi
