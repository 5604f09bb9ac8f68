"""The handout over HTTP: its format, and that a PDF keeps nobody else waiting."""

import asyncio
import sys
from typing import Any

import httpx
import pytest

from roundwright.web.app import create
from roundwright.web.settings import Settings
from tests.conftest import serving
from tests.support.handouts import CLASS, FORMATS, post_handout


@pytest.mark.parametrize(
    ("accept", "media_type"),
    [
        (None, "text/markdown; charset=utf-8"),
        ("*/*", "text/markdown; charset=utf-8"),
        ("text/plain", "text/plain; charset=utf-8"),
        ("text/plain; charset=utf-8", "text/plain; charset=utf-8"),
        ("application/pdf, */*;q=0.1", "application/pdf"),
        ("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "text/html; charset=utf-8"),
        ("application/*", "application/pdf"),
        ("text/*;q=0, */*", "application/pdf"),
    ],
)
def test_accept_chooses_the_format(accept: str | None, media_type: str, service: httpx.Client) -> None:
    """Each caller gets what its `Accept` prefers (RFC 9110, 12.5.1), a browser too; Markdown without the header."""
    response = post_handout(service, accept)

    assert 200 == response.status_code
    assert media_type == response.headers["content-type"]
    assert "accept" in response.headers["vary"].lower()
    assert "no-store" == response.headers["cache-control"]


def test_without_typst_there_is_no_pdf(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the extra `pdf` 406 says so, a second choice is taken, and the service starts warm."""
    monkeypatch.setitem(sys.modules, "typst", None)
    with (
        serving(Settings(warm=True)) as address,
        httpx.Client(base_url=address, timeout=30) as service,
    ):
        refused = post_handout(service, "application/pdf")
        second = post_handout(service, "application/pdf, text/plain;q=0.5")
        file = service.post("/v1/hats/handout.pdf", json=CLASS)

    for response in (refused, file):
        assert 406 == response.status_code
        assert "`roundwright[pdf]`" in response.json()["detail"]
    assert "text/plain; charset=utf-8" == second.headers["content-type"]


def test_another_format_is_refused(service: httpx.Client) -> None:
    """406 names the formats there are (RFC 9110, 15.5.7)."""
    response = post_handout(service, "application/json")

    assert 406 == response.status_code
    assert all(media_type in response.json()["detail"] for media_type in FORMATS)


@pytest.mark.parametrize("media_type", FORMATS)
def test_the_same_body_gets_the_same_bytes(media_type: str, service: httpx.Client) -> None:
    """No format holds a date or anything random, not even the metadata of the PDF."""
    first = post_handout(service, media_type).content

    assert first == post_handout(service, media_type).content
    assert b"CreationDate" not in first
    assert b"ModDate" not in first


def test_other_requests_do_not_wait_for_a_pdf() -> None:
    """A request that comes while a PDF is made is answered before the PDF is done."""
    media_types = []

    async def send_both() -> None:
        transport = httpx.ASGITransport(create(Settings()))
        async with httpx.AsyncClient(transport=transport, base_url="http://a") as service:

            async def send(path: str, value: Any, accept: str) -> None:
                response = await service.post(path, json=value, headers={"accept": accept})
                assert 200 == response.status_code
                media_types.append(response.headers["content-type"])

            await asyncio.gather(
                send("/v1/hats/handout", CLASS, "application/pdf"),
                send("/v1/gauge/convert", {"gauge": CLASS["gauge"]}, "application/json"),
            )

    asyncio.run(send_both())
    assert ["application/json", "application/pdf"] == media_types
