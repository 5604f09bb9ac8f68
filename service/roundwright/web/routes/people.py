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

from roundwright.language import Language, Words, words_of
from roundwright.web.problems import Fault, Problem
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
    return _page(_language_of_page(words.code))


def _language_of_page(code: str) -> str:
    """The language that the page speaks for a language."""
    return next(known for known in (code, code.partition("-")[0], "en") if known in _texts())


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
    number = words_of(language).number
    return _filled(
        "index.html",
        language,
        language_links=links,
        language_options=options,
        example_price=number(8.5, ".2f"),
        example_size=f"{number(55.5)} cm",
    )


def _filled(file: str, language: str, **values: str) -> bytes:
    """A file with the words of a language in their places; values are HTML."""
    texts = {name: escape(text) for name, text in _texts()[language].items() if isinstance(text, str)}
    filled = texts | {"language": language} | values
    template = (FOLDER / file).read_text("utf-8")
    return re.sub(r"\{\{(\w+)\}\}", lambda name: filled[name[1]], template).encode()


def handout_problem(problem: Problem, code: str) -> bytes:
    """A page that says what is wrong with the form, at which field, and what would work; in a language of the page.

    What is not as the document says is worded for programs, so it is said in the words of the page; what cannot be
    knitted is worded for knitters, in English.
    """
    language = _language_of_page(code)
    texts = _texts()[language]
    faults = []
    for fault in problem.errors:
        name = fault.parameter or ""
        label = texts.get(_fields().get(name, {}).get("label", ""), name)
        detail = _in_words(problem.status, fault, language)
        faults.append(texts["at_field"].replace("{field}", label).replace("{detail}", detail))
    if problem.nearest:
        faults.append(texts["nearest"].replace("{nearest}", problem.nearest))
    lines = "".join(f"<li>{escape(text)}</li>" for text in faults or [problem.detail])
    return _filled("handout-problem.html", language, faults=lines)


_LIMIT: Final = re.compile(r"This must be at (least|most) (-?[0-9]+(?:\.[0-9]+)?)\.")
_MUST_BE: Final = {
    "number": "not_a_number",
    "price": "not_a_number",
    "whole": "not_whole",
    "mass": "not_a_measure",
    "length": "not_a_measure",
}
"""The text that says what a field takes, by its `data-type`."""


def _in_words(status: int, fault: Fault, language: str) -> str:
    """A fault in the words of the page, as `inWords` of `base.js` says it; what a field takes, as `valueOf` there."""
    texts, field = _texts()[language], _fields().get(fault.parameter or "", {})
    in_short: str = texts.get(f"fault_{fault.code}", fault.detail)
    if status == 422:
        return fault.detail if language == "en" else f"{in_short} {fault.detail}"
    words = words_of(language)
    if limit := _LIMIT.match(fault.detail):
        limited: str = texts[f"fault_at_{limit[1]}"]
        return limited.replace("{limit}", words.number(float(limit[2])))
    must_be = _MUST_BE.get(field.get("data-type", ""))
    if must_be is None or fault.code not in ("wrong_type", "wrong_form"):
        return in_short
    example = field.get("data-example", "").replace(".", words.decimal_sign)
    taken: str = texts[must_be]
    return taken.replace("{example}", example).replace("{unit}", field.get("data-unit", ""))


def unit_of_field(name: str) -> str:
    """The unit of a bare number in a field of the form, as its label or what it asks for says; empty without one."""
    return _fields().get(name, {}).get("data-unit", "")


@cache
def _fields() -> dict[str, dict[str, str]]:
    """The attributes of each field of the form by its name, with the name of the text that is its `label`."""
    template = (FOLDER / "index.html").read_text("utf-8")
    form = template.partition('id="plan-form"')[2].partition("</form>")[0]
    fields = {}
    for label, written in re.findall(r"\{\{(\w+)\}\}<(?:input|select|textarea) ([^>]*)>", form):
        attributes = dict(re.findall(r'([\w-]+)="([^"]*)"', written))
        fields[attributes.get("name", "")] = attributes | {"label": label}
    return fields | {"sizes": {"label": "heads"}}


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


class _FileLookup(Lookup):
    """A file that a browser asks after each time: the files of two releases do not work together."""

    def prepare(self, settings: Settings, typesetter: Typesetter) -> None:
        """Apply the settings for caches."""
        super().prepare(settings, typesetter)
        self.headers[0] = (b"cache-control", b"no-cache")


def _file(file: Path) -> Operation:
    @_FileLookup(f"/page/{file.name}", renderers={MEDIA_TYPES[file.suffix]: lambda content, _: content})
    def get_file() -> bytes:
        return file.read_bytes()

    return get_file
