"""The handout as plain text and as Markdown."""

import re
from collections.abc import Iterable, Sequence
from typing import Final

from roundwright.wording.handout.content import Handout, Sheet, StraightPart
from roundwright.wording.writing.pattern import Section, pattern_text

TO_TICK: Final = (
    "A box is a round: tick it when it is done. Count is what you have after the round; N1 is the first needle, with "
    "its stitches under it."
)


def plain_text(handout: Handout) -> bytes:
    """The handout as plain text: boxes are `[ ]`."""
    shopping = handout.shopping
    rows = _columns([shopping.head, *shopping.rows], left=1)
    blocks = [
        pattern_text(handout.name, map(_indented, handout.sections)).rstrip(),
        "\n".join(["YARN TO BUY", *rows, *shopping.notes]),
        f"TO TICK OFF\n{TO_TICK}",
        *(_plain_sheet(handout, sheet) for sheet in handout.sheets),
    ]
    return ("\n\n".join(blocks) + "\n").encode()


def _indented(section: Section) -> Section:
    """The section with its notes set in, as the rounds they belong to are not."""
    return section._replace(
        lines=tuple(
            line._replace(text=f"  {line.text}") if line.kind == "note" else line for line in section.lines
        )
    )


def _plain_sheet(handout: Handout, sheet: Sheet) -> str:
    lines = [heading(handout, sheet).upper(), start(sheet)]
    for part in sheet.straight:
        lines += [straight(part), _boxes(part, "[ ]")]
    needles = needle_heads(sheet)
    table = [("", handout.word, "Count", *needles, "Work")]
    for one in sheet.crown:
        if one.slide:
            table.append(("", "", "", *[""] * len(needles), one.slide))
        held = [str(count) for count in one.needles]
        table.append(("[ ]", str(one.number), str(one.count), *held, one.work))
    return "\n".join([*lines, "", *_columns(table, left=1)])


def heading(handout: Handout, sheet: Sheet) -> str:
    """What a sheet is headed with: the label, with the size's number where there are several."""
    return f"{sheet.number}. {sheet.label}" if len(handout.sheets) > 1 else sheet.label


def start(sheet: Sheet) -> str:
    """How the sheet begins: the cast-on, and the stitches on each needle."""
    if not sheet.needles:
        return f"Cast on {sheet.cast_on}."
    return f"Cast on {sheet.cast_on}: {' + '.join(map(str, sheet.needles))} on the needles."


def straight(part: StraightPart) -> str:
    """The rounds of a straight part in words: `Brim, 8 rounds: knit`."""
    rounds = f"{part.rounds} round{'' if part.rounds == 1 else 's'}"
    until = f", to {part.until} from the cast-on edge" if part.until else ""
    each = f" (a box is {part.per_box} rounds)" if part.per_box > 1 else ""
    if len(part.work) == 1:
        return f"{part.name}, {rounds}{until}{each}: {part.work[0]}"
    turns = " / ".join(f"{number}. {said}" for number, said in enumerate(part.work, start=1))
    return f"{part.name}, {rounds}{until}{each}, in turn: {turns}"


def needle_heads(sheet: Sheet) -> tuple[str, ...]:
    """Heads of the columns of the needles."""
    return tuple(f"N{number}" for number in range(1, len(sheet.needles) + 1))


def _boxes(part: StraightPart, box: str) -> str:
    """The boxes in fives, ten to a group as hands count."""
    fives = [box * min(5, part.boxes - first) for first in range(0, part.boxes, 5)]
    lines = [" ".join(fives[first : first + 4]) for first in range(0, len(fives), 4)]
    return "\n".join(lines)


def _columns(rows: Sequence[Sequence[str]], *, left: int) -> list[str]:
    """Rows in columns as wide as their widest cell: the first `left` and the last to the left, others to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    last = len(widths) - 1
    return [
        "  ".join(
            cell.ljust(width) if place < left or place == last else cell.rjust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


# --- Markdown -------------------------------------------------------------------------------------------------------


def markdown(handout: Handout) -> bytes:
    """The handout as Markdown with the tables of GitHub Flavored Markdown: boxes are ☐."""
    shopping = handout.shopping
    blocks = [
        f"# {escaped(handout.name)}",
        *(_section(section) for section in handout.sections),
        "## Yarn to buy",
        _table(shopping.head, shopping.rows, words=0),
        *map(escaped, shopping.notes),
        "## To tick off",
        escaped(TO_TICK),
        *(block for sheet in handout.sheets for block in _sheet(handout, sheet)),
    ]
    return ("\n\n".join(blocks) + "\n").encode()


def _section(section: Section) -> str:
    lines = [escaped(line.text) for line in section.lines]
    listed = lines if len(lines) == 1 else [f"- {line}" for line in lines]
    return "\n".join([f"## {escaped(section.heading)}", "", *listed])


def _sheet(handout: Handout, sheet: Sheet) -> Iterable[str]:
    yield f"### {escaped(heading(handout, sheet))}"
    yield escaped(start(sheet))
    for part in sheet.straight:
        yield f"{escaped(straight(part))}  \n{_boxes(part, '☐')}"
    rows = [
        ("☐", str(one.number), f"{one.slide} {one.work}".strip(), str(one.count), *map(str, one.needles))
        for one in sheet.crown
    ]
    yield _table(("", handout.word, "Work", "Count", *needle_heads(sheet)), rows, words=2)


def _table(head: Sequence[str], rows: Iterable[Sequence[str]], *, words: int) -> str:
    """A table; `words` is the column that is not of numbers."""
    sides = [":---" if place == words else "---:" for place in range(len(head))]
    lines = [map(escaped, head), sides, *(map(escaped, row) for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def escaped(said: str) -> str:
    """A line that Markdown shows as it stands (CommonMark 0.31, backslash escapes)."""
    return _AT_START.sub(r"\1\\\2", _MARKS.sub(r"\\\g<0>", said))


_MARKS: Final = re.compile(r"[\\`*_\[\]<>&|~#]")
_AT_START: Final = re.compile(r"^(\d*(?=[.)](?:\s|$))|(?=[-+=]))(.)")
