"""The handout as data for a PDF; `typeset` makes the PDF, with the fonts in the package of Typst.

The template `handout.typ` gets every text as data, never as markup, so that no name can be read as an instruction.
"""

from typing import Any, Final

import msgspec

from roundwright.language import Words
from roundwright.wording.handout.content import (
    Handout,
    SizeSheet,
    cast_on_text,
    how_to_tick,
    needle_headings,
    round_heading,
    sheet_heading,
    straight_text,
)

LETTERS_A_LINE: Final = 30
"""Letters of a round's text that fit in a line beside the counts of five needles."""
STRAIGHT_LETTERS_A_LINE: Final = 60
"""Letters that fit in a line of a straight part; a box takes as much room as two."""
LINES_A_PAGE: Final = 56
"""Lines of a sheet that fit a Letter page under the heading of the sheets."""


def typst_data(handout: Handout, words: Words) -> bytes:
    """The data of the template, as JSON."""
    return msgspec.json.encode(
        {
            "name": handout.name,
            "paper": handout.paper,
            "language": words.tag,
            "hyphens": not words.is_english,
            "beginner": handout.beginner,
            "word": round_heading(handout, words),
            "work": words.say("handout.work_heading"),
            "count": words.say("handout.count"),
            "sections": [(section.heading, section.lines) for section in handout.sections],
            "yarn_to_buy": words.say("handout.yarn_to_buy"),
            "shopping": handout.shopping,
            "before_handing_out": (words.say("handout.before_handing_out"), handout.before_handing_out),
            "to_tick_off": words.say("handout.to_tick_off"),
            "to_tick": how_to_tick(handout, words),
            "pictures": handout.pictures(),
            "sheets": [_sheet_data(handout, sheet, words) for sheet in handout.sheets],
        },
        enc_hook=words.render,
    )


def _sheet_data(handout: Handout, sheet: SizeSheet, words: Words) -> dict[str, Any]:
    return {
        "heading": sheet_heading(handout, sheet),
        "start": cast_on_text(sheet, words),
        "whole": _fits_a_page(sheet, words),
        "straight": [(straight_text(part, words), part.boxes) for part in sheet.straight],
        "heads": needle_headings(sheet, words),
        "crown": sheet.crown,
    }


def _fits_a_page(sheet: SizeSheet, words: Words) -> bool:
    """Whether the sheet may be kept on one page: one that does not fit would run off the paper."""
    texts = [text for round in sheet.crown for text in (round.slide, round.work) if text]
    lines = sum(1 + len(text) // LETTERS_A_LINE for text in texts)
    straight = [len(straight_text(part, words)) + 2 * part.boxes for part in sheet.straight]
    lines += sum(1 + letters // STRAIGHT_LETTERS_A_LINE for letters in straight)
    return lines + len(sheet.crown) // 2 <= LINES_A_PAGE
