"""The languages there are, their names on the wire, and the choice between them."""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Final

from msgspec import Meta

CATALOGUES: Final = Path(__file__).parent / "catalogues"
PICTURE_CATALOGUES: Final = CATALOGUES / "pictures"

ENGLISH: Final = "en-US"
"""The language of an answer where nothing is requested, and of what a catalogue lacks."""

LANGUAGES: Final[tuple[str, ...]] = tuple(
    sorted(path.stem.replace("_", "-") for path in CATALOGUES.glob("*.po"))
)
"""The languages there are (BCP 47): a catalogue each."""

PICTURE_LANGUAGES: Final[tuple[str, ...]] = tuple(
    sorted(path.stem.replace("_", "-") for path in PICTURE_CATALOGUES.glob("*.po"))
)
"""The languages in which pictures have their keys, and nothing else is said."""

_CLOSEST: Final[Mapping[str, str]] = {"no": "nb", "nn": "nb"}
"""Tags that are served in the words of another: Norwegian without a form, and Nynorsk."""

_Tag = Annotated[str, Meta(pattern="^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,3}$", max_length=35, examples=["de"])]

Language = Annotated[
    _Tag | None,
    Meta(
        description="Language of the words in the answer, as a BCP 47 tag: "
        + ", ".join(f"`{code}`" for code in LANGUAGES)
        + ". Left out: by `Accept-Language`, where any English is `en-US`, else `en-US`. A language that is not there "
        "gets English and a warning, or the header `Content-Language` alone where the answer is a text or a picture."
    ),
]

PictureLanguage = Annotated[
    _Tag | None,
    Meta(
        description="Language of the words in the picture, as a BCP 47 tag: "
        + ", ".join(f"`{code}`" for code in LANGUAGES)
        + "; in "
        + ", ".join(f"`{code}`" for code in PICTURE_LANGUAGES)
        + " the key with the names of the chart symbols, and all else in English. Left out: by `Accept-Language`, "
        "else `en-US`; a language for keys alone has to be named here. A language that is not there gets English."
    ),
]


def supported(tag: str, *, in_pictures: bool = False) -> str | None:
    """The language there is for a tag, by lookup as in RFC 4647, 3.4 (`de-AT` is `de`); None without.

    `in_pictures`: those in which pictures have their keys are there too.
    """
    languages = _BY_TAG_IN_PICTURES if in_pictures else _BY_TAG
    parts = tag.split("-")
    while parts:
        found = languages.get("-".join(parts).lower())
        if found is not None:
            return found
        parts.pop()
    return None


def language_of(requested: str | None, preferred: str = ENGLISH, *, in_pictures: bool = False) -> str:
    """The language of an answer: as requested, English where that is not there; else the preferred one."""
    return preferred if requested is None else supported(requested, in_pictures=in_pictures) or ENGLISH


_BY_TAG: Final[Mapping[str, str]] = {
    **{code.lower(): code for code in LANGUAGES},
    "en": ENGLISH,
    **_CLOSEST,
}
_BY_TAG_IN_PICTURES: Final[Mapping[str, str]] = {
    **{code.lower(): code for code in PICTURE_LANGUAGES},
    **_BY_TAG,
}
