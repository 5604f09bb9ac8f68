#!/bin/sh
# Every check there is: lint, types, import contract, tests, the API contract, drift of the OpenAPI document.
# Needs python3 (3.11 or later) with pip and venv; arguments go to pytest. Tests that need more (Chromium, Node 20 with npm,
# curl and jq, nginx) are skipped where it is missing, but not in CI. Instead of all that:
#   --lowest   the contract, routes, words and commands at the lower bounds of the dependencies (tests/lowest.txt); some
#              minutes. What follows goes to pytest
#   --deploy   build the image and run it (needs root and Debian's buildah and debootstrap; a minute or two)
#   --long     bad input: 100,000 requests made by chance for each operation, and more by other ways; an hour on two cores.
#              What follows goes to tests/long/run.py: `--long --requests 1000`
set -eu
cd "$(dirname "$0")/.."

# The Python that the image has, so that the tests run what is deployed; where it is not to be had, the one there is.
minor=$(sed -n 's/^ARG BASE=python:\(3\.[0-9]*\)-.*/\1/p' deploy/Containerfile)
python() {
    if command -v pyenv >/dev/null && found=$(PYENV_VERSION=$minor pyenv prefix 2>/dev/null); then
        echo "$found/bin/python3"
    else
        command -v "python$minor" || command -v python3
    fi
}

requirements=tests/requirements.txt
if [ "${1:-}" = --lowest ]; then
    shift
    lowest=tests/lowest.txt
    stamp=.venv/lowest/.requirements
    wanted=$(cat "$requirements" "$lowest" pyproject.toml | cksum)
    if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
        [ -x .venv/lowest/bin/python ] || python3 -m venv .venv/lowest
        .venv/lowest/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$requirements"
        .venv/lowest/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes --no-deps -r "$lowest"
        .venv/lowest/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --editable .
        .venv/lowest/bin/python -m pip check
        echo "$wanted" >"$stamp"
    fi
    exec .venv/lowest/bin/python -m pytest -n 2 tests/contract tests/web tests/wording tests/test_*.py "$@"
fi

stamp=.venv/.requirements-tests
wanted=$(cat "$requirements" pyproject.toml | cksum)
if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
    [ -x .venv/bin/python ] || "$(python)" -m venv .venv
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$requirements"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --editable .
    echo "$wanted" >"$stamp"
fi

# What checks the deployment has an environment of its own: its pins are not those of the tests.
tools=tests/deploy/requirements.txt
stamp=.venv/tools/.requirements
wanted=$(cksum <"$tools")
if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
    [ -x .venv/tools/bin/python ] || python3 -m venv .venv/tools
    .venv/tools/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$tools"
    echo "$wanted" >"$stamp"
fi

# Generators of clients, linters of the document, axe-core, and what the TypeScript example stands on.
if command -v npm >/dev/null; then
    for folder in tests/clients examples/mobile-backend; do
        stamp=$folder/node_modules/.requirements
        wanted=$(cksum <"$folder/package-lock.json")
        if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
            npm ci --prefix "$folder" --ignore-scripts --no-audit --no-fund --loglevel=error
            echo "$wanted" >"$stamp"
        fi
    done
fi

if [ "${1:-}" = --deploy ]; then
    exec .venv/bin/python -m pytest tests/deploy/image.py -v
fi

if [ "${1:-}" = --long ]; then
    shift
    failed=0
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r tests/long/requirements.txt ||
        echo "atheris does not install here; the runs by coverage are left out"
    ROUNDWRIGHT_TEST_EXAMPLES=500 ROUNDWRIGHT_TEST_SEED=2 ROUNDWRIGHT_TEST_HATS=5000 \
        .venv/bin/python -m pytest -s tests/contract/test_generated.py tests/long/test_bad_input.py || failed=1
    .venv/bin/python -m tests.long.by_coverage || failed=1
    .venv/bin/python -m tests.long.run "$@" || failed=1
    exit "$failed"
fi

.venv/bin/ruff check
.venv/bin/ruff format --check
.venv/bin/mypy --strict
.venv/bin/lint-imports
exec .venv/bin/python -m pytest -n 2 "$@"
