"""Languages of pictures alone: the key is in the language, with the names of the symbols, and all else is English."""

import re
from html import unescape

import httpx
import pytest
from babel.messages.pofile import read_po

from roundwright import reference
from roundwright.language import LANGUAGES, PICTURE_LANGUAGES
from roundwright.language.codes import PICTURE_CATALOGUES
from tests.language.test_catalogues import catalogue, placeholders, texts

JIS_L_0201 = {
    "k": ("1010", "表目"),
    "p": ("1020", "裏目"),
    "yo": ("1030", "かけ目"),
    "ssk": ("1040", "右上2目一度"),
    "skp": ("1040", "右上2目一度"),
    "k2tog": ("1050", "左上2目一度"),
    "cdd": ("1060", "中上3目一度"),
    "sk2p": ("1070", "右上3目一度"),
    "k3tog": ("1080", "左上3目一度"),
}
"""JIS L 0201:1995, symbols for knitting: number and name (kikakurui.com/l/L0201-1995-01.html)."""
TOP_STITCH_LEANS = {"右上": "right stitch on top, leans left", "左上": "left stitch on top, leans right"}


def legend(picture: str) -> list[str]:
    """The texts of a picture that are not Latin, as they stand in it."""
    lines = [unescape(text) for text in re.findall(r"<text[^>]*>([^<]*)</text>", picture)]
    return [line for line in lines if re.search(r"[\u3040-\u9fff]", line)]


def japanese(stitch: str) -> str:
    """The name of a symbol in the table of stitches."""
    return next(name.name for name in reference.stitches()[stitch].names if name.language == "ja")


@pytest.mark.parametrize("stitch", JIS_L_0201)
def test_a_symbol_has_its_name_of_jis_l_0201(stitch: str) -> None:
    """Many lists swap 1040 and 1050: the left stitch lies on top in k2tog, the right one in ssk."""
    assert JIS_L_0201[stitch][1] == japanese(stitch)


@pytest.mark.parametrize("stitch", reference.stitches())
def test_the_stitch_on_top_says_how_a_decrease_leans(stitch: str) -> None:
    """右上, the right stitch on top, leans left; 左上 right (teachers of the trade). Purl sides are not judged."""
    row, name = reference.stitches()[stitch], japanese(stitch)
    top = next((top for top in TOP_STITCH_LEANS if name.startswith(top)), None)

    assert (top is not None) == (
        row.uses > row.leaves and row.leans in ("left", "right") and "p" not in stitch[:2]
    )
    if top is not None:
        assert TOP_STITCH_LEANS[top].endswith(f"leans {row.leans}")


def test_the_key_of_a_chart_is_japanese(service: httpx.Client) -> None:
    """Plain stitch and decrease by their names; heading and how to read it stay English."""
    answer = service.get(
        "/v1/drawings/crown.svg", params={"stitches": 80, "style": "wedge", "language": "ja"}
    )

    assert answer.headers["content-language"] == "ja, en-US"
    assert legend(answer.text)[:2] == ["表目", "左上2目一度（右に傾く）"]
    assert "Crown on 80 stitches" in answer.text
    assert "knit two together" not in re.sub("<desc.*?</desc>", "", answer.text)


@pytest.mark.parametrize(
    ("path", "parameters"),
    [
        ("/v1/drawings/profile.svg", {"gauge_stitches": 20, "gauge_rows": 28, "head": "56cm"}),
        ("/v1/drawings/needles.svg", {"stitches": 80, "style": "wedge", "needles": 4}),
        ("/v1/drawings/spacing.svg", {"stitches": 80, "change": -8}),
    ],
)
def test_every_picture_has_a_japanese_key(
    service: httpx.Client, path: str, parameters: dict[str, str | int]
) -> None:
    """The hat, the needles and the spacing too."""
    answer = service.get(path, params={**parameters, "language": "ja"})

    assert answer.status_code == 200, answer.text
    assert len(legend(answer.text)) >= 2


def test_all_other_answers_are_english_with_a_warning(service: httpx.Client) -> None:
    """A language of pictures alone is there in no other answer, nor by `Accept-Language`."""
    body = {"stitches": 80, "style": "wedge", "language": "ja"}
    answer = service.post("/v1/crown", json=body)
    by_header = service.get(
        "/v1/drawings/crown.svg", params={"stitches": 80}, headers={"accept-language": "ja"}
    )

    assert answer.headers["content-language"] == "en-US"
    assert "language_unknown" in {warning["code"] for warning in answer.json()["warnings"]}
    assert by_header.headers["content-language"] == "en-US"
    assert legend(by_header.text) == []


def test_a_catalogue_of_pictures_has_the_keys_and_placeholders_of_the_english_one() -> None:
    """All texts of keys, and nothing else."""
    english = {message.id: message for message in catalogue("en-US") if isinstance(message.id, str)}
    keys = {key for key in english if key.startswith(("picture.key.", "picture.leans."))}

    assert PICTURE_LANGUAGES
    assert not set(PICTURE_LANGUAGES) & set(LANGUAGES)
    for code in PICTURE_LANGUAGES:
        with (PICTURE_CATALOGUES / f"{code}.po").open("rb") as file:
            messages = [message for message in read_po(file) if message.id]
        assert keys == {message.id for message in messages}
        for message in messages:
            assert placeholders(message.string) == placeholders(texts(english[message.id])[0]), message.id
