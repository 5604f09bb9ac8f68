# Read by examples/try.sh and tests/run.sh, in the top folder: a Python that will do, and environments that hold what the
# requirements files pin. Says what it does and how long that took.

# The minor version of Python of $1; empty where it does not run.
minor_of() {
    "$1" -c 'import sys; print("%d.%d" % sys.version_info[:2])' 2>/dev/null || true
}

# Sets $python: the one that the image has, so that what runs is what is deployed; where it is missing, any from 3.11 on.
find_python() {
    image=$(sed -n 's/^ARG BASE=python:\(3\.[0-9]*\)-.*/\1/p' deploy/Containerfile)
    prefix=
    if command -v pyenv >/dev/null; then prefix=$(PYENV_VERSION=$image pyenv prefix 2>/dev/null || true); fi
    for python in ${prefix:+"$prefix/bin/python3"} "python$image" python3 python3.14 python3.13 python3.12 python3.11; do
        case $(minor_of "$python") in
            3.1[1-9] | 3.[2-9]?) return ;;
        esac
    done
    found=$(minor_of python3)
    echo "Roundwright needs Python 3.11 or later, and ${found:+the newest here is }${found:-there is none here}." >&2
    exit 1
}

# install FOLDER FILE...: the environment in FOLDER, made anew where its Python is another, gets what each FILE pins.
# A `.` among the files is the package itself, from its source.
install() {
    folder=$1
    shift
    if [ "$(minor_of "$folder/bin/python")" != "$(minor_of "$python")" ]; then
        if [ -e "$folder" ]; then
            echo "$folder is of another Python: it is made anew."
            rm -rf "$folder"
        fi
        "$python" -m venv "$folder" || return
    fi
    for file in "$@"; do
        stamp=$folder/.installed-$(echo "$file" | tr -c 'a-z\n' '-')
        source=$file
        [ "$file" != . ] || source=pyproject.toml
        wanted=$(cksum <"$source")
        [ "$wanted" != "$(cat "$stamp" 2>/dev/null)" ] || continue
        echo "Installing what $source names into $folder: once, a few seconds to two minutes ..."
        began=$(date +%s)
        if [ "$file" = . ]; then
            "$folder/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --editable . || return
        else
            "$folder/bin/python" -m pip install --quiet --disable-pip-version-check --no-deps --require-hashes -r "$file" || return
        fi
        echo "    took $(($(date +%s) - began)) s"
        echo "$wanted" >"$stamp"
    done
}
