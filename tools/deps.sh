#!/usr/bin/env bash
# Installs what the checks need beside Go: on Debian as root the packages below,
# and where npm is present what tools/readers and tools/pagetest need of it. Elsewhere it only says
# what is missing; the checks that need it then skip, loudly.
set -euo pipefail
cd "$(dirname "$0")"

packages=(libreoffice-calc python3-uno python3-openpyxl gnumeric poppler-utils python3-lxml python3-jsonschema
	fonts-crosextra-carlito pngquant chromium nodejs npm)

# chromium, node and npm may have come another way than from Debian.
missing=()
for p in "${packages[@]}"; do
	case $p in
	chromium) command -v chromium >/dev/null && continue ;;
	nodejs) command -v node >/dev/null && continue ;;
	npm) command -v npm >/dev/null && continue ;;
	esac
	dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'ok installed' || missing+=("$p")
done

if ((${#missing[@]})); then
	if [[ $(id -u) == 0 ]] && command -v apt-get >/dev/null; then
		echo "installing: ${missing[*]}"
		export DEBIAN_FRONTEND=noninteractive
		{ apt-get -qq update && apt-get -qq install -y --no-install-recommends "${missing[@]}"; } >/dev/null ||
			echo "not installed: ${missing[*]}"
	else
		echo "missing, by their Debian names: ${missing[*]}"
		echo "hint: sudo apt-get install ${missing[*]}"
	fi
fi

if ! command -v npm >/dev/null; then
	echo "missing: npm, so no SheetJS, no TypeScript, no axe-core"
else
	for folder in readers pagetest; do
		[[ $folder/node_modules/.package-lock.json -nt $folder/package-lock.json ]] ||
			npm ci --prefix "$folder" --ignore-scripts --no-audit --no-fund --silent || echo "not installed: what tools/$folder/package.json lists"
	done
fi
