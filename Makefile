# The two that matter: `make demo` and `make test`. Nothing but Python 3.11 or later and make is needed beforehand.
PY ?= python3
V := .venv
BIN := $(V)/bin

.PHONY: demo test quick bench lint lock docs clean

demo: $(V)/.ready
	@$(BIN)/hookwright demo --into sheets

test: $(V)/.ready-dev
	@$(BIN)/python -m pytest -n auto

quick: $(V)/.ready-dev
	@$(BIN)/python -m pytest -n auto -x --lf

bench: $(V)/.ready-dev
	@$(BIN)/python benchmarks/run.py

lint: $(V)/.ready-dev
	@$(BIN)/ruff check src tests benchmarks docs
	@$(BIN)/lint-imports

docs: $(V)/.ready-dev
	@$(BIN)/python docs/build.py

lock: $(V)/.ready-dev
	@$(BIN)/python -m pip install -q uv
	@$(BIN)/uv pip compile pyproject.toml --group build $(LOCK) -o requirements/run.txt
	@$(BIN)/uv pip compile pyproject.toml --group dev -c requirements/run.txt $(LOCK) -o requirements/dev.txt

LOCK := --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-emit-find-links --no-annotate --custom-compile-command "make lock" -q

# Made once, and again only when what must be installed has changed.
$(V)/.ready: requirements/run.txt pyproject.toml
	@$(PY) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Hookwright needs Python 3.11 or later; set PY=python3.11 or newer, as in: make demo PY=python3.12")'
	@test -x $(BIN)/python || $(PY) -m venv $(V)
	@echo "Installing what Hookwright needs into ./$(V) (once; about half a minute)"
	@$(BIN)/python -m pip install -q --disable-pip-version-check --require-hashes -r requirements/run.txt
	@$(BIN)/python -m pip install -q --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

$(V)/.ready-dev: requirements/dev.txt $(V)/.ready
	@echo "Installing what the tests need into ./$(V) (once)"
	@$(BIN)/python -m pip install -q --disable-pip-version-check --require-hashes -r requirements/dev.txt
	@touch $@

clean:
	rm -rf $(V) sheets build dist
