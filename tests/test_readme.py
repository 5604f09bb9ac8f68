"""What the README shows is what the service answers."""

import json
import re
import shlex
import subprocess
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import httpx
import pytest

from roundwright.web.routes.operation import EXAMPLES
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.contract.shape import listed
from tests.support.needed import command

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text()
MAX_WORDS = 30
"""Of a sentence: longer ones are read twice by a reader whose third language English is."""
SHOWN = re.findall(r"```http\nPOST (\S+)\n```\n\n```json\n([^`]+)\n```\n\n```json\n([^`]+)\n```", README)


def part_of(shown: Any, answer: Any) -> bool:
    """Whether everything shown is in the answer: a list is shown whole, of an object some fields."""
    if isinstance(shown, dict):
        return isinstance(answer, dict) and all(
            part_of(value, answer.get(name)) for name, value in shown.items()
        )
    if isinstance(shown, list):
        return len(shown) == len(answer) and all(map(part_of, shown, answer))
    return shown == answer


@pytest.mark.parametrize(("path", "body", "answer"), SHOWN, ids=[shown[0] for shown in SHOWN])
def test_a_request_on_the_page_gets_the_answer_on_the_page(path, body, answer, service):
    """Each request is sent as it is printed, and everything printed of its answer is in it."""
    content = service.post(path, content=body, headers={"content-type": "application/json"}).json()
    assert part_of(json.loads(answer), content), json.dumps(content, indent=2)[:4000]


def test_the_page_shows_requests():
    """The test above has something to send."""
    assert len(SHOWN) >= 5


def test_the_pattern_on_the_page_is_the_one_that_is_written(service):
    """The pattern in German is that of the request above it."""
    [(path, body, pattern)] = re.findall(
        r"```http\nPOST (\S+)\n```\n\n```json\n([^`]+)\n```\n\n[^\n]*\n\n```text\n([^`]+)\n```", README
    )
    answer = service.post(path, content=body, headers={"content-type": "application/json"})

    assert answer.json()["pattern"].rstrip() == pattern
    assert answer.headers["content-language"] == "de"


def test_every_operation_of_the_trade_is_in_the_table():
    """An endpoint that is not in the table is not known to anybody; below it stands that `.svg` may be `.png`."""
    assert "with `.png`" in README
    paths = [
        operation.path.replace(".png", ".svg") for operation in listed() if operation.path.startswith("/v1/")
    ]
    assert [path for path in paths if f"`{path}`" not in README] == []


def test_the_line_to_paste_works(address, service):
    """The first `curl` on the page gets what the request below it gets."""
    command("curl")
    [line] = re.findall(r"^curl http://127\.0\.0\.1:8181.*$", README, re.MULTILINE)
    line = shlex.split(line.replace("http://127.0.0.1:8181", address))
    path, body, _ = SHOWN[0]

    answer = json.loads(subprocess.run([*line, "--silent"], capture_output=True, check=True).stdout)
    assert service.post(path, json=json.loads(body)).json() == answer


def test_the_picture_is_what_the_service_draws(service):
    """The picture of the page is that of the service's own example; `python -m tests.test_readme` draws it anew."""
    assert picture(service) == (ROOT / "examples/hat.svg").read_bytes()


def picture(service):
    """The example of `/v1/drawings/profile.svg`."""
    query = json.loads((EXAMPLES / "draw-profile.json").read_bytes())
    return service.get(f"/v1/drawings/profile.svg?{urlencode(query)}").raise_for_status().content


def test_no_sentence_is_long():
    """Sentences have up to thirty words; tables, code and headings are none."""
    text = re.sub(r"```.*?```|^[|#!].*$", "\n\n", README, flags=re.DOTALL | re.MULTILINE)
    paragraphs = re.split(r"\n\s*\n|\n(?=- |\d+\. )", text)
    plain = [
        re.sub(r"`[^`]*`", "x", re.sub(r"\]\([^)]*\)", "]", " ".join(paragraph.split())))
        for paragraph in paragraphs
    ]
    sentences = [
        sentence for paragraph in plain for sentence in re.split(r"(?<=[.!?:;])\s+(?=[A-Z`\[(*])", paragraph)
    ]

    assert [] == [sentence for sentence in sentences if len(sentence.split()) > MAX_WORDS]


if __name__ == "__main__":
    with serving(Settings()) as own, httpx.Client(base_url=own) as client:
        (ROOT / "examples/hat.svg").write_bytes(picture(client))
