"""The handout as a PDF, set by Typst with the fonts its package carries.

What is said goes to the template `handout.typ` as data, never as markup, so that no name can be read as an instruction.
"""

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import msgspec

from roundwright.wording.handout import Handout, Sheet
from roundwright.wording.handout_text import TO_TICK, heading, needle_heads, start, straight

if TYPE_CHECKING:
    from typst import Compiler

TEMPLATE: Final = Path(__file__).parent / "handout.typ"
REMEMBERED: Final = 10
"""Documents through which Typst remembers what it has laid out. Empty ones make it forget: no two handouts are alike,
and without them a hundred large ones hold 300 MB more."""
LETTERS_IN_A_LINE: Final = 30
"""Letters that fit beside the counts of five needles, at the least."""
LINES_ON_A_PAGE: Final = 56
"""Lines of a sheet that fit a Letter page under the head of the sheets."""


def pdf(handout: Handout) -> bytes:
    """The handout as a PDF: tagged, so that it can be read out, and without a date, so that the same is the same."""
    said = msgspec.json.encode(_said(handout)).decode()
    typst = _compiler()
    made = typst.compile(input=_template(), format="pdf", sys_inputs={"handout": said})
    for _ in range(REMEMBERED):
        typst.compile(input=b"", format="pdf", sys_inputs={})
    assert isinstance(made, bytes)
    return made


@cache
def _compiler() -> "Compiler":
    """Typst, imported when the first PDF is asked for: few callers do, and its library is large."""
    from typst import Compiler

    return Compiler(ignore_system_fonts=True)


@cache
def _template() -> bytes:
    return TEMPLATE.read_bytes()


def _said(handout: Handout) -> dict[str, Any]:
    """What the template takes: the handout, with everything in words that the other forms have in words."""
    return {
        "name": handout.name,
        "paper": handout.paper,
        "word": handout.word,
        "sections": handout.sections,
        "shopping": handout.shopping,
        "to_tick": TO_TICK,
        "pictures": handout.pictures(),
        "sheets": [_sheet(handout, sheet) for sheet in handout.sheets],
    }


def _sheet(handout: Handout, sheet: Sheet) -> dict[str, Any]:
    return {
        "heading": heading(handout, sheet),
        "start": start(sheet),
        "whole": _fits_a_page(sheet),
        "straight": [(straight(part), part.boxes) for part in sheet.straight],
        "heads": needle_heads(sheet),
        "needles": sheet.needles,
        "crown": sheet.crown,
    }


def _fits_a_page(sheet: Sheet) -> bool:
    """Whether the sheet may be kept together: what is and does not fit would run off the paper."""
    said = [text for one in sheet.crown for text in (one.slide, one.work) if text]
    lines = sum(1 + len(text) // LETTERS_IN_A_LINE for text in said)
    lines += sum(1 + (len(straight(part)) + 2 * part.boxes) // 60 for part in sheet.straight)
    return lines + len(sheet.crown) // 2 <= LINES_ON_A_PAGE
