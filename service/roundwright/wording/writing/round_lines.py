"""The lines of a pattern that are rounds: a straight part (brim or body) and the crown, for all sizes together.

Sizes share a line where it differs in its numbers alone. Each line begins with `Rnd 3:`, `Next 12 rnds:` or, for
beginners, `Round 3:` and `Next 12 rounds:`, and ends with the count to check.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.crown.crown import FIRST_DECREASE
from roundwright.knitting.hat.brim_and_body import HatPart, PartKind
from roundwright.knitting.hat.numbering import rounds_of_sizes, worked_again
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.rounds.round import Round, StitchName, stitch_names
from roundwright.language import Words, sentence_start, words_of
from roundwright.wording.writing.colours import crown_change
from roundwright.wording.writing.needles import change_lines, lines_of_sizes, only_for
from roundwright.wording.writing.plain_language import plain_sentences
from roundwright.wording.writing.size_lists import (
    SharedLine,
    counted,
    plural_number,
    shared_lines,
    size_list,
    size_numbers,
    sizes_note,
)

LineKind = Literal["text", "round", "note"]


class Line(NamedTuple):
    """One line of a pattern; a round is something to tick off, an indented note belongs to the round beside it."""

    text: str
    kind: LineKind = "text"


class Wording:
    """The words of a pattern: of its language, of the country (`terms`), and of the knitter (`wording`)."""

    def __init__(self, request: HatRequest) -> None:
        self.request = request
        self.beginner = request.wording == "beginner"
        self.is_uk = request.terms == "uk"
        self.words = words_of(request.language or ("en-GB" if self.is_uk else None))
        self.style = "beginner" if self.beginner else "short"
        self.of_sizes = request.only_size is None and len(request.sizes) > 1
        self.explained: set[StitchName] = set()
        """Stitches that a beginner has read of: the lines are made in working order."""

    def steps(self, round: Round) -> str:
        """The steps of a round, without its number and its count."""
        if self.beginner:
            return self.in_terms(plain_sentences(round.steps, self.words))
        return self.words.render(round.text)

    def straight_steps(self, round: Round, part: PartKind, place: int) -> str:
        """The steps of a round of a straight part; `place` is that of its size.

        The stitch pattern of the body's own swatch is not in the request: the text says to work as in the swatch.
        """
        request = self.request
        own = request.body_of(place if request.only_size is None else request.only_size - 1).gauge
        if part != "body" or own is None or own == request.gauge or round.before != round.after:
            return self.steps(round)
        work = self.words.say("pattern.own_pattern")
        return f"{sentence_start(work)}." if self.beginner else work

    def in_terms(self, text: str) -> str:
        """A sentence in the words of the country, where it has `gauge` or `centred` in English."""
        if not self.words.is_english:
            return text
        if self.is_uk:
            return _GAUGE.sub("tension", text)
        return _CENTRED.sub(r"\1entered", text)

    def colour_changes(self, plans: Sequence[HatPlan], number: int) -> list[str]:
        """For beginners, the colour to go on with before the round of that number in the pattern, where it changes."""
        if not self.beginner or self.request.colours is None:
            return []
        changes = [crown_change(self.request.colours, plan, number) for plan in plans]
        texts = [
            None if colour is None else self.words.say("line.change_colour", colour=colour)
            for colour in changes
        ]
        return lines_of_sizes(texts, self.words)

    def stitches(self, counts: Iterable[int]) -> str:
        """The stitches of each size, in words as they are written in the pattern."""
        return counted("stitches" if self.beginner else "sts", counts, self.words)

    def how_to(self, rounds: Iterable[Round], note: str, in_turn: Collection[Round] = ()) -> Iterator[Line]:
        """For beginners, how stitches are worked that come for the first time.

        Where they come in a line that is not for all sizes, as its `note` says, it is said that this is for every size,
        unless all sizes work them in this round: `in_turn` has the rounds of all of them.
        """
        if not self.beginner:
            return
        used = {name for round in rounds for name in stitch_names(round.steps)} - self.explained
        self.explained.update(used)
        for name in reference.stitches():
            if name in used:
                stitch = sentence_start(self.words.stitch_plain(name))
                how = self.words.say("pattern.how_to", stitch=stitch, how=self.words.say(f"how.{name}"))
                now = in_turn and all(name in stitch_names(round.steps) for round in in_turn)
                yield _note(self.in_terms(self.for_every_size(how) if note and not now else how))

    def for_every_size(self, note: str) -> str:
        """A note at a line of some sizes that the others need too."""
        return self.words.say("line.note_for_every_size", note=note)

    def note(self, sizes: Sequence[int], size_count: int) -> str:
        """The note that a line is not for all sizes; empty where it is for all."""
        return sizes_note(sizes, size_count, self.words)

    def merged(self, texts: Sequence[str | None]) -> list[SharedLine]:
        """The lines of all sizes, merged where they differ in their numbers alone."""
        return shared_lines(texts, self.words)

    def rounds_start(self, first: int, last: int, note: str) -> str:
        """The start of the line of numbered rounds that are equal; `note` names their sizes."""
        if first == last:
            return self.words.say(f"line.round.{self.style}", number=first, note=note)
        return self.rounds_to(first, str(last), note)

    def rounds_to(self, first: int, last: str, note: str) -> str:
        """The start of the line of numbered rounds; `last` is the number of the last in each size."""
        kind = "rounds_to"
        if last.isdigit():
            kind = "two_rounds" if int(last) == first + 1 else "rounds"
        return self.words.say(f"line.{kind}.{self.style}", first=first, last=last, note=note)

    def next_rounds_start(self, rounds: Sequence[int], note: str) -> str:
        """The start of the line of a number of equal rounds in each size; `note` names their sizes."""
        return self.words.say_count(
            f"line.next_rounds.{self.style}",
            plural_number(rounds),
            rounds=size_list(rounds, self.words),
            note=note,
        )

    def line(self, start: str, work: str, counts: Sequence[int]) -> Line:
        """The line of a round, which ends with the count of each size, to check."""
        style = "of_sizes" if self.of_sizes and not self.beginner else self.style
        text = self.words.say(f"line.{style}", start=start, work=work, stitches=self.stitches(counts))
        return Line(text, "round")


_GAUGE: Final = re.compile(r"\bgauge\b")
_CENTRED: Final = re.compile(r"\b([Cc])entred\b")


# --- straight parts -----------------------------------------------------------------------------------------------


def different_rounds(part: HatPart) -> tuple[Round, ...]:
    """The different rounds of a straight part, in working order; none for a part without rounds."""
    lines = part.lines if part.rounds_in_turn else ()
    if part.adjust is None:
        return lines
    return (part.adjust, *lines) if part.part == "body" else (*lines, part.adjust)


def straight_lines(parts: Sequence[HatPart], wording: Wording, holds: Sequence[str]) -> Iterator[Line]:
    """The lines of a straight part, given one part a size: each round, or rounds in turn, with how many are worked.

    The round that changes the count comes first in a body and last in a brim. `holds` is what each size is on.
    """
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
    for line in wording.merged(texts):
        of_sizes = {size: round for size in line.sizes if (round := rounds[size]) is not None}
        yield from _slides(of_sizes, holds, wording)
        note = wording.note(line.sizes, len(rounds))
        yield from wording.how_to(of_sizes.values(), note)
        start = wording.next_rounds_start([1], note)
        yield wording.line(start, line.text, [round.after for round in of_sizes.values()])


def _equal_rounds(parts: Sequence[HatPart], sizes: Sequence[int], wording: Wording) -> Iterator[Line]:
    texts = [
        wording.straight_steps(part.lines[0], part.part, size) if size in sizes else None
        for size, part in enumerate(parts)
    ]
    for line in wording.merged(texts):
        shared = [parts[size] for size in line.sizes]
        note = wording.note(line.sizes, len(parts))
        start = _start_of_equal_rounds(shared, wording, note)
        yield from wording.how_to([part.lines[0] for part in shared], note)
        yield wording.line(start, line.text, [part.lines[0].after for part in shared])


def _start_of_equal_rounds(parts: Sequence[HatPart], wording: Wording, note: str) -> str:
    """A brim's rounds have numbers, since the first is often worked with the join; those of a body are the next."""
    rounds = [part.rounds_in_turn for part in parts]
    if parts[0].part == "body":
        return wording.next_rounds_start(rounds, note)
    if max(rounds) == 1:
        return wording.rounds_start(1, 1, note)
    return wording.rounds_to(1, size_list(rounds, wording.words), note)


def _rounds_in_turn(parts: Sequence[HatPart], sizes: Sequence[int], wording: Wording) -> Iterator[Line]:
    """Rounds worked in turn, such as garter stitch: the first of them, then how often they are repeated."""
    note = wording.note(sizes, len(parts))
    shared = [parts[size] for size in sizes]
    first = shared[0].lines
    for number, round in enumerate(first, start=1):
        counts = [part.lines[number - 1].after for part in shared]
        yield from wording.how_to([round], note)
        yield wording.line(wording.rounds_start(number, number, note), wording.steps(round), counts)
    longer = [size for size in sizes if parts[size].rounds_in_turn > len(first)]
    if longer:
        repeated = [parts[size] for size in longer]
        last = size_list([part.rounds_in_turn for part in repeated], wording.words)
        start = wording.rounds_to(len(first) + 1, last, wording.note(longer, len(parts)))
        again = wording.words.say(f"line.again.{wording.style}")
        yield wording.line(start, again, [part.lines[-1].after for part in repeated])


# --- crown --------------------------------------------------------------------------------------------------------


def crown_lines(plans: Sequence[HatPlan], wording: Wording) -> Iterator[Line]:
    """The rounds of the crown; each note stands before the first round it belongs to, once for a size or for all."""
    first_numbers = [plan.crown.rounds[0].number if plan.crown.rounds else 1 for plan in plans]
    last_numbers = [plan.crown.rounds[-1].number if plan.crown.rounds else 0 for plan in plans]
    crowns = [plan.crown.rounds for plan in plans]
    marker_notes = _sizes_of_marker_notes(crowns)
    written_notes: set[tuple[int, str]] = set()
    number, last = 1, max(last_numbers, default=0)
    while number <= last:
        yield from _joining_sizes(first_numbers, number, wording)
        yield from map(_note, change_lines(plans, number, wording.words))
        yield from map(_note, wording.colour_changes(plans, number))
        of_sizes = rounds_of_sizes(crowns, first_numbers, number)
        until = number
        while worked_again(of_sizes, rounds_of_sizes(crowns, first_numbers, until + 1)) and not (
            wording.colour_changes(plans, until + 1)
        ):
            until += 1
        texts = [wording.steps(of_sizes[size]) if size in of_sizes else None for size in range(len(plans))]
        for line in wording.merged(texts):
            rounds = {size: of_sizes[size] for size in line.sizes}
            yield from _slides(rounds, holds_of(plans), wording)
            yield from _notes(rounds, len(plans), marker_notes, written_notes, wording, of_sizes=of_sizes)
            note = wording.note(line.sizes, len(plans))
            in_turn = of_sizes.values() if len(of_sizes) == len(plans) else ()
            yield from wording.how_to(rounds.values(), note, in_turn)
            start = wording.rounds_start(number, until, note)
            yield wording.line(start, line.text, [round.after for round in rounds.values()])
        yield from _finished_sizes(plans, last_numbers, until, wording)
        number = until + 1


def _joining_sizes(first_numbers: Sequence[int], number: int, wording: Wording) -> Iterable[Line]:
    """Sizes whose crown begins with this round while others have begun."""
    sizes = [size for size, first in enumerate(first_numbers) if first == number]
    if number > 1 and sizes:
        yield _note(wording.words.say_count("line.begin_here", len(sizes), sizes=size_numbers(sizes)))


def _notes(
    rounds: Mapping[int, Round],
    size_count: int,
    sizes_by_note: Mapping[str, frozenset[int]],
    written: set[tuple[int, str]],
    wording: Wording,
    *,
    of_sizes: Mapping[int, Round],
) -> Iterator[Line]:
    """The notes to the rounds of a line, by size, that are not written yet; one that is not of all names its sizes.

    A note on the marker stands once, and then holds for sizes that come to such a round later: it says so, unless all
    have it now, in the rounds of `of_sizes`. It is about rounds below it, so that it names its sizes where others of
    the pattern have no such round.
    """
    for note in dict.fromkeys(note for round in rounds.values() for note in round.notes):
        sizes = [
            size for size, round in rounds.items() if note in round.notes and (size, note) not in written
        ]
        if not sizes:
            continue
        later = sizes_by_note.get(note, frozenset()) - set(sizes)
        written.update((size, note) for size in (*sizes, *later))
        text = wording.words.render(note)
        of_line = len(rounds)
        if note in sizes_by_note:  # it stands below the round before the one that it is about
            text = wording.words.say("line.marker_note", note=text)
            of_line = size_count
        needed = sorted({*sizes, *later})
        if len(needed) < of_line:
            yield _note(only_for(needed, text, wording.words))
        else:
            now = all(size in of_sizes and note in of_sizes[size].notes for size in later)
            yield _note(text if now else wording.for_every_size(text))


def _sizes_of_marker_notes(crowns: Sequence[Sequence[Round]]) -> dict[str, frozenset[int]]:
    """The sizes that have a note on the marker at the start of the round, by note."""
    return {
        note: frozenset(
            size for size, crown in enumerate(crowns) if any(note in round.notes for round in crown)
        )
        for note in FIRST_DECREASE.values()
    }


def _note(text: str) -> Line:
    """A note to the round below it."""
    return Line(f"  {text}", "note")


def holds_of(plans: Sequence[HatPlan]) -> list[str]:
    """What holds the stitches of each size; double-pointed needles where the request names none."""
    return ["double_pointed" if plan.needles is None else plan.needles.hold for plan in plans]


def _slides(rounds: Mapping[int, Round], holds: Sequence[str], wording: Wording) -> Iterator[Line]:
    """The stitches to slide before a round, given by size; sizes that slide alike share a line."""
    words = wording.words
    texts = [_slide(rounds[size], hold, words) if size in rounds else None for size, hold in enumerate(holds)]
    for line in wording.merged(texts):
        note = wording.note(line.sizes, len(holds))
        yield _note(words.say("line.slide_before", note=note, slides=line.text))


def _slide(round: Round, hold: str, words: Words) -> str | None:
    on = hold if hold in ("magic_loop", "two_circulars") else "double_pointed"
    slides = [
        words.say_count(f"line.slide.{on}", move.stitches, needle=move.needle, next_needle=move.needle + 1)
        for move in round.moves
    ]
    return ", ".join(slides) or None


def _finished_sizes(
    plans: Sequence[HatPlan], last_numbers: Sequence[int], number: int, wording: Wording
) -> Iterable[Line]:
    """Sizes whose crown ends with this round while others go on."""
    sizes = [size for size, last in enumerate(last_numbers) if last == number]
    if sizes and number < max(last_numbers):
        left = wording.stitches([plans[size].crown.stitches_left for size in sizes])
        numbers = size_numbers(sizes)
        yield _note(wording.words.say_count("line.crown_done", len(sizes), sizes=numbers, stitches=left))
