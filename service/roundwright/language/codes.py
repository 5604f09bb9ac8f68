"""The languages there are, their names on the wire, and the choice between them."""

from collections.abc import Mapping
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


def language_of(requested: str | None, preferred: str = ENGLISH) -> str:
    """The language of an answer: as requested, English where that is not there; else the preferred one."""
    return preferred if requested is None else supported(requested) or ENGLISH


_BY_TAG: Final[Mapping[str, str]] = {
    **{code.lower(): code for code in LANGUAGES},
    "en": ENGLISH,
    **_CLOSEST,
}
