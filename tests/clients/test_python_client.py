"""A Python client made from the document by openapi-python-client: it type-checks, and every operation answers."""

import importlib
import json
import re
import subprocess
import sys
from enum import Enum
from pathlib import Path
from types import ModuleType
from typing import Any, get_args, get_type_hints

import pytest

from tests.contract.shape import document, listed, named

RULES = Path(__file__).parents[2] / "openapi"
TOOLS = Path(sys.prefix) / "bin"


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """The client, generated without a warning."""
    folder = tmp_path_factory.mktemp("python")
    (folder / "openapi.json").write_text(json.dumps(document()))
    said = subprocess.run(
        [
            TOOLS / "openapi-python-client", "generate", "--path", "openapi.json", "--output-path", "made",
            "--config", RULES / "python-client.yaml", "--fail-on-warning",
        ],
        cwd=folder, capture_output=True, text=True, check=False,
        env={"PATH": f"{TOOLS}:/usr/bin:/bin"},  # it formats what it makes with ruff
    )  # fmt: skip
    assert 0 == said.returncode, said.stdout + said.stderr
    return folder / "made"


@pytest.fixture
def made(folder, monkeypatch) -> ModuleType:
    """The client, imported."""
    monkeypatch.syspath_prepend(folder)
    return importlib.import_module("roundwright_client")


def test_it_type_checks(folder):
    """Mypy finds nothing in it under `--strict`."""
    words = [
        TOOLS / "mypy",
        "--strict",
        "--config-file",
        "",
        "--cache-dir",
        folder / ".cache",
        "roundwright_client",
    ]
    said = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)

    assert 0 == said.returncode, said.stdout


def snake(name: str) -> str:
    return re.sub("(?<!^)(?=[A-Z])", "_", name).lower()


def called(operation, made: ModuleType, client: Any) -> Any:
    """Call an operation by its function, with its example as the client's own types."""
    tag = operation.written["tags"][0].lower()
    module = importlib.import_module(f"{made.__name__}.api.{tag}.{snake(operation.id)}")
    hints = get_type_hints(module.sync_detailed)
    given = {}
    for one in operation.written.get("parameters", ()):
        if "example" in one:
            name = one["name"] if one["name"] in hints else f"{one['name']}_"  # `round` is Python's own
            given[name] = typed(one["example"], hints[name])
    if operation.method == "POST":
        given["body"] = hints["body"].from_dict(operation.body)
    return module.sync_detailed(client=client, **given)


def typed(value: Any, hint: Any) -> Any:
    """A value as one of the client's enumerations, where its parameter is one."""
    kinds = [one for one in (hint, *get_args(hint)) if isinstance(one, type) and issubclass(one, Enum)]
    return kinds[0](value) if kinds else value


@pytest.mark.parametrize("operation", listed(), ids=named)
def test_every_operation_answers(operation, made, address, service):
    """Called with its example, an operation gives what the service says, as the client's own type."""
    with made.Client(base_url=address) as client:
        answer = called(operation, made, client)
    said = operation.ask(service)

    assert 200 == answer.status_code
    if said.headers["content-type"] == "application/json":
        assert said.json() == answer.parsed.to_dict()
    elif said.headers["content-type"] in ("application/pdf", "image/png"):
        assert said.content == answer.parsed.payload.read()
    else:
        assert said.text == answer.parsed


def test_a_problem_is_a_problem(made, address):
    """What cannot be knitted comes back as the document's Problem."""
    with made.Client(base_url=address) as client:
        module = importlib.import_module("roundwright_client.api.sizes.cast_on")
        body = made.models.CastOnRequest.from_dict(
            {"gauge": {"stitches": 20}, "head": {"value": 430, "unit": "cm"}}
        )
        answer = module.sync_detailed(client=client, body=body)

    assert 422 == answer.status_code
    assert isinstance(answer.parsed, made.models.Problem)
    assert "430 mm" == answer.parsed.nearest
