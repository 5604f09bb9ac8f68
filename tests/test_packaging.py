"""What is installed, and with what."""

import re
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder
from packaging.requirements import Requirement
from packaging.version import Version

from tests.support.needed import command

ROOT = Path(__file__).parents[1]
PIN = re.compile(r"^[a-z0-9._-]+==[^ ;]+", re.MULTILINE)
PINNED = [
    *(
        f"{folder}/requirements.txt"
        for folder in ("deploy", "tests", "tests/clients", "tests/deploy", "tests/load", "tests/long")
    ),
    "tests/lowest.txt",
]
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())
PROJECT = PYPROJECT["project"]
RUNTIME = [Requirement(text) for text in PROJECT["dependencies"]]
EXTRAS = {name: list(map(Requirement, extra)) for name, extra in PROJECT["optional-dependencies"].items()}
GROUPS = [Requirement(text) for group in PYPROJECT["dependency-groups"].values() for text in group]


def _pins(file):
    return set(PIN.findall((ROOT / file).read_text()))


def test_tests_run_with_what_is_served():
    """Every requirement of the service is pinned for the tests at the version it is deployed at."""
    assert _pins("deploy/requirements.txt")
    assert _pins("deploy/requirements.txt") <= _pins("tests/requirements.txt")


@pytest.mark.parametrize("file", PINNED)
def test_requirements_say_how_they_were_made(file):
    """The head of each file is the command that writes it, for the lowest Python that is promised."""
    command = (ROOT / file).read_text().splitlines()[1].removeprefix("#").split()

    assert ["uv", "pip", "compile", "--universal", "--python-version"] == command[:5]
    assert f">={command[5]}" == PROJECT["requires-python"]
    assert {"--generate-hashes", file} < set(command)


@pytest.mark.parametrize("file", PINNED)
def test_requirements_are_pinned_by_hash_alone(file):
    """Each requirement has hashes, and no file names a registry or a place on a machine."""
    text = (ROOT / file).read_text()
    entries = [entry for entry in re.split(r"\n(?=\S)", text) if not entry.startswith("#")]

    assert [] == [entry for entry in entries if "--hash=sha256:" not in entry]
    assert not re.search(r"://|--index|--find-links|^-", text, re.MULTILINE)


def _versions(file):
    """The versions that a file pins for any Python, by package."""
    found = {}
    for pin in _pins(file):
        name, _, version = pin.partition("==")
        found.setdefault(name, []).append(Version(version))
    return found


@pytest.mark.parametrize("requirement", [*RUNTIME, *EXTRAS["pdf"]], ids=lambda requirement: requirement.name)
def test_both_bounds_of_what_is_served_were_run(requirement):
    """`sh tests/run.sh --lowest` runs the lower bound; what is deployed lies just below the upper."""
    bounds = {bound.operator: Version(bound.version) for bound in requirement.specifier}

    assert [bounds[">="]] == _versions("tests/lowest.txt")[requirement.name]
    for version in _versions("deploy/requirements.txt")[requirement.name]:
        assert version in requirement.specifier
        following = (version.major, version.minor + 1), (version.major + 1,)
        assert bounds["<"].release in following


@pytest.mark.parametrize(
    "requirement", [*EXTRAS["tracing"], *GROUPS], ids=lambda requirement: requirement.name
)
def test_the_lower_bounds_of_the_tools_are_what_is_run(requirement):
    """The release of every tool that the tests or the benchmark run with is its lower bound."""
    pinned = {name: found for file in PINNED for name, found in _versions(file).items()}
    lower = next(Version(bound.version) for bound in requirement.specifier if bound.operator == ">=")
    oldest = min(pinned[requirement.name])

    assert (lower.major, lower.minor) == (oldest.major, oldest.minor)


def test_the_package_holds_its_data(tmp_path):
    """The wheel holds every table, example and page, so that it works wherever it is installed."""
    command("git")
    wheel = next(WheelBuilder(str(ROOT)).build(directory=str(tmp_path), versions=["standard"]))
    inside = set(zipfile.ZipFile(wheel).namelist())
    source = ROOT / "service"
    tracked = subprocess.run(
        ["git", "ls-files", "roundwright"], cwd=source, capture_output=True, text=True, check=True
    ).stdout.split()

    compiled = [file.removesuffix("po") + "mo" for file in tracked if file.endswith(".po")]

    assert compiled
    assert "roundwright/web/openapi.json" in inside
    assert [] == [file for file in [*tracked, *compiled] if file not in inside]


@pytest.mark.parametrize("repository", ["https://git.example/roundwright/blob/1.1.0", None])
def test_the_addresses_of_a_project_are_addresses(repository, tmp_path, monkeypatch):
    """The metadata link to the pages of the repository that the release names, and to none where it names none."""
    monkeypatch.delenv("RELEASE_REPOSITORY", raising=False)
    if repository:
        monkeypatch.setenv("RELEASE_REPOSITORY", repository)
    wheel = zipfile.ZipFile(
        next(WheelBuilder(str(ROOT)).build(directory=str(tmp_path), versions=["standard"]))
    )
    [metadata] = [wheel.read(name).decode() for name in wheel.namelist() if name.endswith("/METADATA")]
    addresses = dict(re.findall(r"^Project-URL: (\w+), (.*)$", metadata, re.MULTILINE))

    assert ({"Changelog", "Documentation", "Operations", "Security"} if repository else set()) == set(
        addresses
    )
    for address in addresses.values():
        page, _, section = address.removeprefix(f"{repository}/").partition("#")
        titles = re.findall(r"^#+ (.+)$", (ROOT / page).read_text(), re.MULTILINE)
        assert not section or section in [title.lower().replace(" ", "-") for title in titles]


def test_nothing_heavy_is_imported_to_serve():
    """What only tests or seldom-asked pages need is not imported when the service starts."""
    code = "import sys, roundwright.web.app as a; a.create(); print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    heavy = {"hypothesis", "pandas", "rich", "structlog", "swagger_ui_bundle", "typst"}
    assert set() == (heavy | {"roundwright.wording.proofreading.read"}) & set(run.stdout.split())


LOADED = """
import sys
from roundwright.web.settings import Settings
from tests.long.asking import Service

service = Service(Settings(warm={warm}, access_log=False))
assert service.ask("GET", "/health/ready").status == 200
print(*sys.modules)
"""
"""The modules of a process that is ready."""


@pytest.mark.parametrize("warm", [True, False])
def test_what_a_first_answer_needs_is_loaded_with_it_or_where_that_is_set_before(warm):
    """The factors of units, what draws pictures, what reads patterns: without the setting a ready process has none."""
    run = subprocess.run(
        [sys.executable, "-c", LOADED.format(warm=warm)], capture_output=True, text=True, check=True, cwd=ROOT
    )

    later = {
        "pint",
        "roundwright.drawing.hat_profile",
        "roundwright.drawing.needles_diagram",
        "roundwright.drawing.round_chart",
        "roundwright.drawing.section_chart",
        "roundwright.drawing.spacing_diagram",
        "roundwright.wording.proofreading.read",
    }
    assert (later if warm else set()) == later & set(run.stdout.split())
