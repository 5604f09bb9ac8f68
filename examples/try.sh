#!/bin/sh
# Makes the environment, starts the service, asks it for the handout of a knitting class and prints it.
# Goes on serving until Ctrl-C; with --once it stops after printing. Needs Python 3.11 or later with pip and venv.
set -eu
cd "$(dirname "$0")/.."
. deploy/venv.sh

find_python
install .venv deploy/requirements.txt .
echo "Starting the service, and asking it for the handout of a class: a second or two ..."
exec .venv/bin/roundwright try "$@" examples/requests/class-hats.json
