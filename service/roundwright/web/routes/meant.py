"""What a wrong value was probably meant as: `21"` is 21in, `55,5` is 55.5, `de_DE` is de-DE."""

import re
from typing import Any, Final

from roundwright.web.problems import same_meaning

_NUMBER: Final = r"(?P<whole>-?\d{1,9})(?:[.,](?P<decimals>\d{1,9})|\s(?P<over>\d)/(?P<under>[2-9]|1[0-9]))?"
_NUMBER_AND_UNIT: Final = re.compile(rf"{_NUMBER}\s{{0,3}}(?P<unit>[^\d\s.,/+-][^\d]{{0,15}})?")
_UNITS_OF_PATTERN: Final = re.compile(r"\(([a-z]+(?:\|[a-z]+)+)\)\$\Z")
_LIST: Final = re.compile(r"\d{1,9}(?:[\s;|/]{1,3}\d{1,9}){1,30}")
_INCH_MARKS: Final = ('"', "''", "″", "”")
_DECREASES: Final = ("decrease", "decreases", "dec")
_INCREASES: Final = ("increase", "increases", "inc")
_TRUE: Final = ("yes", "y", "1", "on", "true", "ja", "oui", "si")
_FALSE: Final = ("no", "n", "0", "off", "false", "nein", "non", "nej", "nei")


def number_meant(text: str) -> str | None:
    """The number of a text that is one with a decimal comma, a fraction, a unit or quotation marks, as in JSON."""
    match = _NUMBER_AND_UNIT.fullmatch(text.strip())
    return None if match is None else _number(match)


def quantity_meant(value: Any, units: list[str]) -> tuple[str, str | None] | None:
    """Number and unit of a quantity written in another way; the unit is None where there was none."""
    match = _NUMBER_AND_UNIT.fullmatch(str(value).strip()) if isinstance(value, str | int | float) else None
    if match is None or isinstance(value, bool):
        return None
    written = (match["unit"] or "").strip()
    if not written:
        return _number(match), None
    unit = "in" if written in _INCH_MARKS else same_meaning(written, units)
    return None if unit not in units else (_number(match), unit)


def text_meant(text: str, pattern: str) -> str | None:
    """A text that fits a pattern, which a caller probably meant; None where none is known."""
    if units := _UNITS_OF_PATTERN.search(pattern):
        number, unit = quantity_meant(text, units[1].split("|")) or ("", None)
        candidates = [f"{number}{unit}"] if unit else []
    else:
        plain = text.strip()
        candidates = [plain, plain.replace("_", "-"), plain.upper(), plain.lower()]
    return next((candidate for candidate in candidates if re.search(pattern, candidate)), None)


def is_quantity(pattern: str) -> bool:
    """Whether a pattern is that of a number with its unit."""
    return _UNITS_OF_PATTERN.search(pattern) is not None


def list_meant(text: str) -> str | None:
    """A list of whole numbers with commas, where a text has other signs between them."""
    return re.sub(r"[\s;|/]+", ",", text.strip()) if _LIST.fullmatch(text.strip()) else None


def boolean_meant(text: str) -> str | None:
    """True or false as in JSON, where a text says yes or no."""
    word = text.strip().lower()
    return "true" if word in _TRUE else "false" if word in _FALSE else None


def change_meant(name: str, value: Any) -> int | None:
    """The change of a count that a field was meant as: `decrease` of 8 is -8, `increase` of 8 is 8; None for others."""
    sign = -1 if name in _DECREASES else 1 if name in _INCREASES else 0
    return sign * abs(value) if sign and isinstance(value, int) and not isinstance(value, bool) else None


def _number(match: re.Match[str]) -> str:
    if match["over"]:
        return f"{int(match['whole']) + int(match['over']) / int(match['under']):.6g}"
    decimals = f".{match['decimals']}" if match["decimals"] else ""
    return match["whole"] + decimals
