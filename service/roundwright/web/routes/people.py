"""The page for people at `/`: a plan, a proofreader and help with a wrong count, in a browser.

The page is files in `pages/people`, served as they are: it calculates nothing and calls the operations of this service.
Its words are one file a language, such as `words-en.json`, read by the scripts, and put into `index.html` here.
"""

import re
from functools import cache
from html import escape
from pathlib import Path
from typing import Any, Final

import msgspec
from msgspec import Struct

from roundwright.language import Language, Words
from roundwright.web.routes.operation import JSON, Lookup, Operation
from roundwright.web.routes.typesetter import Typesetter
from roundwright.web.settings import Settings

FOLDER: Final = Path(__file__).parent / "pages" / "people"
HEADERS: Final = {
    "content-security-policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; "
    "require-trusted-types-for 'script'; trusted-types 'none'",
    "referrer-policy": "no-referrer",
}
MEDIA_TYPES: Final = {
    ".js": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".json": JSON,
    ".svg": "image/svg+xml",
}


class PageRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The language of the page for people."""

    language: Language = None


def page(_service: Any, words: Words) -> bytes:
    """The page, with its words in their places; in English where the page has no words of the language."""
    languages = (words.code, words.code.partition("-")[0], "en")
    return _page(next(code for code in languages if code in _texts()))


@cache
def _page(language: str) -> bytes:
    texts = _texts()
    links = "".join(
        f'<a href="?language={code}" lang="{code}" hreflang="{code}">{escape(text["language_name"])}</a> '
        for code, text in texts.items()
        if code != language
    )
    options = "".join(
        f'<option value="{code}" lang="{code}">{escape(text["language_name"])}</option>'
        for code, text in texts.items()
        if code != "en"  # of which there are two for a pattern
    )
    filled = {name: escape(text) for name, text in texts[language].items() if isinstance(text, str)}
    filled |= {"language": language, "language_links": links, "language_options": options}
    template = (FOLDER / "index.html").read_text("utf-8")
    return re.sub(r"\{\{(\w+)\}\}", lambda name: filled[name[1]], template).encode()


@cache
def _texts() -> dict[str, dict[str, Any]]:
    """The words of the page in every language it has."""
    return {
        file.stem.removeprefix("words-"): msgspec.json.decode(file.read_bytes())
        for file in sorted(FOLDER.glob("words-*.json"))
    }


def files() -> list[Operation]:
    """The files that the page loads."""
    return [_file(file) for file in sorted(FOLDER.iterdir()) if file.suffix in MEDIA_TYPES]


class _Asked(Lookup):
    """A file that a browser asks after each time: the files of two releases do not work together."""

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the settings for caches."""
        super().prepare(settings, typesetter)
        self.headers[0] = (b"cache-control", b"no-cache")


def _file(file: Path) -> Operation:
    @_Asked(f"/page/{file.name}", renderers={MEDIA_TYPES[file.suffix]: lambda content, _: content})
    def get_file() -> bytes:
        return file.read_bytes()

    return get_file
