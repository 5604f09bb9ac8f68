"""The handout as plain text and as Markdown."""

import re
from collections.abc import Iterable, Sequence
from typing import Final

from roundwright.language import Words
from roundwright.wording.handout.content import (
    Handout,
    SizeSheet,
    StraightPart,
    cast_on_text,
    how_to_tick,
    needle_headings,
    round_heading,
    sheet_heading,
    straight_text,
)
from roundwright.wording.writing.pattern import Section, pattern_text


def plain_text(handout: Handout, words: Words) -> bytes:
    """The handout as plain text: boxes are `[ ]`."""
    shopping = handout.shopping
    rows = _columns([shopping.head, *shopping.rows], left=1)
    blocks = [
        pattern_text(handout.name, map(_indented, handout.sections)).rstrip(),
        "\n".join([words.say("handout.yarn_to_buy").upper(), *rows, *shopping.notes]),
        f"{words.say('handout.to_tick_off').upper()}\n{how_to_tick(handout, words)}",
        *(_plain_sheet(handout, sheet, words) for sheet in handout.sheets),
    ]
    if handout.before_handing_out:
        heading = words.say("handout.before_handing_out").upper()
        blocks.append("\n".join([heading, *handout.before_handing_out]))
    return ("\n\n".join(blocks) + "\n").encode()


def _indented(section: Section) -> Section:
    """The section with its notes indented under the rounds they belong to."""
    return section._replace(
        lines=tuple(
            line._replace(text=f"  {line.text}") if line.kind == "note" else line for line in section.lines
        )
    )


def _plain_sheet(handout: Handout, sheet: SizeSheet, words: Words) -> str:
    lines = [sheet_heading(handout, sheet).upper(), cast_on_text(sheet, words)]
    for part in sheet.straight:
        lines += [straight_text(part, words), _boxes(part, "[ ]")]
    needles = needle_headings(sheet, words)
    work, count = words.say("handout.work_heading"), words.say("handout.count")
    table = [("", round_heading(handout, words), count, *needles, work)]
    for round in sheet.crown:
        if round.slide:
            table.append(("", "", "", *[""] * len(needles), round.slide))
        counts = (str(round.number), str(round.count), *round.needles)
        table.append(("[ ]", *counts, round.work))
    return "\n".join([*lines, "", *_columns(table, left=1)])


def _boxes(part: StraightPart, box: str) -> str:
    """The boxes in groups of five, four groups a line."""
    fives = [box * min(5, part.boxes - first) for first in range(0, part.boxes, 5)]
    lines = [" ".join(fives[first : first + 4]) for first in range(0, len(fives), 4)]
    return "\n".join(lines)


def _columns(rows: Sequence[Sequence[str]], *, left: int) -> list[str]:
    """Rows in columns as wide as their widest cell; the first `left` columns and the last are aligned to the left."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    last = len(widths) - 1
    return [
        "  ".join(
            cell.ljust(width) if column < left or column == last else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


# --- Markdown -------------------------------------------------------------------------------------------------------


def markdown(handout: Handout, words: Words) -> bytes:
    """The handout as Markdown with the tables of GitHub Flavored Markdown: boxes are ☐."""
    shopping = handout.shopping
    blocks = [
        f"# {escaped(handout.name)}",
        *(_section(section) for section in handout.sections),
        f"## {escaped(words.say('handout.yarn_to_buy'))}",
        _table(shopping.head, shopping.rows, text_column=0),
        *map(escaped, shopping.notes),
        f"## {escaped(words.say('handout.to_tick_off'))}",
        escaped(how_to_tick(handout, words)),
        *(block for sheet in handout.sheets for block in _sheet(handout, sheet, words)),
    ]
    if handout.before_handing_out:
        blocks.append(f"## {escaped(words.say('handout.before_handing_out'))}")
        blocks += map(escaped, handout.before_handing_out)
    return ("\n\n".join(blocks) + "\n").encode()


def _section(section: Section) -> str:
    lines = [escaped(line.text) for line in section.lines]
    listed = lines if len(lines) == 1 else [f"- {line}" for line in lines]
    return "\n".join([f"## {escaped(section.heading)}", "", *listed])


def _sheet(handout: Handout, sheet: SizeSheet, words: Words) -> Iterable[str]:
    yield f"### {escaped(sheet_heading(handout, sheet))}"
    yield escaped(cast_on_text(sheet, words))
    for part in sheet.straight:
        yield f"{escaped(straight_text(part, words))}  \n{_boxes(part, '☐')}"
    rows = [
        (
            "☐",
            str(round.number),
            f"{round.slide} {round.work}".strip(),
            str(round.count),
            *round.needles,
        )
        for round in sheet.crown
    ]
    work, count = words.say("handout.work_heading"), words.say("handout.count")
    head = ("", round_heading(handout, words), work, count, *needle_headings(sheet, words))
    yield _table(head, rows, text_column=2)


def _table(head: Sequence[str], rows: Iterable[Sequence[str]], *, text_column: int) -> str:
    """A table; the cells of `text_column` are aligned to the left, numbers to the right."""
    alignments = [":---" if column == text_column else "---:" for column in range(len(head))]
    lines = [map(escaped, head), alignments, *(map(escaped, row) for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def escaped(text: str) -> str:
    """A line with backslashes, so that Markdown shows it as it is (CommonMark 0.31, backslash escapes)."""
    return _BLOCK_MARK.sub(r"\1\\\2", _INLINE_MARK.sub(r"\\\g<0>", text))


_INLINE_MARK: Final = re.compile(r"[\\`*_\[\]<>&|~#]")
_BLOCK_MARK: Final = re.compile(r"^(\d*(?=[.)](?:\s|$))|(?=[-+=]))(.)")
"""The character that makes the start of a line a list, a heading or a rule."""
