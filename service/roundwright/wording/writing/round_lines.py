"""The lines of a pattern that are rounds: a straight part (brim or body) and the crown, for all sizes together.

Sizes share a line where it differs in its numbers alone. Each line begins with `Rnd 3:`, `Next 12 rnds:` or, for
beginners, `Round 3:` and `Next 12 rounds:`, and ends with the count to check.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.hat.brim_and_body import HatPart
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.needles.holds import holder
from roundwright.knitting.rounds.round import Round
from roundwright.wording.writing.colours import crown_change
from roundwright.wording.writing.needles import change_lines, lines_of_sizes
from roundwright.wording.writing.plain_language import plain_sentences, stitch_count
from roundwright.wording.writing.size_lists import shared_lines, size_list, sizes_note

LineKind = Literal["text", "round", "note"]


class Line(NamedTuple):
    """One line of a pattern; a round is something to tick off, an indented note belongs to the round beside it."""

    text: str
    kind: LineKind = "text"


class Wording:
    """The words of a pattern that depend on the country (`terms`) and on the knitter (`wording`)."""

    def __init__(self, request: HatRequest) -> None:
        self.request = request
        self.beginner = request.wording == "beginner"
        self.is_uk = request.terms == "uk"
        terms = {row.us: row.uk if self.is_uk else row.us for row in reference.terms()}
        self.gauge = terms["gauge"]
        self.stockinette = terms["stockinette"]

    def steps(self, round: Round) -> str:
        """The steps of a round, without its number and its count."""
        return self.in_terms(plain_sentences(round.steps)) if self.beginner else round.text

    def in_terms(self, text: str) -> str:
        """A sentence in the words of the country, where it has `gauge`, `colour` or `centred`."""
        if self.is_uk:
            return _GAUGE.sub("tension", text)
        return _COLOUR.sub("color", _CENTRED.sub(r"\1entered", text))

    def colour_changes(self, plans: Sequence[HatPlan], skipped: Sequence[int], number: int) -> list[str]:
        """For beginners, the colour to go on with before the round of that number in the pattern, where it changes."""
        if not self.beginner or self.request.colours is None:
            return []
        colours = self.request.colours
        changes = [
            crown_change(colours, plan, number - skip) for plan, skip in zip(plans, skipped, strict=True)
        ]
        return lines_of_sizes([None if colour is None else f"Change to {colour}." for colour in changes])

    def rounds_start(self, first: int, last: int, note: str) -> str:
        """The start of the line of numbered rounds that are equal; `note` names their sizes."""
        noun = "Round" if self.beginner else "Rnd"
        return f"{noun} {first}{note}: " if first == last else f"{noun}s {first}-{last}{note}: "

    def next_rounds_start(self, rounds: str, note: str) -> str:
        """The start of the line of a number of equal rounds; `note` names their sizes."""
        if rounds == "1":
            return f"Next {'round' if self.beginner else 'rnd'}{note}: "
        return f"Next {rounds} {'rounds' if self.beginner else 'rnds'}{note}: "

    def count(self, counts: Sequence[int]) -> str:
        """The end of a line: the count of each size, to check."""
        singular = set(counts) == {1}
        if self.beginner:
            return f" You have {size_list(counts)} {'stitch' if singular else 'stitches'}."
        return f" — {size_list(counts)} {'st' if singular else 'sts'}"


_GAUGE: Final = re.compile(r"\bgauge\b")
_COLOUR: Final = re.compile(r"\bcolour")
_CENTRED: Final = re.compile(r"\b([Cc])entred\b")


# --- straight parts -----------------------------------------------------------------------------------------------


def different_rounds(part: HatPart) -> tuple[Round, ...]:
    """The different rounds of a straight part, in working order; none for a part without rounds."""
    lines = part.lines if part.rounds_in_turn else ()
    if part.adjust is None:
        return lines
    return (part.adjust, *lines) if part.part == "body" else (*lines, part.adjust)


def straight_lines(
    parts: Sequence[HatPart], wording: Wording, holds: Sequence[str] | None = None
) -> Iterator[Line]:
    """The lines of a straight part, given one part a size: each round, or rounds in turn, with how many are worked.

    The round that changes the count comes first in a body and last in a brim. `holds` is what each size is on.
    """
    holds = holds or ["double_pointed"] * len(parts)
    adjust = _adjust_lines([part.adjust for part in parts], wording, holds)
    if parts[0].part == "body":
        yield from adjust
    sizes_by_lines: dict[int, list[int]] = {}
    for size, part in enumerate(parts):
        if part.rounds_in_turn:
            sizes_by_lines.setdefault(len(part.lines), []).append(size)
    for line_count, sizes in sizes_by_lines.items():
        lines = _equal_rounds if line_count == 1 else _rounds_in_turn
        yield from lines(parts, sizes, wording)
    yield from adjust


def _adjust_lines(rounds: Sequence[Round | None], wording: Wording, holds: Sequence[str]) -> Iterator[Line]:
    """The round from the count of the brim to that of the body, with what is slid before it."""
    texts = [None if round is None else wording.steps(round) for round in rounds]
    for line in shared_lines(texts):
        of_sizes = {size: round for size in line.sizes if (round := rounds[size]) is not None}
        yield from _slides(of_sizes, holds)
        start = wording.next_rounds_start("1", sizes_note(line.sizes, len(rounds)))
        count = wording.count([round.after for round in of_sizes.values()])
        yield Line(start + line.text + count, "round")


def _equal_rounds(parts: Sequence[HatPart], sizes: Sequence[int], wording: Wording) -> Iterator[Line]:
    texts = [wording.steps(part.lines[0]) if size in sizes else None for size, part in enumerate(parts)]
    for line in shared_lines(texts):
        shared = [parts[size] for size in line.sizes]
        note = sizes_note(line.sizes, len(parts))
        start = wording.next_rounds_start(size_list(part.rounds_in_turn for part in shared), note)
        yield Line(start + line.text + wording.count([part.lines[0].after for part in shared]), "round")


def _rounds_in_turn(parts: Sequence[HatPart], sizes: Sequence[int], wording: Wording) -> Iterator[Line]:
    """Rounds worked in turn, such as garter stitch: the first of them, then how often they are repeated."""
    note = sizes_note(sizes, len(parts))
    shared = [parts[size] for size in sizes]
    first = shared[0].lines
    for number, round in enumerate(first, start=1):
        count = wording.count([part.lines[number - 1].after for part in shared])
        yield Line(wording.rounds_start(number, number, note) + wording.steps(round) + count, "round")
    longer = [size for size in sizes if parts[size].rounds_in_turn > len(first)]
    if longer:
        repeated = [parts[size] for size in longer]
        rounds = "Rounds" if wording.beginner else "Rnds"
        repeat = "Repeat rounds 1 and 2." if wording.beginner else "rep rnds 1 and 2"
        last = size_list(part.rounds_in_turn for part in repeated)
        count = wording.count([part.lines[-1].after for part in repeated])
        yield Line(
            f"{rounds} {len(first) + 1}-{last}{sizes_note(longer, len(parts))}: {repeat}{count}", "round"
        )


# --- crown --------------------------------------------------------------------------------------------------------


def crown_lines(plans: Sequence[HatPlan], wording: Wording) -> list[Line]:
    """The rounds of the crown; each note stands once, before the first round it belongs to.

    Rounds are numbered from the start of each size, or from that of the size with the most rounds, where the others
    join in: whichever takes fewer lines.
    """
    return _shortest_crown(plans, wording)[1]


def skipped_numbers(plans: Sequence[HatPlan], wording: Wording) -> Sequence[int]:
    """How many numbers of the pattern's crown stand before the first round of each size."""
    return _shortest_crown(plans, wording)[0]


def _shortest_crown(plans: Sequence[HatPlan], wording: Wording) -> tuple[Sequence[int], list[Line]]:
    rounds = [len(plan.crown.rounds) for plan in plans]
    ways = {(0,) * len(plans), tuple(max(rounds) - number for number in rounds)}
    written = [(skipped, list(_numbered_crown(plans, skipped, wording))) for skipped in sorted(ways)]
    return min(written, key=lambda way: len(way[1]))


def _numbered_crown(plans: Sequence[HatPlan], skipped: Sequence[int], wording: Wording) -> Iterator[Line]:
    """The lines of the crown where each size skips as many numbers before its first round."""
    last_numbers = [len(plan.crown.rounds) + skip for plan, skip in zip(plans, skipped, strict=True)]
    written_notes: set[str] = set()
    number, last = 1, max(last_numbers, default=0)
    while number <= last:
        yield from _joining_sizes(skipped, number)
        yield from (Line(f"  {text}", "note") for text in change_lines(plans, skipped, number))
        yield from (Line(f"  {text}", "note") for text in wording.colour_changes(plans, skipped, number))
        of_sizes = _rounds_of_sizes(plans, skipped, number)
        until = number
        while _continues(of_sizes, _rounds_of_sizes(plans, skipped, until + 1)) and not (
            wording.colour_changes(plans, skipped, until + 1)
        ):
            until += 1
        texts = [wording.steps(of_sizes[size]) if size in of_sizes else None for size in range(len(plans))]
        for line in shared_lines(texts):
            rounds = {size: of_sizes[size] for size in line.sizes}
            yield from _slides(rounds, holds_of(plans))
            notes = dict.fromkeys(note for round in rounds.values() for note in round.notes)
            yield from (Line(f"  {note}", "note") for note in notes if note not in written_notes)
            written_notes.update(notes)
            start = wording.rounds_start(number, until, sizes_note(line.sizes, len(plans)))
            count = wording.count([round.after for round in rounds.values()])
            yield Line(start + line.text + count, "round")
        yield from _finished_sizes(plans, last_numbers, until, wording)
        number = until + 1


def _rounds_of_sizes(plans: Sequence[HatPlan], skipped: Sequence[int], number: int) -> dict[int, Round]:
    """The rounds with a number in the pattern, by size."""
    return {
        size: plan.crown.rounds[place]
        for size, plan in enumerate(plans)
        if 0 <= (place := number - 1 - skipped[size]) < len(plan.crown.rounds)
    }


def _continues(rounds: Mapping[int, Round], following: Mapping[int, Round]) -> bool:
    """Whether the rounds of all sizes are worked again as they are, so that one line can say it."""
    return rounds.keys() == following.keys() and all(
        (round.before, round.after, round.text) == (again.before, again.after, again.text)
        and round.before == round.after
        and not (again.moves or again.notes)
        for round, again in zip(rounds.values(), following.values(), strict=True)
    )


def _joining_sizes(skipped: Sequence[int], number: int) -> Iterable[Line]:
    """Sizes whose crown begins with this round while others have begun."""
    sizes = [size for size, skip in enumerate(skipped) if skip == number - 1]
    if number > 1 and sizes:
        yield Line(f"  {_sizes(sizes)}: begin here.", "note")


def _sizes(sizes: Sequence[int]) -> str:
    """Sizes by their numbers: `Size 2`, `Sizes 1, 2 and 4`."""
    *first, last = [str(size + 1) for size in sizes]
    return f"Sizes {', '.join(first)} and {last}" if first else f"Size {last}"


def holds_of(plans: Sequence[HatPlan]) -> list[str]:
    """What holds the stitches of each size; double-pointed needles where the request names none."""
    return ["double_pointed" if plan.needles is None else plan.needles.hold for plan in plans]


def _slides(rounds: Mapping[int, Round], holds: Sequence[str]) -> Iterator[Line]:
    """The stitches to slide before a round, given by size; sizes that slide alike share a line."""
    texts = [_slide(rounds[size], hold) if size in rounds else None for size, hold in enumerate(holds)]
    for line in shared_lines(texts):
        yield Line(f"  Before the next round{sizes_note(line.sizes, len(holds))} slide {line.text}.", "note")


def _slide(round: Round, hold: str) -> str | None:
    slides = [
        f"{stitch_count(move.stitches)} from {holder(hold, move.needle)} to {holder(hold, move.needle + 1)}"
        for move in round.moves
    ]
    return ", ".join(slides) or None


def _finished_sizes(
    plans: Sequence[HatPlan], last_numbers: Sequence[int], number: int, wording: Wording
) -> Iterable[Line]:
    """Sizes whose crown ends with this round while others go on."""
    sizes = [size for size, last in enumerate(last_numbers) if last == number]
    if sizes and number < max(last_numbers):
        left = size_list(plans[size].crown.stitches_left for size in sizes)
        stitches = "stitches" if wording.beginner else "sts"
        yield Line(
            f"  {_sizes(sizes)}: the crown is done, {left} {stitches} are left. Go on to Finishing.", "note"
        )
