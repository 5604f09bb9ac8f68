"""What a stranger is told who got a request wrong: where, and a word or value that mends it.

`python -m tests.contract.test_wrong_requests ADDRESS` writes what is told by the service there to `wrong-requests.md`.
"""

import json
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import httpx
import pytest
from msgspec import convert

from roundwright.knitting.answers import Suggestion
from tests.contract.test_suggestions import applied
from tests.contract.wrong_requests import WRONG, Request, Wrong

TABLE = Path(__file__).with_name("wrong-requests.md")


def sent(request: Request, service: httpx.Client) -> httpx.Response:
    """The answer to a request, sent as it stands."""
    return service.request(
        request.method, request.path, content=request.content, headers=request.sent_headers
    )


def part_answered(wrong: Wrong, answer: Any) -> tuple[str, Any]:
    """The place without the number of a part of a batch, and the answer to that part."""
    if not wrong.place[:1].isdigit():
        return wrong.place, answer
    number, _, place = wrong.place.partition(" ")
    return place, answer["answers"][int(number)]["body"]


def said_at(place: str, answer: Any) -> Iterator[str]:
    """What an answer says at a place: a fault, a warning, or all of it where there is no place."""
    notices = [*answer.get("errors", ()), *answer.get("warnings", ())]
    if not place:
        members = {name: value for name, value in answer.items() if name not in ("type", "instance")}
        yield json.dumps(members, ensure_ascii=False)
    for notice in notices:
        if place in (notice.get("pointer"), notice.get("parameter")):
            yield notice.get("detail") or notice["message"]
            yield json.dumps(notice.get("suggestion", {}))
            yield answer.get("nearest", "")


def row(wrong: Wrong, service: httpx.Client) -> str:
    """A line of the table: who sends what, and what is told, in one sentence or a few."""
    response = sent(wrong.sent, service)
    place, answer = part_answered(wrong, response.json())
    notices = [*answer.get("errors", ()), *answer.get("warnings", ()), *answer.get("findings", ())]
    messages = [
        notice.get("detail") or notice["message"]
        for notice in notices
        if not place or place in (notice.get("pointer"), notice.get("parameter"))
    ] or [answer.get("detail", "")]
    cells = [wrong.sender, wrong.fault, str(response.status_code), place, " ".join(messages)]
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def test_there_are_96_of_them():
    """Seven kinds of sender; no fault is sent twice by the same."""
    assert 96 == len(WRONG) == len({(wrong.sender, wrong.fault) for wrong in WRONG})


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: f"{wrong.sender}: {wrong.fault}")
def test_a_wrong_request_can_be_mended_by_its_answer(wrong: Wrong, service: httpx.Client) -> None:
    """The answer names the place and what mends it, and the request mended so is accepted."""
    response = sent(wrong.sent, service)
    assert wrong.status == response.status_code
    place, answer = part_answered(wrong, response.json())

    messages = list(said_at(place, answer))
    assert messages, f"nothing is said at {place}: {response.text}"
    messages += [
        f"{name}: {value}" for name, value in response.headers.items() if name in ("allow", "content-type")
    ]
    for word in wrong.mends:
        assert re.search(rf"(?<!\w){re.escape(word)}(?!\w)", "\n".join(messages).replace('\\"', '"')), word

    assert 200 == sent(wrong.next, service).status_code


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: f"{wrong.sender}: {wrong.fault}")
def test_what_is_suggested_is_accepted(wrong: Wrong, service: httpx.Client) -> None:
    """Where a fault of a body has a suggestion, the body with it is accepted."""
    for fault in sent(wrong.sent, service).json().get("errors", ()):
        if "suggestion" in fault:
            body = applied(wrong.sent.body, convert(fault["suggestion"], Suggestion))
            assert 200 == sent(replace(wrong.sent, body=body), service).status_code


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: f"{wrong.sender}: {wrong.fault}")
def test_what_is_told_is_what_the_table_has(wrong: Wrong, service: httpx.Client) -> None:
    """The table is read by people, so it says what the service says."""
    assert row(wrong, service) in TABLE.read_text().splitlines()


if __name__ == "__main__":
    with httpx.Client(base_url=sys.argv[1]) as caller:
        heading = (
            "# Wrong requests, and what their senders are told\n\nWritten by `test_wrong_requests.py`.\n"
        )
        head = "| sender | fault | status | place | what is told |\n|---|---|---|---|---|"
        TABLE.write_text("\n".join([heading, head, *(row(wrong, caller) for wrong in WRONG), ""]))
