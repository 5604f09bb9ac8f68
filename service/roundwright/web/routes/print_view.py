"""`/handout`: the plan of the page for people as a handout to print, by its address alone.

The form of the page leads here without JavaScript.
"""

import re
from functools import cache
from typing import Annotated, Any, Final, Literal
from urllib.parse import parse_qsl, urlencode

import msgspec
from litestar.types import HTTPScope, Receive, Send
from msgspec import Meta
from msgspec.structs import asdict

from roundwright.knitting.hat.needles import HatNeedles
from roundwright.knitting.hat.request import MOST_SIZES, HatSize
from roundwright.knitting.quantities import Length, mm_in
from roundwright.knitting.sizing.head_units import LARGEST_MEASURED_MM, LARGEST_PRETERM_MM
from roundwright.language import Words, supported, words_of
from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.problems import (
    MEDIA_TYPE,
    PROBLEM,
    Fault,
    FaultCode,
    ProblemError,
    did_you_mean,
    to_problem,
)
from roundwright.web.routes import people
from roundwright.web.routes.content_negotiation import best_media_type
from roundwright.web.routes.hats import write_handout
from roundwright.web.routes.operation import HTML, PageLookup, send_answer
from roundwright.web.routes.request_faults import faults_of
from roundwright.wording.handout.content import Handout, HandoutRequest
from roundwright.wording.handout.html import STYLES, html, policy

_NEEDLES: Final = {
    "3": HatNeedles(double_pointed=3),
    "4": HatNeedles(double_pointed=4),
    "magic_loop": HatNeedles(magic_loop=Length(80, "cm")),
    "magic_loop_100": HatNeedles(magic_loop=Length(100, "cm")),
    "circulars": HatNeedles(circulars=2),
    "circular": HatNeedles(circular=Length(40, "cm")),
}
MAX_SIZE: Final = 80
"""Characters of one size: a label of forty and the longest way to say a head."""
_SIZE: Final = re.compile(
    r"([0-9]{1,4}(?:[.,][0-9]{1,4})?)? ?([^\W\d_]+|[\"”″])?(?: ?[x×] ?([0-9]{1,4}))?",
    re.IGNORECASE,
)
_AGES: Final = {"months": "age_months", "years": "age_years", "weeks": "gestation_weeks"}
_LENGTHS: Final = {"cm": "cm", **dict.fromkeys(("in", "inch", "inches", '"', "”", "″"), "in")}
_TEXTS: Final = ("sizes", "name", "yarn_name", "other_yarn_name")
"""Fields that are no numbers, whatever is in them."""
_TYPED: Final = re.compile(r"([0-9]+)(?:[.,]([0-9]+))?\s*([a-z]*)", re.IGNORECASE)


class PrintedPlan(HandoutRequest, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A handout as the form of the page says it: the sizes are a text, the needles one of a few."""

    sizes: Annotated[  # type: ignore[assignment]
        str, Meta(description="`55.5 cm; Marrow: 9 months x 4; woman`, or one on each line.")
    ]
    needles: Literal["3", "4", "magic_loop", "magic_loop_100", "circulars", "circular"] | None = None  # type: ignore[assignment]

    def request(self) -> HandoutRequest:
        """The request for this handout. Raises `ProblemError` for a size that cannot be read, or is out of range."""
        texts = [text for text in re.split("[;\n]", self.sizes) if text.strip()]
        if not 1 <= len(texts) <= MOST_SIZES:
            detail = f"There are {len(texts)} sizes, and there may be 1 to {MOST_SIZES}."
            raise _wrong_sizes("wrong_length", detail)
        words = words_of(self.language)
        sizes = tuple(_size(text, words) for text in texts)
        needles = None if self.needles is None else _NEEDLES[self.needles]
        return HandoutRequest(**(asdict(self) | {"sizes": sizes, "needles": needles}))


def _size(text: str, words: Words) -> HatSize:
    """A size as the form says it, in English or in other words: `Marrow: 9 months x 4`, `9 Monate`.

    Raises `ProblemError` for what says no size, and for one that is out of range.
    """
    shown = " ".join(text.split())
    label, _, head = shown.rpartition(":")
    match = _SIZE.fullmatch(head.strip()) if len(shown) <= MAX_SIZE else None
    number, unit, makers = match.groups() if match else (None, None, None)
    value = float(number.replace(",", ".")) if number else None
    if unit is None and value is not None and LARGEST_PRETERM_MM < value * mm_in("cm") <= LARGEST_MEASURED_MM:
        unit = "cm"  # as the label says; fewer may be inches, or an age
    size: dict[str, Any] = {"label": label.strip() or None, "makers": int(makers or 1)}
    written = (unit or "").casefold()
    match _units(ENGLISH_WORDS).get(written) or _units(words).get(written):
        case "woman" | "man" as adult if value is None:
            size["adult"] = adult
        case "cm" | "in" as length_unit if value is not None:
            size["head"] = {"value": value, "unit": length_unit}
        case "months" | "years" | "weeks" as age if value is not None:
            size[_AGES[age]] = value
        case _:
            example = "; ".join(
                (
                    f"{words.number(55.5)} cm",
                    f"{_age('months', 9, words)} x 4",
                    _age("years", 3, words),
                    words.say("size.woman"),
                )
            )
            raise _wrong_sizes("wrong_form", f"{shown[:MAX_SIZE]!r} cannot be read as a size.", example)
    try:
        return msgspec.convert(size, HatSize)
    except msgspec.ValidationError as error:
        (fault, *_) = faults_of(size, msgspec.json.schema, HatSize)
        must = fault.detail.partition(". ")[0].removesuffix(
            "."
        )  # what the field is follows, by names of the interface
        raise _wrong_sizes(fault.code, f"{shown!r}: {must}.") from error


@cache
def _units(words: Words) -> dict[str, str]:
    """What stands behind the number of a size, or alone, in the words of a language."""
    ages = {_age(age, number, words).split()[-1]: age for age in _AGES for number in (1, 2)}
    return {
        word.casefold(): unit
        for word, unit in (
            ages | _LENGTHS | {words.say(f"size.{adult}"): adult for adult in ("woman", "man")}
        ).items()
    }


def _age(age: str, number: int, words: Words) -> str:
    return words.say_count(f"age.{age}", number, number=number)


def _wrong_sizes(code: FaultCode, detail: str, nearest: str | None = None) -> ProblemError:
    return ProblemError(
        "cannot-be-knitted", detail, Fault(code=code, detail=detail, parameter="sizes"), nearest=nearest
    )


class FormLookup(PageLookup):
    """A GET whose parameters come from a form: empty fields are left out, and numbers are taken as people type them.

    A mistake is answered with a page where the caller is a browser, and with a problem to anybody else.
    """

    async def exchange(self, scope: HTTPScope, receive: Receive, send: Send) -> None:
        """Read the form and answer with the handout, or with what is wrong in the form."""
        try:
            await super().exchange(scope, receive, send)
        except ProblemError as error:
            headers = dict(scope["headers"])
            accept = headers.get(b"accept", b"*/*").decode("latin-1")
            if best_media_type(accept, (MEDIA_TYPE, "text/html")) != "text/html":
                raise
            problem, _ = to_problem(error, scope["path"])
            scope["state"][PROBLEM] = problem
            fields = dict(parse_qsl(scope["query_string"].decode("latin-1")))
            language = supported(fields.get("language", "")) or self.preferred_language(headers)
            lines = [(name.encode(), value.encode()) for name, value in people.HEADERS.items()]
            content = people.handout_problem(problem, language)
            body = b"" if scope["method"] == "HEAD" else content
            own = [(b"content-type", b"text/html; charset=utf-8"), (b"content-length", b"%d" % len(content))]
            await send_answer(problem.status, [*own, (b"cache-control", b"no-store"), *lines], body, send)

    def prepared(self, query: bytes, media_type: str) -> bytes:
        """The query without empty fields, its numbers as the service writes them."""
        query = super().prepared(query, media_type)
        fields = [
            (name, text.strip() if name in _TEXTS else _plain(text.strip(), people.unit_of_field(name)))
            for name, text in parse_qsl(query.decode("latin-1"))
        ]
        return urlencode([(name, text) for name, text in fields if text]).encode()

    def is_foreign(self, name: str) -> bool:
        """Whether a parameter is no field, and resembles none."""
        return super().is_foreign(name) and not did_you_mean(name, self.reader.parameters)


def _plain(text: str, usual: str) -> str:
    """A number or quantity without blank or decimal comma, a bare number in the `usual` unit; other text as it is."""
    typed = _TYPED.fullmatch(text)
    if typed is None:
        return text
    whole, decimals, written = typed.groups()
    unit = written or usual
    return f"{whole}.{decimals}{unit}" if decimals else f"{whole}{unit}"


@FormLookup(
    "/handout",
    example="printed-plan",
    renderers={HTML: html},
    headers={"content-security-policy": policy(*STYLES), "referrer-policy": "no-referrer"},
    can_be_impossible=True,
)
def print_view(plan: PrintedPlan) -> Handout:
    """The handout of `/v1/hats/handout` as a page to print."""
    handout: Handout = write_handout.calculate(plan.request())
    return handout
