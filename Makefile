# The only targets: see docs/verification.md for what the checks are.
BOOK ?= out/season.xlsx
STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.8.2

.PHONY: build page release release-check notice test programs lint fmt deps recalc bench pictures tutorials docs mutants fuzz

build: ## the program, ./evapbook
	CGO_ENABLED=0 go build -trimpath -o evapbook ./cmd/evapbook

page: ## the page for a browser, a static folder: out/page
	go run ./tools/buildpage -o out/page

release: ## what people download, for all systems: out/release (docs/release.md)
	go run ./tools/release -o out/release

release-check: ## one system's files made twice: the same bytes; and do they start?
	tools/releasecheck.sh

notice: ## the modules that are linked, into NOTICE
	go run ./tools/release -notice

test: deps lint ## all that can be checked in minutes on this machine
	tools/test.sh

programs: deps ## the page in a real browser, the tools around LibreOffice, every command in the docs, every station, the race detector
	tools/test.sh programs

lint: ## formatting, vet, staticcheck
	@test -z "$$(gofmt -l .)" || { echo "not formatted; hint: make fmt"; gofmt -l .; exit 1; }
	go vet ./...
	go vet -tags long ./internal/workbook ./internal/places
	go run $(STATICCHECK) ./...

fmt:
	gofmt -w .

deps: ## LibreOffice and the other readers, where they can be installed
	tools/deps.sh

recalc: $(BOOK) ## BOOK's formulas, worked out by two other programs; the long sets; changed inputs, into docs/recalculation.md
	go run ./tools/recalc -gnumeric -readers $(BOOK)
	go test -tags long ./internal/workbook -count=1 -timeout 30m -run TestLong -recalc-table=$(CURDIR)/docs/recalculation.md
	@sed -n '/<!-- cases/,/<!-- end/p' docs/recalculation.md

pictures: ## every sheet as it prints, in out/pictures; the best of them into docs/pictures
	tools/gallery.sh

tutorials: ## the pictures of the tutorials and what their commands print, into docs; read the difference
	tools/gallery.sh tutorials
	go test ./docs -run TestCommands -update

out/season.xlsx: FORCE ## the sample's workbook
	@mkdir -p out
	go run ./cmd/evapbook write --force -o $@
.PHONY: FORCE

mutants: ## small faults planted in the calculation, one at a time: do the quick tests see them?
	go run ./tools/mutants $(MUTANTS)

fuzz: ## every fuzz target for FUZZTIME (16s: about three minutes in all)
	tools/fuzz.sh

bench: ## times and memory of the hot paths
	go test -run '^$$' -bench . -benchmem ./...

docs: ## docs/commands.md and docs/inputs.md, from the program itself
	go run ./docs/inputs_gen
	tools/commands.sh > docs/commands.md
