"""The document before judges from outside, with the rules that lie beside it in `openapi/`."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from tests.contract.shape import document
from tests.support.needed import command, node_module

RULES = Path(__file__).parents[2] / "openapi"
QUIET = {"REDOCLY_TELEMETRY": "off", "REDOCLY_SUPPRESS_UPDATE_NOTICE": "true"}


def lint(judge: str, file: Path):
    """Judge a document; the exit status is 0 if nothing at all was found."""
    options = {
        "redocly": ["--config", RULES / "redocly.yaml"],
        "spectral": ["--ruleset", RULES / ".spectral.yaml", "--fail-severity", "hint", "--quiet"],
    }
    words = [command("node"), node_module(f".bin/{judge}"), "lint", file, *options[judge]]
    environment = os.environ | QUIET
    return subprocess.run(words, env=environment, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("judge", ["redocly", "spectral"])
def test_nothing_is_found(judge, tmp_path):
    """The strictest sets of rules find no fault, not even a hint, and know all the rules they are given."""
    file = tmp_path / "openapi.json"
    file.write_text(json.dumps(document()))
    process = lint(judge, file)

    assert 0 == process.returncode, process.stdout + process.stderr
    assert "Unused rules" not in process.stdout + process.stderr
    assert "not expected here" not in process.stdout + process.stderr


@pytest.mark.parametrize("judge", ["redocly", "spectral"])
def test_a_fault_is_found(judge, tmp_path):
    """A small document without an operationId is not let pass."""
    operation = {"summary": "Say it", "responses": {"200": {"description": "Said."}}}
    small = {**document(), "paths": {"/v1/said": {"get": operation}}, "components": {}}
    file = tmp_path / "openapi.json"
    file.write_text(json.dumps(small))
    process = lint(judge, file)

    assert 1 == process.returncode
    assert "operation-operationId" in process.stdout + process.stderr
