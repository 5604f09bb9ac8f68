"""The handout as the data of a PDF, which `typeset` sets with the fonts the package of Typst carries.

What is said goes to the template `handout.typ` as data, never as markup, so that no name can be read as an instruction.
"""

from typing import Any, Final

import msgspec

from roundwright.wording.handout.content import Handout, Sheet
from roundwright.wording.handout.text import TO_TICK, heading, needle_heads, start, straight

LETTERS_IN_A_LINE: Final = 30
"""Letters that fit beside the counts of five needles, at the least."""
LINES_ON_A_PAGE: Final = 56
"""Lines of a sheet that fit a Letter page under the head of the sheets."""


def typst_data(handout: Handout) -> bytes:
    """What the template is given, as JSON."""
    return msgspec.json.encode(_said(handout))


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
