#!/usr/bin/env bash
# Prints the program's own help, command by command, as Markdown.
set -euo pipefail
cd "$(dirname "$0")/.."
mkdir -p out
go build -o out/evapbook ./cmd/evapbook

section() { # title, then the arguments that print its help
	printf '\n## %s\n\n```text\n' "$1"
	shift
	out/evapbook "$@"
	printf '```\n'
}

printf '# Commands\n\nThe text of `evapbook COMMAND --help`, put here by `make docs`.\n'
section evapbook --help
out/evapbook --help | awk '/^Available Commands:/ {on = 1; next} !NF {on = 0} on {print $1}' |
	while read -r command; do
		case $command in help | completion) continue ;; esac
		section "evapbook $command" "$command" --help
	done
