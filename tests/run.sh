#!/bin/sh
# Every check there is: lint, types, import contract, tests, the API contract, drift of the OpenAPI document.
# Needs python3 (3.11 or later) with pip and venv; arguments go to pytest. Instead of all that:
#   --deploy   build the image and run it (needs root and Debian's buildah and debootstrap; a minute or two)
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

# What checks the deployment has an environment of its own: its pins are not those of the tests.
tools=tests/deploy/requirements.txt
stamp=.venv/tools/.requirements
wanted=$(cksum <"$tools")
if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
    [ -x .venv/tools/bin/python ] || python3 -m venv .venv/tools
    .venv/tools/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$tools"
    echo "$wanted" >"$stamp"
fi

if [ "${1:-}" = --deploy ]; then
    exec .venv/bin/python -m pytest tests/deploy/image.py -v
fi

.venv/bin/ruff check
.venv/bin/ruff format --check
.venv/bin/mypy --strict
.venv/bin/lint-imports
exec .venv/bin/python -m pytest -n 2 "$@"
