# polestead: two commands matter, `make demo` and `make test`.  All else is for those who work on it.
PYTHON ?= python3
BIN := .venv/bin
SIDE_BY_SIDE := -n auto --maxprocesses 4 --dist worksteal
export UV_SYSTEM_CERTS := 1
export UV_PYTHON_DOWNLOADS := never
export PYTHONWARNINGS :=

.PHONY: oracles demo test check fast fmt lint bench snapshots validation lock serve clean setup dev browser

demo: setup          ## set up, answer the first demo homestead, write out/
	@$(BIN)/polestead answer hollow-spruce --json out/answer.json --pdf out/answer.pdf
	@echo
	@echo "Written: out/answer.json, out/answer.pdf."
	@echo "Go on:   $(BIN)/polestead start my-place.toml   writes a homestead file of your own to fill in;"
	@echo "         $(BIN)/polestead answer my-place.toml  answers it;  $(BIN)/polestead --help  lists the rest."

test: dev browser    ## set up, run every test
	@$(BIN)/python -m pytest -q $(SIDE_BY_SIDE)

check: dev browser   ## format, lint, types, import contracts, tests with doctests, warnings as errors
	@$(BIN)/ruff format --check .
	@$(BIN)/ruff check .
	@$(BIN)/mypy
	@$(BIN)/lint-imports
	@$(BIN)/python -m pytest -q $(SIDE_BY_SIDE)

fast: dev            ## tests without the slow and the browser ones
	@$(BIN)/python -m pytest -q $(SIDE_BY_SIDE) -m "not slow and not browser"

lint: dev
	@$(BIN)/ruff format --check . && $(BIN)/ruff check . && $(BIN)/mypy && $(BIN)/lint-imports

fmt: dev
	@$(BIN)/ruff check --fix -q . ; $(BIN)/ruff format -q .

bench: dev           ## speed, as ratios within one run
	@$(BIN)/python -m benchmarks

snapshots: dev       ## rewrite the reviewed snapshots; read the diff like code
	@$(BIN)/python -m pytest -q tests/whole --snapshots

validation: dev      ## rewrite docs/validation.md from the published checks
	@$(BIN)/python tests/published/page.py

lock:                ## renew the lock files
	@$(PYTHON) -c "import sys; sys.path.insert(0, 'tools'); import setup; setup.private_uv()"
	@.uv/bin/uv pip compile -q --universal --generate-hashes --python-version 3.11 --no-header --no-emit-index-url pyproject.toml -o requirements.lock
	@.uv/bin/uv pip compile -q --universal --generate-hashes --python-version 3.11 --no-header --no-emit-index-url pyproject.toml --group dev -c requirements.lock -o requirements-dev.lock

	@.uv/bin/uv pip compile -q --universal --generate-hashes --python-version 3.11 --no-header --no-emit-index-url pyproject.toml --group dev --group oracles -c requirements-dev.lock -o requirements-oracles.lock

oracles: dev         ## hold steel against a frame library and a section library (600 MB, an environment of its own)
	@.uv/bin/uv venv -q --allow-existing .oracles
	@.uv/bin/uv pip sync -q --python .oracles/bin/python --require-hashes requirements-oracles.lock
	@PYTHONPATH=src .oracles/bin/python -m pytest -q tests/oracles

setup:
	@$(PYTHON) tools/setup.py

dev:
	@$(PYTHON) tools/setup.py --dev

browser:
	@$(PYTHON) tools/setup.py --dev --browser

clean:
	@rm -rf .venv .oracles .uv out
