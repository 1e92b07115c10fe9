# Threepost. `make help` lists the targets. All need Go and nothing else, but
# test-page, which needs what `make browser` installs, and test-wasm, which runs
# the tests as WebAssembly under Node.

GO      ?= go
export CGO_ENABLED = 0
VERSION ?= $(shell git describe --always --dirty 2>/dev/null || echo unknown)
SAMPLE  ?= testdata/loads/studio.toml
WASM_EXEC = $$($(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
# What must come out alike on every processor: all tests of the first, and the
# plans and answers of the second.
ALIKE = ./geometry/... ./layout/clearance
ALIKE_GOLDEN = -run 'Golden|Oracle|Law' ./layout/planner ./cmd/internal/desk
# The page's program is fetched before it runs: without inlining it is 0.35 MB
# smaller. What is asked at every move of a hand keeps it.
WASM_FLAGS = -gcflags=all=-l -gcflags=runtime= -gcflags=strconv= -gcflags=threepost/geometry/...= \
  -gcflags=threepost/layout/clearance= -gcflags=threepost/layout/packing= -gcflags=threepost/render/scene= \
  -gcflags=github.com/go-gl/mathgl/mgl64=
FUZZTIME ?= 30s
AXE       = build/axe/package/axe.min.js

.DEFAULT_GOAL := help
.PHONY: help run demo viewport build test test-page browser test-long test-v3 test-wasm check bench fuzz dist clean

help: ## list the targets
	@awk -F':.*## ' '/^[a-z-]+:.*## / {printf "  make %-10s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

run: build ## open the page with a planned sample load (Ctrl-C ends it)
	@mkdir -p build/run
	@[ -e build/run/studio.toml ] || cp testdata/loads/reference/studio.toml build/run/studio.toml
	build/threepost open build/run/studio.toml

demo: build ## plan the sample studio load, check it, write its sheet to build/demo
	@mkdir -p build/demo
	cp $(SAMPLE) build/demo/studio.toml
	build/threepost plan build/demo/studio.toml
	build/threepost check build/demo/studio.toml
	build/threepost sheet build/demo/studio.toml --out build/demo/studio.pdf
	@echo "The sheet is build/demo/studio.pdf"

viewport: ## the page's program as WebAssembly, into assets/page/built
	@mkdir -p build
	@t=build/viewport.$$$$; set -e; trap 'rm -f '$$t'*' EXIT; \
	  echo "GOOS=js GOARCH=wasm $(GO) build ./cmd/viewport"; \
	  GOOS=js GOARCH=wasm $(GO) build -trimpath $(WASM_FLAGS) -ldflags "-s -w" -o $$t ./cmd/viewport; \
	  gzip -9 -n -c $$t > $$t.gz; \
	  cmp -s $$t.gz assets/page/built/viewport.wasm.gz || mv $$t.gz assets/page/built/viewport.wasm.gz
	@cmp -s "$$($(GO) env GOROOT)/lib/wasm/wasm_exec.js" assets/page/built/wasm_exec.js || install -m 644 "$$($(GO) env GOROOT)/lib/wasm/wasm_exec.js" assets/page/built/wasm_exec.js

build: viewport ## build/threepost for this machine
	@mkdir -p build
	$(GO) build -trimpath -o build/threepost ./cmd/threepost

test: viewport ## all tests; those of the page run when a browser is there
	$(GO) test ./...

test-page: viewport ## the tests of the page in a browser, told one by one
	$(GO) test -count=1 -v ./cmd/internal/pagetest

browser: ## install what the page's tests need: Chromium from Debian, axe-core from npm
	@sudo=; [ "$$(id -u)" = 0 ] || sudo=sudo; set -e; \
	found=$$THREEPOST_BROWSER; \
	for b in chromium chromium-browser google-chrome google-chrome-stable; do [ -n "$$found" ] || found=$$(command -v $$b || true); done; \
	if [ -z "$$found" ]; then \
	  $$sudo apt-get update -q; $$sudo apt-get install -y -q --no-install-recommends chromium; fi; \
	if [ ! -f $(AXE) ]; then \
	  command -v npm >/dev/null || { $$sudo apt-get update -q; $$sudo apt-get install -y -q --no-install-recommends npm; }; \
	  mkdir -p build/axe; cd build/axe; npm pack --silent axe-core@4.12.0; tar xzf axe-core-4.12.0.tgz package/axe.min.js; fi

test-long: ## the long sweeps too, test-v3, and test-wasm when Node is there
	THREEPOST_LONG=1 $(GO) test -timeout 60m -v ./... | grep -v '^=== '
	$(MAKE) test-v3
	$(MAKE) test-wasm

test-v3: ## the same tests as test-wasm, compiled for newer x86 processors (GOAMD64=v3)
	@[ "$$($(GO) env GOARCH)" = amd64 ] || { echo "GOAMD64 is for x86; this is $$($(GO) env GOARCH)."; exit 1; }
	GOAMD64=v3 $(GO) test $(ALIKE)
	GOAMD64=v3 $(GO) test $(ALIKE_GOLDEN)

test-wasm: ## geometry, checks, the golden plan and the page's answers as WebAssembly (needs Node)
	@command -v node >/dev/null || { echo "Node is not on the path; install it to run the WebAssembly tests."; exit 1; }
	GOOS=js GOARCH=wasm $(GO) test -exec "$(WASM_EXEC)" $(ALIKE)
	GOOS=js GOARCH=wasm $(GO) test -exec "$(WASM_EXEC)" $(ALIKE_GOLDEN)

check: ## gofmt, vet (native and WebAssembly), staticcheck, layers, no fused arithmetic
	@out=$$(gofmt -l cmd layout geometry render assets); [ -z "$$out" ] || { echo "gofmt these: $$out"; exit 1; }
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./...
	$(GO) tool staticcheck ./...
	$(GO) test ./cmd/internal/tree
	$(GO) run ./cmd/internal/fused ./geometry/... ./layout/...

bench: ## the benchmarks of the budgets
	$(GO) test -run '^$$' -bench . -benchmem ./...

fuzz: ## every fuzz target for FUZZTIME (30s)
	@set -e; for pkg in $$($(GO) list ./...); do \
	  for f in $$($(GO) test -list '^Fuzz' $$pkg 2>/dev/null | grep '^Fuzz' || true); do \
	    echo "$$pkg $$f"; $(GO) test -run '^$$' -fuzz "^$$f$$" -fuzztime $(FUZZTIME) $$pkg; \
	  done; done

dist: viewport ## one static file each for Linux, Windows and macOS in dist/
	@mkdir -p dist
	@set -e; for t in linux/amd64 linux/arm64 windows/amd64 windows/arm64 darwin/amd64 darwin/arm64; do \
	  os=$${t%/*}; arch=$${t#*/}; ext=; [ $$os = windows ] && ext=.exe; \
	  echo dist/threepost-$$os-$$arch$$ext; \
	  GOOS=$$os GOARCH=$$arch $(GO) build -trimpath -ldflags "-s -w -X main.version=$(VERSION)" -o dist/threepost-$$os-$$arch$$ext ./cmd/threepost; \
	done

clean: ## remove build/ and dist/
	rm -rf build dist
