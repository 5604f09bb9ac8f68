"""The written pattern of a hat, all sizes together.

A pattern is sections of lines; `text` sets them one under the other. What is written is read back to the same rounds
by `wording.proofreading.read`: each line that is a round starts with `Rnd 3:`, `Next 12 rnds:` or, for beginners,
`Round 3:` and `Next 12 rounds:`, and ends with the count.
"""

from collections.abc import Iterable, Sequence
from math import floor
from typing import Final, Literal, NamedTuple

from roundwright import reference
from roundwright.knitting.answers import Caution
from roundwright.knitting.gauge.convert import needle_sizes_of, yarn_weights_of
from roundwright.knitting.hat.plan import HatPart, HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.knitting.quantities import Length, Mass
from roundwright.knitting.rounds.round import Round, names_in
from roundwright.wording.writing.plain_language import speak, stitches
from roundwright.wording.writing.size_lists import across, only, rounds_across, together

LineKind = Literal["text", "round", "note"]


class Line(NamedTuple):
    """One line of a pattern; a round is something to tick off, an indented note belongs to the round beside it."""

    text: str
    kind: LineKind = "text"


class Section(NamedTuple):
    """A section of a pattern, under its heading."""

    heading: str
    lines: tuple[Line, ...]


def pattern(request: HatRequest, plans: tuple[HatPlan, ...], cautions: tuple[Caution, ...]) -> str:
    """The pattern as plain text."""
    return text(request.name, sections(request, plans, cautions))


def text(name: str, written: Iterable[Section]) -> str:
    """Sections set one under the other."""
    blocks = [name] + [
        "\n".join([section.heading.upper(), *(line.text for line in section.lines)]) for section in written
    ]
    return "\n\n".join(blocks) + "\n"


def sections(
    request: HatRequest, plans: tuple[HatPlan, ...], cautions: tuple[Caution, ...]
) -> tuple[Section, ...]:
    """The sections of a pattern, as patterns have them."""
    words = _Words(request)
    written = (
        ("Sizes", _sizes(plans)),
        ("Finished measurements", _measurements(plans)),
        ("Materials", _materials(request, plans)),
        (words.gauge.capitalize(), _gauge(request, words)),
        ("Abbreviations", _abbreviations(request, plans)),
        ("Notes", _notes(plans)),
        ("Cast on", _cast_on(request, plans)),
        ("Brim", _brim(request, plans, words)),
        ("Body", _body(plans, words)),
        ("Crown", _crown(plans, words)),
        ("Finishing", _finishing(plans, words)),
        ("Cautions", [caution.message for caution in cautions]),
    )
    return tuple(
        Section(heading, tuple(line if isinstance(line, Line) else _plain_line(line) for line in lines))
        for heading, lines in written
        if lines
    )


def _plain_line(said: str) -> Line:
    return Line(said, "note" if said.startswith("  ") else "text")


class _Words:
    """The words of a pattern that depend on where it is read and by whom."""

    def __init__(self, request: HatRequest) -> None:
        self.beginner = request.wording == "beginner"
        uk = request.terms == "uk"
        self.terms = {row.us: row.uk if uk else row.us for row in reference.terms()}
        self.gauge = self.terms["gauge"]
        self.stockinette = self.terms["stockinette"]

    def say(self, one: Round) -> str:
        """A round without its count."""
        return speak(one.steps) if self.beginner else one.text

    def numbered(self, number: int, whose: str) -> str:
        """The start of the line of a round of the crown."""
        return f"{'Round' if self.beginner else 'Rnd'} {number}{whose}: "

    def next_rounds(self, count: str, whose: str) -> str:
        """The start of the line of so many rounds of brim or body."""
        if count == "1":
            return f"Next {'round' if self.beginner else 'rnd'}{whose}: "
        return f"Next {count} {'rounds' if self.beginner else 'rnds'}{whose}: "

    def count(self, counts: Sequence[int]) -> str:
        """The end of a line: the count to check."""
        one = set(counts) == {1}
        if self.beginner:
            return f" You have {across(counts)} {'stitch' if one else 'stitches'}."
        return f" — {across(counts)} {'st' if one else 'sts'}"


def _sizes(plans: tuple[HatPlan, ...]) -> list[str]:
    named = [f"{number}. {plan.label}" for number, plan in enumerate(plans, start=1)]
    if len(named) == 1:
        return [plans[0].label]
    return [
        ", ".join(named),
        "Numbers are given in this order, the first before the bracket; one number is for all.",
    ]


def _measurements(plans: tuple[HatPlan, ...]) -> list[str]:
    told = [plan.measurements for plan in plans]
    return [
        f"To fit a head of {_across_lengths(each.head for each in told)}",
        f"Circumference: {_across_lengths(each.circumference for each in told)}, unstretched",
        f"Depth, edge to top: {_across_lengths(each.depth for each in told)}",
    ]


def _materials(request: HatRequest, plans: tuple[HatPlan, ...]) -> list[str]:
    lines = [_yarn(request, plans)]
    sizes = needle_sizes_of(request.gauge)
    if request.needles is not None:
        needles = f"Double-pointed needles: {request.needles} to hold the stitches and 1 to work with"
    else:
        needles = "Double-pointed needles, or a circular needle and double-pointed ones for the crown"
    if sizes:
        needles += (
            f", about {sizes[0].mm:g} to {sizes[-1].mm:g} mm"
            if len(sizes) > 1
            else f", about {sizes[0].mm:g} mm"
        )
    lines.append(f"{needles}; take the size that gives the {_Words(request).gauge}")
    lines.append("A stitch marker, a blunt sewing needle, scissors, a tape measure")
    return lines


def _yarn(request: HatRequest, plans: tuple[HatPlan, ...]) -> str:
    weights = " or ".join(f"{weight.name} ({weight.number})" for weight in yarn_weights_of(request.gauge))
    named = request.yarn.name if request.yarn and request.yarn.name else "Yarn"
    if weights:
        named += f", {weights} weight"
    ball = request.yarn
    if ball and ball.mass and ball.length:
        named += f", {_quantity(ball.mass)} / {_quantity(ball.length)} a ball"
    used = [plan.yarn.used for plan in plans]
    about = (
        f"about {across(_whole(each.expected.length.value) for each in used if each.expected.length)} "
        + (used[0].expected.length.unit if used[0].expected.length else "")
    )
    if all(each.expected.mass for each in used):
        grams = across(_whole(each.expected.mass.value) for each in used if each.expected.mass)
        about += f" or {grams} {used[0].expected.mass.unit if used[0].expected.mass else ''}"
    balls = [plan.yarn.to_buy.balls for plan in plans]
    if all(balls):
        counted = across(balls)
        return f"{named}: {counted} ball{'' if counted == '1' else 's'}; a hat uses {about}"
    return f"{named}: a hat uses {about}"


def _gauge(request: HatRequest, words: _Words) -> list[str]:
    gauge = request.gauge
    over = _quantity(gauge.over)
    rows = f" and {gauge.rows:g} rounds" if gauge.rows else ""
    return [
        f"{gauge.stitches:g} stitches{rows} in {over} of {words.stockinette}, worked in the round and washed"
    ]


def _abbreviations(request: HatRequest, plans: tuple[HatPlan, ...]) -> list[str]:
    """The abbreviations used, and only those."""
    if request.wording == "beginner":
        return []
    used = {name for plan in plans for one in _all_rounds(plan) for name in names_in(one.steps)}
    told = [f"{name}: {row.words}" for name, row in reference.stitches().items() if name in used]
    lines = "\n".join(one.text for plan in plans for one in plan.crown.rounds)
    repeats = ["rep: repeat"] if "rep from" in lines or request.brim.kind in ("ribbed", "folded") else []
    return ["; ".join([*told, *repeats, "rnd(s): round(s)", "st(s): stitch(es)"])]


def _all_rounds(plan: HatPlan) -> tuple[Round, ...]:
    return (*plan.brim.lines, *plan.body.lines, *plan.crown.rounds)


def _notes(plans: tuple[HatPlan, ...]) -> list[str]:
    lines = [
        "Count after every round that changes the count, and compare with the number at the end of its line.",
        "Measure with the brim uncurled and unfolded; the needle does not count.",
    ]
    if any(one.moves for plan in plans for one in plan.crown.rounds):
        lines.append(
            "Where a decrease would lie on two needles, the stitches left at the end of the needle are slid to the "
            "next one before the round, and the decrease is worked there."
        )
    return lines


def _cast_on(request: HatRequest, plans: tuple[HatPlan, ...]) -> list[str]:
    counts = across(plan.cast_on.stitches for plan in plans)
    beginner = request.wording == "beginner"
    tails = _across_lengths(plan.cast_on.tail.length for plan in plans)
    lines = [
        f"Cast on {counts} {'stitches' if beginner else 'sts'}.",
        f"For a long-tail cast-on leave a tail of {tails}.",
    ]
    starts = [plan.split.start[1:] if plan.split else () for plan in plans]
    for place in range(max(map(len, starts))):
        said = together([start[place].text if place < len(start) else None for start in starts])
        lines.extend(f"{line}{only(group, len(plans))}" for group, line in said)
    if all(len(start) < 2 for start in starts):  # else working on to the last needle has joined it
        lines.append("Join to work in the round; see that the edge is not twisted.")
    lines.append("Put a marker at the start of the round.")
    return lines


def _brim(request: HatRequest, plans: tuple[HatPlan, ...], words: _Words) -> list[str | Line]:
    lines: list[str | Line] = list(_straight([plan.brim for plan in plans], words))
    if request.brim.kind == "rolled":
        lines.append("Left to itself this edge rolls up.")
    if request.brim.kind == "folded":
        lines.append("Half of it is turned up when the hat is done.")
    return lines


def _body(plans: tuple[HatPlan, ...], words: _Words) -> list[str | Line]:
    lines: list[str | Line] = list(_straight([plan.body for plan in plans], words))
    length = _across_lengths(plan.measurements.edge_to_crown for plan in plans)
    lines.append(f"The work now measures {length} from the cast-on edge.")
    return lines


def _straight(parts: Sequence[HatPart], words: _Words) -> Iterable[Line]:
    """The rounds of a straight part: each line with how often it is worked."""
    for group, key in _alike([part if part.rounds else None for part in parts]):
        theirs = [parts[index] for index in group]
        if key == 1:
            said = together([words.say(part.lines[0]) for part in theirs])
            for inner, line in said:
                here = [theirs[index] for index in inner]
                count = across(part.rounds for part in here)
                whole = tuple(group[index] for index in inner)
                start = words.next_rounds(count, only(whole, len(parts)))
                yield Line(start + line + words.count([part.lines[0].after for part in here]), "round")
            continue
        yield from _in_turn(theirs, group, len(parts), words)


def _in_turn(parts: Sequence[HatPart], group: tuple[int, ...], of: int, words: _Words) -> Iterable[Line]:
    """Rounds worked in turn, such as garter stitch: the first ones, then how often they come again."""
    for place, one in enumerate(parts[0].lines):
        line = words.say(one)
        yield Line(
            words.numbered(place + 1, only(group, of))
            + line
            + words.count([part.lines[place].after for part in parts]),
            "round",
        )
    first = len(parts[0].lines) + 1
    longer = [index for index, part in zip(group, parts, strict=True) if part.rounds >= first]
    if longer:
        rounds = "Rounds" if words.beginner else "Rnds"
        again = "Repeat rounds 1 and 2." if words.beginner else "rep rnds 1 and 2"
        theirs = [part for part in parts if part.rounds >= first]
        last = across(part.rounds for part in theirs)
        counts = words.count([part.lines[-1].after for part in theirs])
        yield Line(f"{rounds} {first}-{last}{only(tuple(longer), of)}: {again}{counts}", "round")


def _alike(parts: Sequence[HatPart | None]) -> Iterable[tuple[tuple[int, ...], int]]:
    groups: dict[int, list[int]] = {}
    for index, part in enumerate(parts):
        if part is not None:
            groups.setdefault(len(part.lines), []).append(index)
    return ((tuple(indices), lines) for lines, indices in groups.items())


def _crown(plans: tuple[HatPlan, ...], words: _Words) -> list[str | Line]:
    lines: list[str | Line] = []
    told: set[str] = set()
    sizes = [plan.crown.rounds for plan in plans]
    for number, lines_here in enumerate(rounds_across(sizes, words.say), start=1):
        for group, said, theirs in lines_here:
            lines.extend(_before(theirs, group, len(plans)))
            line = words.numbered(number, only(group, len(plans))) + said
            lines.append(Line(line + words.count([one.after for one in theirs]), "round"))
            fresh = dict.fromkeys(note for one in theirs for note in one.notes if note not in told)
            lines.extend(f"  {note}" for note in fresh)
            told.update(fresh)
        lines.extend(_ended(plans, number, words))
    return lines


def _before(theirs: Sequence[Round], group: tuple[int, ...], of: int) -> Iterable[str]:
    """What to slide before a round, said for the sizes that slide alike."""
    if not any(one.moves for one in theirs):
        return
    said: list[str | None] = [None] * of
    for index, one in zip(group, theirs, strict=True):
        if one.moves:
            said[index] = ", ".join(
                f"{stitches(move.stitches)} from needle {move.needle} to needle {move.needle + 1}"
                for move in one.moves
            )
    for sizes, line in together(said):
        yield f"  Before the next round{only(sizes, of)} slide {line}."


def _ended(plans: tuple[HatPlan, ...], number: int, words: _Words) -> Iterable[str]:
    """Sizes whose crown ends with this round while others go on."""
    last = [len(plan.crown.rounds) for plan in plans]
    if number not in last or max(last) == number:
        return
    ended = [index for index, rounds in enumerate(last) if rounds == number]
    names = " and ".join(str(index + 1) for index in ended)
    left = across(plans[index].crown.stitches_left for index in ended)
    yield (
        f"  Size{'s' if len(ended) > 1 else ''} {names}: the crown is done, {left} "
        f"{'stitches' if words.beginner else 'sts'} are left. Go on to Finishing."
    )


def _finishing(plans: tuple[HatPlan, ...], words: _Words) -> list[str]:
    said = [plan.crown.finish.text for plan in plans]
    if words.beginner:
        said = [text.replace(" sts ", " stitches ").replace("rep from *", "repeat from *") for text in said]
    lines = [f"{text}{only(group, len(plans))}" for group, text in together(said)]
    lines.append("Weave in the ends on the inside. Wash, and dry flat.")
    return lines


# --- numbers as patterns print them ---------------------------------------------------------------------------------


def _across_lengths(lengths: Iterable[Length]) -> str:
    told = list(lengths)
    return f"{across(printed(each) for each in told)} {told[0].unit}"


def printed(length: Length) -> str:
    """To the nearest half centimetre or quarter inch, as a tape is read."""
    if length.unit == "in":
        quarters = floor(length.value * 4 + 0.5)
        whole, part = divmod(quarters, 4)
        fraction = _QUARTERS[part]
        return f"{whole} {fraction}" if whole and fraction else fraction or str(whole)
    return f"{floor(length.value * 2 + 0.5) / 2:g}"


_QUARTERS: Final = ("", "1/4", "1/2", "3/4")


def _quantity(quantity: Length | Mass) -> str:
    return f"{quantity.value:g} {quantity.unit}"


def _whole(value: float) -> str:
    return f"{value:.0f}" if value >= 10 else f"{value:.2g}"
