"""The environments that `examples/try.sh` and `tests/run.sh` make."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def _run(script, path, **variables):
    """Run lines of shell after deploy/venv.sh, with nothing but the commands in a folder."""
    for command in ("cat", "cksum", "date", "rm", "sed", "tr"):
        (path / command).symlink_to(shutil.which(command))
    return subprocess.run(
        ["/bin/sh", "-euc", f". deploy/venv.sh\n{script}"],
        cwd=ROOT, env={"PATH": str(path), **variables}, capture_output=True, text=True, check=False,
    )  # fmt: skip


def _fake(file, version):
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"#!/bin/sh\necho {version}\n")
    file.chmod(0o755)


def test_an_old_python_is_told_so_in_a_sentence(tmp_path):
    """Below 3.11 nothing is installed; the sentence has the version that is needed and the one there is."""
    _fake(tmp_path / "python3", "3.9")
    run = _run("find_python", tmp_path)

    assert 1 == run.returncode
    assert "Roundwright needs Python 3.11 or later, and the newest here is 3.9.\n" == run.stderr


def test_no_python_is_told_so_in_a_sentence(tmp_path):
    """The same where there is none."""
    run = _run("find_python", tmp_path)

    assert 1 == run.returncode
    assert "Roundwright needs Python 3.11 or later, and there is none here.\n" == run.stderr


def test_any_python_that_is_new_enough_is_taken(tmp_path):
    """Where `python3` is too old, a later one by its full name serves."""
    _fake(tmp_path / "python3", "3.9")
    _fake(tmp_path / "python3.12", "3.12")

    assert "python3.12\n" == _run('find_python; echo "$python"', tmp_path).stdout


def test_an_environment_of_another_python_is_made_anew(tmp_path):
    """What was installed for another minor version would not be found."""
    environment = tmp_path / "environment"
    _fake(environment / "bin/python", "3.9")
    run = _run('install "$folder"', tmp_path, python=sys.executable, folder=str(environment))

    assert 0 == run.returncode, run.stderr
    assert "made anew" in run.stdout
    assert (environment / "pyvenv.cfg").exists()


def test_what_is_installed_is_installed_once(tmp_path):
    """A second run with the same pins says and does nothing."""
    pins = tmp_path / "pins.txt"
    pins.write_text("# nothing\n")
    environment = tmp_path / "environment"
    script = 'install "$folder" "$pins"; echo "--"; install "$folder" "$pins"'
    run = _run(script, tmp_path, python=sys.executable, folder=str(environment), pins=str(pins))

    first, _, second = run.stdout.partition("--\n")
    assert 0 == run.returncode, run.stderr
    assert "Installing" in first
    assert "" == second


def test_no_group_is_repeated_possessively():
    """Python before 3.11.5 keeps what a repeat of `(…)*+` had taken when it failed half-way; `(?>(…)*)` gives it back.

    Seen on 3.11.2; mended in Python 3.11.5 (its changelog, gh-106052; the number from memory).
    """
    written = [path.read_text("utf-8") for path in (ROOT / "service/roundwright/wording").rglob("*.py")]

    assert any("(?>" in text for text in written)
    assert not [text for text in written if re.search(r"\)(?:[*?+]|\{\{?\d*,?\d*\}?\})\+", text)]
