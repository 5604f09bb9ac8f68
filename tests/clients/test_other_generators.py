"""Clients made from the document by the other generators of the page *Clients* in DEVELOPERS.md, by their defaults."""

import json
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.clients.test_typescript_client import OPTIONS, node
from tests.contract.shape import document, listed
from tests.support.clients_page import ROWS
from tests.support.needed import BACKEND, CLIENTS, command, generator


def put(folder: Path) -> Path:
    """A folder with the document, and with the npm packages where Node looks for them."""
    (folder / "openapi.json").write_text(json.dumps(document()))
    (folder / "node_modules").symlink_to(CLIENTS / "node_modules")
    return folder


def run(folder: Path, *words: str | Path) -> str:
    """Run a program and give all that it says; it must not fail."""
    process = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)
    assert 0 == process.returncode, process.stdout + process.stderr
    return process.stdout + process.stderr


def structs() -> dict[str, Any]:
    """The components that are structs or sets of words."""
    return document()["components"]["schemas"]


# orval: TypeScript.

CALLS = """\
import axios from "axios";
import * as hats from "./hats";

axios.defaults.baseURL = "{address}";
async function main() {{
  const gauge = {{ stitches: 20 }};
  const made = await hats.castOn({{ gauge, head: {{ value: 43, unit: "cm" }} }});
  const found = await hats.castOnByQuery({{ gauge_stitches: 20, head: "43cm" }});
  const stitches: number = made.data.stitches;
  console.log(JSON.stringify([made.data, found.data, stitches]));
}}
main();
"""


def compiled(folder: Path, *files: str) -> None:
    """Compile files of TypeScript under `strict`."""
    options = OPTIONS | {"esModuleInterop": True, "skipLibCheck": True, "types": ["node"]}
    (folder / "tsconfig.json").write_text(json.dumps({"compilerOptions": options, "files": files}))
    node(folder, ".bin/tsc")


def test_orval_by_its_defaults(tmp_path, address, service):
    """What orval makes, with axios as it does unless told otherwise, compiles and gets what the service says."""
    put(tmp_path)
    node(tmp_path, ".bin/orval", *ROWS["orval"].words)
    (tmp_path / "main.ts").write_text(CALLS.format(address=address))
    compiled(tmp_path, "main.ts")
    made, found, stitches = json.loads(node(tmp_path, "built/main.js"))

    answer = service.get("/v1/cast-on?gauge_stitches=20&head=43cm").json()
    assert answer == made == found
    assert answer["stitches"] == stitches


def test_orval_with_fetch(tmp_path):
    """With the setting that DEVELOPERS.md names its other client, by `fetch`, compiles too."""
    put(tmp_path)
    fetch = {"client": "fetch", "override": {"fetch": {"includeHttpResponseReturnType": False}}}
    configured = {"hats": {"input": "./openapi.json", "output": {"target": "./hats.ts", **fetch}}}
    (tmp_path / "orval.config.json").write_text(json.dumps(configured))
    node(tmp_path, ".bin/orval", "--config", "orval.config.json")
    compiled(tmp_path, "hats.ts")

    functions = set(re.findall(r"export const (\w+) = async", (tmp_path / "hats.ts").read_text()))
    assert {operation.id for operation in listed()} == functions


# datamodel-code-generator: pydantic.

CHECK = """\
import json, sys, models
for name, value in json.load(sys.stdin):
    model = getattr(models, name).model_validate(value)
    said = model.model_dump(mode="json", by_alias=True, exclude_unset=True)
    assert value == said, (name, value, said)
"""


def test_datamodel_code_generator(tmp_path, service):
    """Its models have the names of the document, and read every example and its answer without loss."""
    put(tmp_path)
    program = generator("datamodel-codegen")
    run(tmp_path, program, *ROWS["datamodel-code-generator"].words)
    examples = [
        (operation.written["requestBody"]["content"]["application/json"]["schema"], operation.body)
        for operation in listed("POST")
    ]
    for operation in listed():
        content = operation.written["responses"]["200"]["content"].get("application/json")
        if content:
            examples.append((content["schema"], operation.ask(service).json()))
    values = [(schema["$ref"].rpartition("/")[2], value) for schema, value in examples]
    subprocess.run(
        [program.with_name("python"), "-c", CHECK],
        cwd=tmp_path, input=json.dumps(values), text=True, check=True,
    )  # fmt: skip

    classes = set(re.findall(r"^class (\w+)\(", (tmp_path / "models.py").read_text(), re.MULTILINE))
    assert set(structs()) <= classes


# openapi-generator.

LANGUAGES = {
    "kotlin": ("src/main/kotlin/**/models/*.kt", "src/main/kotlin/**/apis/*.kt", r"fun (\w+)\("),
    "swift6": ("Sources/**/Models/*.swift", "Sources/**/APIs/*.swift", r"class func (\w+)\("),
    "csharp": ("src/Org.OpenAPITools/Model/*.cs", "src/Org.OpenAPITools/Api/*.cs", r" (\w+)Async\("),
}
"""Where the types and the functions are, and what a function begins with, by the name of the generator."""

PARSED = """\
import sys, tree_sitter_c_sharp, tree_sitter_kotlin, tree_sitter_swift
from importlib import import_module
from pathlib import Path
from tree_sitter import Language, Parser
folder, package, ending, least = sys.argv[1:]
parser = Parser(Language(import_module(package).language()))
files = [file for file in Path(folder).rglob("*." + ending)]
for file in files:
    if parser.parse(file.read_bytes()).root_node.has_error:
        print(file.name)
assert len(files) >= int(least)
"""
GRAMMARS = {
    "kotlin": ("tree_sitter_kotlin", "kt", set()),
    # The generator's own file, the same for every document: this grammar has no `nonisolated(unsafe)`.
    "swift6": ("tree_sitter_swift", "swift", {"URLSessionImplementations.swift"}),
    "csharp": ("tree_sitter_c_sharp", "cs", set()),
}
"""The grammar of each language, the ending of its files, and those that it does not parse."""


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    """A folder with a client in each language, made by one start of Java."""
    command("java")
    folder = put(tmp_path_factory.mktemp("openapi-generator"))
    # What the page has as words is a file of settings for each language here.
    assert ROWS["openapi-generator"].words == ["generate", "-i", "openapi.json", "-g", "kotlin", "-o", "made"]
    for name in LANGUAGES:
        wanted = {"inputSpec": "openapi.json", "generatorName": name, "outputDir": name}
        (folder / f"{name}.json").write_text(json.dumps(wanted))
    run(
        folder, generator("openapi-generator-cli"),
        "batch", "--fail-fast", "--threads", "2", *(f"{name}.json" for name in LANGUAGES),
    )  # fmt: skip
    return folder


@pytest.mark.parametrize("language", LANGUAGES)
def test_openapi_generator(language, made):
    """It makes a type of every component and a function of every operation, by their names."""
    types, functions, begins = LANGUAGES[language]

    assert set(structs()) <= {file.stem for file in (made / language).glob(types)}
    called = {
        name for file in (made / language).glob(functions) for name in re.findall(begins, file.read_text())
    }
    assert {operation.id.lower() for operation in listed()} <= {name.lower() for name in called}


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_openapi_generator_makes_can_be_parsed(language, made):
    """Every file is of the grammar of its language, as tree-sitter has it; no compiler is to be had here."""
    package, ending, beyond = GRAMMARS[language]
    python = generator("openapi-generator-cli").with_name("python")
    output = run(made, python, "-c", PARSED, language, package, ending, str(len(structs())))  # a file a type

    assert set(output.split()) == beyond


def test_every_generator_of_the_page_is_one_of_these():
    """The page *Clients* names no generator at a version that is not the one tried."""
    npm = json.loads((CLIENTS / "package.json").read_text())["devDependencies"]
    backend = json.loads((CLIENTS.parents[1] / "examples/mobile-backend/package.json").read_text())
    pinned = {**npm, **backend["devDependencies"], "hey-api": npm["@hey-api/openapi-ts"]}
    for file in (CLIENTS / "requirements.txt", CLIENTS.parent / "requirements.txt"):
        pinned |= dict(re.findall(r"^([a-z-]+)==([\d.]+)", file.read_text(), re.MULTILINE))
    pinned["openapi-generator"] = pinned["openapi-generator-cli"]

    assert len(ROWS) == 6
    for name, row in ROWS.items():
        assert f"{pinned[name]}.".startswith(f"{row.version}."), name


def test_the_types_of_the_mobile_backend_are_made_by_the_command_of_the_page():
    """But for where the document lies and where the types go."""
    made_by = json.loads((BACKEND / "package.json").read_text())["scripts"]["types"]
    here = made_by.replace("../../openapi/", "").replace("src/", "")
    assert ["openapi-typescript", *ROWS["openapi-typescript"].words] == here.split()
