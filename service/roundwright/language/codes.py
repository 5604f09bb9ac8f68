"""The languages there are, their names on the wire, and the choice between them."""

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Final

from msgspec import Meta

CATALOGUES: Final = Path(__file__).parent / "catalogues"

ENGLISH: Final = "en-US"
"""The language of an answer where nothing is requested, and of what a catalogue lacks."""

LANGUAGES: Final[tuple[str, ...]] = tuple(
    sorted(path.stem.replace("_", "-") for path in CATALOGUES.glob("*.po"))
)
"""The languages there are (BCP 47): a catalogue each."""

MAX_ACCEPT_LANGUAGE: Final = 1_024
"""Characters of an `Accept-Language` that is parsed; browsers send about 40."""

_CLOSEST: Final[Mapping[str, str]] = {"no": "nb", "nn": "nb"}
"""Tags that are served in the words of another: Norwegian without a form, and Nynorsk."""

Language = Annotated[
    Annotated[
        str,
        Meta(pattern="^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,3}$", max_length=35, examples=["de"]),
    ]
    | None,
    Meta(
        description="Language of the words in the answer, as a BCP 47 tag: "
        + ", ".join(f"`{code}`" for code in LANGUAGES)
        + ". Left out: by `Accept-Language`, else `en-US`. A language that is not there gets English and a warning."
    ),
]


def supported(tag: str) -> str | None:
    """The language there is for a tag, by lookup as in RFC 4647, 3.4 (`de-AT` is `de`); None without."""
    parts = tag.split("-")
    while parts:
        found = _BY_TAG.get("-".join(parts).lower())
        if found is not None:
            return found
        parts.pop()
    return None


def language_of(requested: str | None, accept_language: str = "") -> str:
    """The language of an answer: as requested, else as `Accept-Language` prefers, else English."""
    if requested is not None:
        return supported(requested) or ENGLISH
    return best_language(accept_language) if accept_language else ENGLISH


@lru_cache(maxsize=128)
def best_language(accept_language: str) -> str:
    """The language of highest quality in an `Accept-Language` (RFC 9110, 12.5.4); English where none is there.

    All English is `en-US` here: UK terms are chosen by a request, not by a browser.
    """
    if len(accept_language) > MAX_ACCEPT_LANGUAGE:
        return ENGLISH
    chosen, highest = ENGLISH, 0.0
    for part in accept_language.split(","):
        tag, _, parameter = part.partition(";")
        quality = _quality(parameter)
        found = ENGLISH if tag.strip() == "*" else supported(tag.strip())
        if found is not None and quality > highest:
            chosen, highest = found, quality
    return ENGLISH if chosen.startswith("en") else chosen


def _quality(parameter: str) -> float:
    name, _, value = parameter.partition("=")
    if name.strip().lower() != "q":
        return 1.0
    value = value.strip()
    return min(float(value), 1.0) if value.replace(".", "", 1).isdecimal() and len(value) <= 5 else 0.0


_BY_TAG: Final[Mapping[str, str]] = {
    **{code.lower(): code for code in LANGUAGES},
    "en": ENGLISH,
    **_CLOSEST,
}
