#!/bin/sh
# Every check there is: lint, types, import contract, tests, the API contract, drift of the OpenAPI document.
# Needs Python 3.11 or later with pip and venv; arguments go to pytest. Tests that need more (Chromium, Node 20 with npm,
# curl and jq, nginx) are skipped where it is missing, but not in CI. Instead of all that:
#   --lowest   the contract, routes, words and commands at the lower bounds of the dependencies (tests/lowest.txt); some
#              minutes. What follows goes to pytest
#   --deploy   build the image and run it, and serve by Debian 13's Python (needs root and Debian's buildah and
#              debootstrap; four minutes)
#   --long     2,000 hats worked and read back, the words and boxes of 200 handouts; then bad input: 100,000 requests made
#              by chance for each operation, and more by other ways; an hour and a half on two cores. What follows goes to
#              tests/long/run.py: `--long --requests 1000`
#   --pin      write the pins anew from pyproject.toml, each file by the line at its head; a minute. What follows goes to
#              uv: `--pin --upgrade`
set -eu
cd "$(dirname "$0")/.."
. deploy/venv.sh

step() {
    echo "== $*"
    "$@"
}

find_python
case ${1:-} in
    --lowest)
        shift
        install .venv/lowest tests/requirements.txt tests/lowest.txt .
        .venv/lowest/bin/python -m pip check
        step .venv/lowest/bin/python -m pytest -n 2 tests/contract tests/web tests/wording tests/test_*.py "$@"
        exit
        ;;
    --pin)
        shift
        install .venv/tools tests/deploy/requirements.txt
        export UV_SYSTEM_CERTS=true
        for file in deploy/requirements.txt tests/requirements.txt tests/lowest.txt tests/*/requirements.txt; do
            step .venv/tools/bin/$(sed -n '2s/^# *//p' "$file") --quiet "$@"
        done
        # They must install, without a compiler, on every Python promised.
        for python in 3.11.0 3.12.0 3.13.0 3.14.0; do
            for platform in linux macos; do
                for file in deploy/requirements.txt tests/requirements.txt; do
                    step .venv/tools/bin/uv pip install --quiet --dry-run --target .venv/none --python-version "$python" \
                        --python-platform "$platform" --only-binary :all: --require-hashes -r "$file"
                done
            done
        done
        exit
        ;;
esac

install .venv tests/requirements.txt .
# What checks the deployment has an environment of its own: its pins are not those of the tests.
install .venv/tools tests/deploy/requirements.txt || echo "The tools for the deployment do not install here; their tests are left out."
# So have generators of clients that pip installs.
install .venv/clients tests/clients/requirements.txt || echo "The generators of clients do not install here; their tests are left out."

# More generators of clients, linters of the document, axe-core, and what the TypeScript example stands on.
if command -v npm >/dev/null; then
    for folder in tests/clients examples/mobile-backend; do
        stamp=$folder/node_modules/.requirements
        wanted=$(cksum <"$folder/package-lock.json")
        if [ ! -f "$stamp" ] || [ "$(cat "$stamp")" != "$wanted" ]; then
            if step npm ci --prefix "$folder" --ignore-scripts --no-audit --no-fund --loglevel=error; then
                echo "$wanted" >"$stamp"
            else
                rm -rf "$folder/node_modules"
                echo "The packages of $folder do not install here; their tests are left out."
            fi
        fi
    done
fi

case ${1:-} in
    --deploy)
        step .venv/bin/python -m pytest tests/deploy/image.py tests/deploy/debian_13.py -v
        exit
        ;;
    --long)
        shift
        failed=0
        ROUNDWRIGHT_TEST_HATS=2000 .venv/bin/python -m pytest -n 2 tests/knitting/hat/test_random_hats.py \
            tests/language/test_read_back.py -k "can_be_knitted or en-US" || failed=1
        HANDOUTS=200 .venv/bin/python -m pytest tests/wording/handout/test_pdf.py -k nothing_on_a_handout || failed=1
        install .venv tests/long/requirements.txt || echo "atheris does not install here; the runs by coverage are left out."
        ROUNDWRIGHT_TEST_EXAMPLES=500 ROUNDWRIGHT_TEST_SEED=2 ROUNDWRIGHT_TEST_HATS=5000 \
            .venv/bin/python -m pytest -s tests/contract/test_generated.py tests/contract/test_growth.py tests/long/test_bad_input.py || failed=1
        .venv/bin/python -m tests.long.by_coverage || failed=1
        .venv/bin/python -m tests.long.run "$@" || failed=1
        exit "$failed"
        ;;
esac

step .venv/bin/ruff check
step .venv/bin/ruff format --check
step .venv/bin/mypy --strict
step .venv/bin/lint-imports
echo "== pytest, which takes the longest: a quarter of an hour on two cores"
exec .venv/bin/python -m pytest -n 3 "$@"
