# The two that matter: `make demo` and `make test`. Nothing but Python 3.11 or later and make is needed beforehand.
PY ?= python3
V := .venv
BIN := $(V)/bin

# Tests of the page in a real browser run where there is one.
BROWSER := $(shell command -v chromium 2>/dev/null)
ifeq ($(BROWSER),)
TOOLS := requirements/dev.txt
WHICH := -m "not browser"
SAID := "no Chromium on this machine, so the tests of the page in a browser are left out"
else
TOOLS := requirements/browser.txt
WHICH :=
SAID := "tests of the page run in $(BROWSER)"
endif

.PHONY: demo test bench lint lock docs clean

demo: $(V)/.ready
	@$(BIN)/hookwright demo --into sheets

test: $(V)/.ready-tests
	@echo $(SAID)
	@$(BIN)/python -m pytest -n auto $(WHICH)

bench: $(V)/.ready-tests
	@$(BIN)/python benchmarks/run.py

lint: $(V)/.ready-tests
	@$(BIN)/ruff check src tests benchmarks docs
	@$(BIN)/lint-imports

docs: $(V)/.ready
	@$(BIN)/python docs/build.py

# Exact versions with their digests, and no address of any server.
COMPILE := $(BIN)/uv pip compile pyproject.toml --universal --python-version 3.11 --generate-hashes --no-emit-index-url \
	--no-emit-find-links --no-annotate --custom-compile-command "make lock" -q
lock: $(V)/.ready-tests
	@$(BIN)/python -m pip install -q --disable-pip-version-check uv
	@$(COMPILE) --group build -o requirements/run.txt
	@$(COMPILE) --group dev -c requirements/run.txt -o requirements/dev.txt
	@$(COMPILE) --group browser -c requirements/dev.txt -o requirements/browser.txt

# Installed once, and again only when what must be installed has changed.
INSTALL := $(BIN)/python -m pip install -q --disable-pip-version-check

PAGES := hatch_build.py $(wildcard frontend/*.json frontend/*.mjs frontend/src/*.* frontend/src/*/*.*)

$(V)/.ready: requirements/run.txt pyproject.toml $(PAGES)
	@$(PY) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Hookwright needs Python 3.11 or later. Where there is one by another name: make demo PY=python3.12")'
	@test -x $(BIN)/python || $(PY) -m venv $(V)
	@echo "Installing what Hookwright needs into ./$(V) (once; about half a minute)"
	@$(INSTALL) --require-hashes -r requirements/run.txt
	@$(INSTALL) --no-deps --no-build-isolation -e .
	@$(BIN)/python -m compileall -q src  # pip does this for what it copies; what stays where it is would be compiled at every start
	@touch $@

$(V)/.ready-tests: $(TOOLS) $(V)/.ready
	@echo "Installing what the tests need into ./$(V) (once; about half a minute)"
	@$(INSTALL) --require-hashes -r $(TOOLS)
	@touch $@

clean:
	rm -rf $(V) sheets build dist
