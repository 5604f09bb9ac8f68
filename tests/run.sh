#!/bin/sh
# Every check there is: lint, types, import contract, tests, the API contract, drift of the OpenAPI document.
# Needs python3 (3.11 or later) with pip and venv; arguments go to pytest.
set -eu
cd "$(dirname "$0")/.."

requirements=tests/requirements.txt
stamp=.venv/.requirements-tests
wanted=$(cat "$requirements" pyproject.toml | cksum)
if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
    [ -x .venv/bin/python ] || python3 -m venv .venv
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$requirements"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --editable .
    echo "$wanted" >"$stamp"
fi

.venv/bin/ruff check
.venv/bin/ruff format --check
.venv/bin/mypy --strict
.venv/bin/lint-imports
exec .venv/bin/python -m pytest -n 2 "$@"
