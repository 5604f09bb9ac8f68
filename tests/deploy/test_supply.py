"""What the image is made of."""

import json
import subprocess
import sys
from importlib import util
from importlib.metadata import requires
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from roundwright import __version__

DEPLOY = Path(__file__).parents[2] / "deploy"


@pytest.fixture(scope="module")
def supply() -> ModuleType:
    """The command, as a module."""
    specification = util.spec_from_file_location("supply", DEPLOY / "supply.py")
    assert specification is not None
    assert specification.loader is not None
    module = util.module_from_spec(specification)
    specification.loader.exec_module(module)
    return module


def test_every_licence_goes_with_ours(supply: ModuleType) -> None:
    """No requirement of the image is under a licence unknown or not on the list."""
    licences = {name: supply.licence(name) for name in supply.pinned()}
    assert {name: text for name, text in licences.items() if not supply.compatible(text)} == {}


@pytest.mark.parametrize(
    "text", ["unknown", "GPL-3.0-only", "MIT AND GPL-2.0-only", "Proprietary", "AGPL-3.0-or-later"]
)
def test_a_licence_not_on_the_list_is_refused(supply: ModuleType, text: str) -> None:
    """Unknown and copyleft licences are not let in."""
    assert not supply.compatible(text)


def test_one_licence_of_several_to_choose_from_is_enough(supply: ModuleType) -> None:
    """Of licences joined by OR one must do, of those joined by AND all (SPDX specification, annex D)."""
    assert supply.compatible("GPL-2.0-only OR MIT")
    assert supply.compatible("Apache-2.0 AND BSD-2-Clause")


def test_the_list_is_as_the_command_writes_it(supply: ModuleType) -> None:
    """LICENCES.md lists what is pinned now."""
    assert (DEPLOY / "LICENCES.md").read_text() == supply.table()


def test_one_command_writes_the_bill_of_materials(supply: ModuleType, tmp_path: Path) -> None:
    """The bill is valid CycloneDX (its strict JSON schema) and has what each requirement is and needs."""
    pytest.importorskip("cyclonedx")
    file = tmp_path / "bill.json"
    subprocess.run([sys.executable, DEPLOY / "supply.py", "materials", file], check=True)
    bill = json.loads(file.read_text())
    packages = {
        canonicalize_name(component["name"]): component
        for component in bill["components"]
        if component.get("purl", "").startswith("pkg:pypi/")
    }
    assert {name: component["version"] for name, component in packages.items()} == supply.pinned()
    for component in packages.values():
        assert component["licenses"]
        assert component["externalReferences"][0]["hashes"]
    assert len(bill["components"]) > len(packages) + 300  # crates alone are as many
    root = bill["metadata"]["component"]
    assert (root["name"], root["version"]) == ("roundwright", __version__)
    graph = {dependency["ref"]: set(dependency["dependsOn"]) for dependency in bill["dependencies"]}
    assert set().union(*graph.values()) | {root["bom-ref"]} == graph.keys()
    for name in ("litestar", "pint", "uvicorn"):
        wanted = {
            canonicalize_name(Requirement(text).name) for text in requires(name) if "extra ==" not in text
        }
        reached = graph[packages[name]["bom-ref"]]
        assert {packages[requirement]["bom-ref"] for requirement in wanted & packages.keys()} <= reached
    check = (
        "import sys; from cyclonedx.schema import SchemaVersion as V; from cyclonedx.validation.json import "
        "JsonStrictValidator as J; e = J(V.V1_6).validate_str(open(sys.argv[1]).read()); sys.exit(str(e) if e else 0)"
    )
    assert bill["specVersion"] == "1.6"
    subprocess.run([sys.executable, "-c", check, file], check=True)


def test_the_fonts_listed_are_those_there_are(supply: ModuleType) -> None:
    """The bill names the fonts that Typst carries, and no others."""
    typst = pytest.importorskip("typst")
    listed = {font["name"] for font in supply.carried()["typst"] if font["type"] == "data"}
    assert listed == set(typst.Fonts(include_system_fonts=False).families())


def test_crates_scripts_and_images_are_listed(supply: ModuleType) -> None:
    """What sets PDFs, what the reference page runs, and what image and proxy are built on stand in the bill."""
    carried = {
        name: {component["name"]: component for component in found}
        for name, found in supply.carried().items()
    }
    assert carried["typst"]["typst-pdf"]["purl"].startswith("pkg:cargo/typst-pdf@")
    assert carried["swagger-ui-bundle-v2"]["swagger-ui-dist"]["version"]
    assert {"dompurify", "react", "@babel/runtime"} <= set(carried["swagger-ui-bundle-v2"])
    assert {"python", "CPython", "nginxinc/nginx-unprivileged", "nginx"} == set(carried["roundwright"])
    for library in ("llhttp", "libuv"):
        assert any(library in found for found in carried.values())


def test_every_licence_of_a_crate_goes_with_ours(supply: ModuleType) -> None:
    """No crate in the image is under a licence that is not on the list."""
    crates = {crate["name"]: crate["licenses"][0]["expression"] for crate in supply.crates()}
    assert {name: text for name, text in crates.items() if not supply.compatible(text)} == {}
