"""Pictures as PNG, for mail and for apps that draw no SVG."""

import asyncio
import re
from struct import unpack

import httpx
import pytest
from litestar.types.asgi_types import HTTPDisconnectEvent

from roundwright.web.problems import ProblemError
from roundwright.web.routes import picture_file
from roundwright.web.routes.drawings import draw_crown
from roundwright.web.routes.typesetter import MAX_PENDING, MAX_PENDING_WITH_PICTURES, Typesetter
from roundwright.wording.handout.typeset import HANDOUT, MAX_PIXELS, PICTURE

SIGNATURE = b"\x89PNG\r\n\x1a\n"
"""The first bytes of every PNG (ISO/IEC 15948, 5.2); width and height follow from byte 16 on (11.2.2)."""
PICTURES = [
    "crown.{}?stitches=96&style=wedge",
    "profile.{}?adult=woman&gauge_stitches=20&gauge_rows=28",
    "needles.{}?stitches=72&needles=4",
    "spacing.{}?stitches=72&change=8",
]


@pytest.mark.parametrize("picture", PICTURES)
def test_a_png_has_two_pixels_for_each_of_the_svg(picture: str, service: httpx.Client) -> None:
    """It is the same picture: twice as wide and as high as the SVG says of itself."""
    svg = service.get(f"/v1/drawings/{picture.format('svg')}").text
    png = service.get(f"/v1/drawings/{picture.format('png')}")
    size = re.search(r'width="(\d+)" height="(\d+)"', svg)

    assert size is not None
    assert "image/png" == png.headers["content-type"]
    assert SIGNATURE == png.content[:8]
    assert list(unpack(">II", png.content[16:24])) == pytest.approx(
        [2 * int(side) for side in size.groups()], abs=2
    )


LARGEST = "crown.{}?stitches=600&needles=5&style=flat"
"""The chart of every round from the largest count there is."""


@pytest.mark.parametrize("picture", [LARGEST, "crown.{}?stitches=300&style=dome"])
def test_a_large_picture_is_a_png_of_bounded_size(picture: str, service: httpx.Client) -> None:
    """It has the sides of its SVG in the same ratio, in as many pixels as there may be."""
    svg = service.get(f"/v1/drawings/{picture.format('svg')}").text
    png = service.get(f"/v1/drawings/{picture.format('png')}")
    size = re.search(r'width="(\d+)" height="(\d+)"', svg)
    assert size is not None
    width, height = unpack(">II", png.content[16:24])

    assert SIGNATURE == png.content[:8]
    assert int(size[1]) / int(size[2]) == pytest.approx(width / height, rel=0.01)
    assert width * height == pytest.approx(MAX_PIXELS, rel=0.01)


def test_large_pictures_leave_the_process_as_it_is(service: httpx.Client) -> None:
    """However many large pictures follow one another, none takes more memory than the process may have."""
    pictures = [
        service.get(f"/v1/drawings/crown.svg?stitches={count}&needles=5&style=flat").content
        for count in (600, 598, 596, 594, 592, 590)
    ]
    typesetter = Typesetter()
    files = [typesetter.exchange(svg, PICTURE) for svg in pictures]
    typesetter.stop()

    assert all(file.startswith(SIGNATURE) for file in files)


def test_a_large_picture_has_the_place_of_a_pdf(service: httpx.Client) -> None:
    """It takes as long as one, so that no more of both wait than are made before a proxy gives up."""
    typesetter = Typesetter()
    typesetter.pending[HANDOUT] = MAX_PENDING
    small = service.get(f"/v1/drawings/{PICTURES[3].format('svg')}").content
    large = service.get(f"/v1/drawings/{LARGEST.format('svg')}").content
    with pytest.raises(ProblemError, match="large pictures at once"):
        asyncio.run(typesetter.typeset(large, _nothing, PICTURE))
    assert asyncio.run(typesetter.typeset(small, _nothing, PICTURE)).startswith(SIGNATURE)
    typesetter.stop()


def test_a_png_that_is_known_is_not_made_again(service: httpx.Client) -> None:
    """Its `ETag` is that of the address, and differs from the SVG's."""
    address = PICTURES[0]
    svg, png = (
        service.get(f"/v1/drawings/{address.format(suffix)}").headers["etag"] for suffix in ("svg", "png")
    )
    again = service.get(f"/v1/drawings/{address.format('png')}", headers={"if-none-match": png})

    assert svg != png
    assert (304, b"") == (again.status_code, again.content)


def test_what_cannot_be_drawn_is_refused_as_for_the_svg(service: httpx.Client) -> None:
    """The same problem, at its own address."""
    refused = [
        service.get(f"/v1/drawings/needles.{suffix}?stitches=2&needles=4") for suffix in ("svg", "png")
    ]
    svg, png = (answer.json() for answer in refused)

    assert svg["errors"] == png["errors"]
    assert "/v1/drawings/needles.png" == png["instance"]


def test_without_typst_the_way_to_install_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """PNGs come with the extra for PDFs."""
    monkeypatch.setattr(picture_file, "is_installed", lambda: False)
    png = picture_file.PictureFile(draw_crown)
    with pytest.raises(ProblemError, match=r"roundwright\[pdf\]") as refused:
        asyncio.run(png.file(b"<svg/>", _nothing))

    assert "not-acceptable" == refused.value.slug


async def _nothing() -> HTTPDisconnectEvent:
    return {"type": "http.disconnect"}


def test_pictures_have_room_in_the_queue_where_pdfs_have_none() -> None:
    """A page with a dozen pictures is served while handouts wait."""
    typesetter = Typesetter()
    typesetter.pending[HANDOUT] = MAX_PENDING
    typesetter.require_capacity(PICTURE)
    with pytest.raises(ProblemError, match=f"{MAX_PENDING} PDFs and large pictures at once"):
        typesetter.require_capacity(HANDOUT)
    typesetter.pending[PICTURE] = MAX_PENDING_WITH_PICTURES - MAX_PENDING
    with pytest.raises(ProblemError, match=f"{MAX_PENDING_WITH_PICTURES} PDFs and PNGs"):
        typesetter.require_capacity(PICTURE)
    typesetter.stop()


def test_small_pictures_take_no_room_from_pdfs() -> None:
    """As many pictures in hand as PDFs would fill the queue, and a handout still has its place."""
    typesetter = Typesetter()
    typesetter.pending[PICTURE] = MAX_PENDING
    typesetter.require_capacity(HANDOUT)
    typesetter.stop()
