# Setline. A bare clone needs Python 3.11 or newer with its venv module, and make.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
STAMP  := $(VENV)/.ready

.PHONY: demo serve test test-core system checks bench gallery lint types lock clean

demo: $(STAMP)  ## plan both sample kitchens, write out/<job>/
	@$(BIN)/python -m setline.cli.demo

serve: $(STAMP)  ## the app at http://localhost:8321/ with both sample kitchens, its data in out/serve
	@$(BIN)/setline serve --folder out/serve --load examples/larkspur-street.toml --load examples/mill-row.toml

test: $(STAMP) system lint types  ## everything CI runs
	$(BIN)/python -m pytest

test-core: $(STAMP)  ## the tests that need nothing from the operating system
	$(BIN)/python -m pytest -m "not system"

system:  ## the browser and the database server that the tests need; installed where root asks
	@tools/system-packages.sh

checks: $(STAMP)  ## the checks against published values, counted by source
	@$(BIN)/python -m pytest -p tests.published.tally

bench: $(STAMP)  ## speeds, as ratios within one run
	@$(BIN)/python -m bench

gallery: $(STAMP) system  ## every picture, sheet and page of the app as PNG, to look at
	@$(BIN)/python -m tests.gallery

lint: $(STAMP)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/codespell --quiet-level 2 src docs tests README.md CHANGELOG.md CONTRIBUTING.md

types: $(STAMP)
	$(BIN)/mypy

$(STAMP): pyproject.toml requirements/build.txt requirements/all.txt
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Setline needs Python 3.11 or newer; PYTHON=/path/to/python3 make ... names another."; exit 2; }
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV) || { echo "This Python has no venv module. On Debian: apt-get install python3-venv"; exit 2; }
	$(BIN)/python -m pip install -q --disable-pip-version-check --require-hashes -r requirements/build.txt
	UV_PYTHON_DOWNLOADS=never $(BIN)/uv pip install -q --python $(BIN)/python --require-hashes -r requirements/all.txt
	UV_PYTHON_DOWNLOADS=never $(BIN)/uv pip install -q --python $(BIN)/python --no-deps --no-build-isolation -e .
	@touch $@

lock: $(STAMP)  ## resolve the dependencies anew, with hashes and no addresses
	$(BIN)/uv pip compile -q --universal --generate-hashes --python-version 3.11 --no-emit-index-url --no-header --group build -o requirements/build.txt
	$(BIN)/uv pip compile -q --universal --generate-hashes --python-version 3.11 --no-emit-index-url --no-header pyproject.toml --group dev -o requirements/all.txt

clean:
	rm -rf $(VENV) out .mypy_cache .ruff_cache .pytest_cache .hypothesis
