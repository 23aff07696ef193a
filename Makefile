# make drill   set up, build, and open the window
# make test    set up, and run every check (what .ci/run calls)
# make long    the full numbers: long fuzzing, many seeds; writes testdata/reports
.PHONY: drill build test long vet

GO ?= go
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2
GOFUMPT = mvdan.cc/gofumpt@v0.12.0
GOVULNCHECK = golang.org/x/vuln/cmd/govulncheck@v1.9.0

drill:
	@.ci/packages build
	@$(MAKE) --no-print-directory build
	@build/leastwatt

build:
	@mkdir -p build
	$(GO) build -o build/leastwatt .
	@[ "$$(uname -s)" != Linux ] || $(GO) build -o build/leastwatt-window ./game/window/program

test:
	@.ci/packages test
	@$(MAKE) --no-print-directory vet
	CGO_ENABLED=0 GOOS=windows GOARCH=amd64 $(GO) build -o build/leastwatt.exe .
	CGO_ENABLED=0 GOOS=js GOARCH=wasm $(GO) build -o build/leastwatt.wasm .
	CGO_ENABLED=0 $(GO) build ./cases/... ./scoring/... ./game/skin ./game/ui ./game/screen ./game/plain ./game/verb ./game/keep ./game/sitting .
	$(GO) test -timeout 14m ./...

vet:
	@test -z "$$($(GO) run $(GOFUMPT) -l .)" || { echo "gofumpt would change:"; $(GO) run $(GOFUMPT) -l .; exit 1; }
	$(GO) vet ./...
	$(GO) run $(STATICCHECK) ./...
	@.ci/vulnerabilities $(GOVULNCHECK)

long:
	@.ci/packages test
	@.ci/long
