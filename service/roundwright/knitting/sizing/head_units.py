"""Heads in doubtful units: a measured head that nobody has, and that would be somebody's in the other unit."""

import re
from typing import Final

from roundwright.knitting.answers import Notice
from roundwright.knitting.quantities import Length, LengthUnit, UnitSystem, length, mm, quantity_text
from roundwright.knitting.sizing.head_references import CM_MM, INCH_MM
from roundwright.language import Message, joined, say

SMALLEST_BABY_MM: Final = 180.0
"""The 3rd centile at 22 weeks of gestation, the youngest in the references, is 18.1 cm."""
LARGEST_PRETERM_MM: Final = 260.0
"""The median at 28 weeks of gestation (INTERGROWTH-21st, 25.9 cm); in inches the same number is a grown-up's head."""
LARGEST_MEASURED_MM: Final = 660.0
"""Five standard deviations above the mean of men (ANSUR II: 57.44 and 1.60 cm)."""

_OLDER: Final = re.compile(
    r"\b(?:adults?|grown.?ups?|wom[ae]n|m[ae]n|lad(?:y|ies)|teen\w*|child(?:ren)?|kids?|toddlers?|years?"
    r"|frau(?:en)?|damen?|herr(?:en)?|mann|männer|erwachsene\w*|kind(?:er)?|jahre?"
    r"|femmes?|hommes?|adultes?|enfants?|ans|mujer(?:es)?|hombres?|adultos?|niñ[ao]s?|años?"
    r"|herre|voksen|voksne|barn|børn|år)\b",
    re.IGNORECASE,
)
"""Words by which a size is called that is no newborn's, in the languages of the service (from memory)."""


def unit_notices(head: Length, pointer: str) -> tuple[Notice, ...]:
    """The warning that a measured head is smaller or larger than any; `pointer` is the head."""
    head_mm = mm(head)
    if head_mm < SMALLEST_BABY_MM and _is_a_head_in_inches(head):
        return (
            _notice(
                joined(
                    " ",
                    say("head.smaller_than_any", head=quantity_text(head), least=_in_cm(SMALLEST_BABY_MM)),
                    _in_inches(head),
                ),
                pointer,
            ),
        )
    if head_mm <= LARGEST_MEASURED_MM:
        return ()
    in_cm = SMALLEST_BABY_MM <= head.value * CM_MM <= LARGEST_MEASURED_MM
    larger = (
        say("head.larger_than_any", head=quantity_text(head))
        if head.unit == "cm"
        else say("head.larger_than_any.converted", head=quantity_text(head), in_cm=_in_cm(head_mm))
    )
    meant = _would_be(Length(head.value, "cm"), head.value * CM_MM, "imperial") if in_cm else ""
    return (
        _notice(
            joined(" ", larger, meant if head.unit != "cm" else ""),
            pointer,
        ),
    )


def label_notices(label: str | None, head: Length | None, pointer: str) -> tuple[Notice, ...]:
    """The warning that a head of a baby born far too early has the name of a child's or a grown-up's size."""
    if label is None or head is None or not _OLDER.search(label) or not _is_a_head_in_inches(head):
        return ()
    if not SMALLEST_BABY_MM <= mm(head) <= LARGEST_PRETERM_MM:
        return ()
    return (
        _notice(
            joined(" ", say("head.not_called_so", head=quantity_text(head)), _in_inches(head)),
            pointer,
        ),
    )


def in_another_unit(head: Length) -> Length | None:
    """The same number in the unit in which it is somebody's head: 560 mm for 560 cm; None where there is none."""
    units: tuple[LengthUnit, ...] = ("cm", "in", "mm", "m")
    meant = (Length(head.value, unit) for unit in units if unit != head.unit)
    return next((other for other in meant if SMALLEST_BABY_MM <= mm(other) <= LARGEST_MEASURED_MM), None)


def _is_a_head_in_inches(head: Length) -> bool:
    """Whether a head in centimetres would be somebody's if its number were inches."""
    return head.unit == "cm" and SMALLEST_BABY_MM <= head.value * INCH_MM <= LARGEST_MEASURED_MM


def _in_inches(head: Length) -> Message:
    return _would_be(Length(head.value, "in"), head.value * INCH_MM, "metric")


def _would_be(head: Length, head_mm: float, units: UnitSystem) -> Message:
    return say("head.would_be", head=quantity_text(head), converted=quantity_text(length(head_mm, units), 3))


def _in_cm(head_mm: float) -> Message:
    return quantity_text(length(head_mm, "metric"), 3)


def _notice(message: Message, pointer: str) -> Notice:
    return Notice(
        code="unusual_head",
        message=joined(" ", message, say("head.check_number")),
        pointer=f"{pointer}/unit",
    )
