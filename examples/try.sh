#!/bin/sh
# Makes the environment, starts the service, asks it for the hats of a knitting class and prints what it says.
# Goes on serving until Ctrl-C; with --once it stops after printing. Needs python3 (3.11 or later) with pip and venv.
set -eu
cd "$(dirname "$0")/.."

requirements=deploy/requirements.txt
stamp=.venv/.requirements
wanted=$(cat "$requirements" pyproject.toml | cksum)
if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
    [ -x .venv/bin/python ] || python3 -m venv .venv
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$requirements"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --editable .
    echo "$wanted" >"$stamp"
fi

exec .venv/bin/roundwright try "$@" examples/requests/class-hats.json
