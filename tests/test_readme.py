"""What the README shows is what the service answers."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.contract.shape import listed

README = (Path(__file__).parents[1] / "README.md").read_text()
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
    said = service.post(path, content=body, headers={"content-type": "application/json"}).json()
    assert part_of(json.loads(answer), said), json.dumps(said, indent=2)[:4000]


def test_the_page_shows_requests():
    """The test above has something to send."""
    assert len(SHOWN) >= 5


def test_every_operation_of_the_trade_is_in_the_table():
    """An endpoint that is not in the README's table is not known to anybody."""
    missing = [one.path for one in listed() if one.path.startswith("/v1/") and f"`{one.path}`" not in README]
    assert missing == []
