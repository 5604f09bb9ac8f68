"""A TypeScript client made from the document by openapi-ts: it compiles under `strict`, and every operation answers."""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.contract.shape import Listed, document, listed
from tests.support.clients_page import ROWS
from tests.support.needed import command, node_module

OPTIONS = {
    "target": "es2022",
    "module": "commonjs",
    "moduleResolution": "node10",
    "lib": ["es2023", "dom", "dom.iterable"],
    "types": [],
    "strict": True,
    "noEmitOnError": True,
    "outDir": "built",
}


def node(folder: Path, path: str, *words: str | Path) -> str:
    """Run a program of the npm packages and give what it prints; it must not fail."""
    words = (command("node"), node_module(path) if path.startswith(".bin/") else path, *words)
    process = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)
    assert 0 == process.returncode, process.stdout + process.stderr
    return process.stdout


def call(operation: Listed) -> str:
    """A line of TypeScript that calls the operation with its example, written out so that its types are checked."""
    given: dict[str, Any] = {"throwOnError": True}
    for parameter in operation.written.get("parameters", ()):
        if "example" in parameter:
            given.setdefault(parameter["in"], {})[parameter["name"]] = parameter["example"]
    if operation.method == "POST":
        given["body"] = operation.body
    if "application/json" not in operation.written["responses"]["200"]["content"]:
        given["parseAs"] = "text"
    return f"answers.{operation.id} = (await hats.{operation.id}({json.dumps(given)})).data;"


@pytest.fixture(scope="module")
def answers(tmp_path_factory, address) -> dict[str, Any]:
    """What each operation answered to its example, through the client, generated and compiled."""
    folder = tmp_path_factory.mktemp("typescript")
    (folder / "openapi.json").write_text(json.dumps(document()))
    node(folder, ".bin/openapi-ts", "--silent", *ROWS["hey-api"].words)
    calls = "\n  ".join(call(operation) for operation in listed())
    (folder / "main.ts").write_text(
        f"""\
import {{ client }} from "./made/client.gen";
import * as hats from "./made/sdk.gen";

client.setConfig({{ baseUrl: "{address}" }});
const answers: Record<string, unknown> = {{}};
async function main() {{
  {calls}
  console.log(JSON.stringify(answers));
}}
main();
"""
    )
    (folder / "tsconfig.json").write_text(json.dumps({"compilerOptions": OPTIONS, "files": ["main.ts"]}))
    node(folder, ".bin/tsc")
    return json.loads(node(folder, "built/main.js"))


def test_every_answer_is_the_services(answers, service):
    """Each operation, called by its function with its example, gives what the service says."""
    assert {operation.id for operation in listed()} == set(answers)
    for operation in listed():
        answer = operation.ask(service)
        expected = answer.json() if answer.headers["content-type"] == "application/json" else answer.text
        assert expected == answers[operation.id], operation.id
