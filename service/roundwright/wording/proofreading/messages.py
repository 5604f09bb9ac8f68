"""The sentences of findings, in a knitter's words: messages `find.…` of the catalogues."""

from collections.abc import Callable, Mapping
from functools import reduce
from typing import Final

from roundwright.knitting.rounds.round import MOST_ROUNDS
from roundwright.language import joined, say, say_count
from roundwright.wording.proofreading.findings import stitches
from roundwright.wording.reading.line_work import COUNT_KEPT
from roundwright.wording.reading.repeats_left_out import LEFT_OUT
from roundwright.wording.reading.states import Fault

CM_PER_INCH: Final = 2.54


def message(fault: Fault) -> str:
    """What a fault says to the knitter."""
    write = _SENTENCES.get(fault.code)
    return write(fault) if write is not None else fault.text or fault.code


def _left_over(fault: Fault) -> str:
    over = fault.before - fault.used
    return say_count("find.left_over", over, used=fault.used, stitches=stitches(fault.before))


def left_over_missing(fault: Fault) -> str:
    """Stitches are left over in a round before which others are missing."""
    return say("find.left_over_missing", used=fault.used, stitches=stitches(fault.before))


def _runs_out(fault: Fault) -> str:
    if fault.text:
        return fault.text  # of a part of the line, such as the stitches before a marker
    short = stitches(fault.used - fault.before)
    return say_count("find.runs_out", fault.before, needed=stitches(fault.used), short=short)


def _count_differs(fault: Fault) -> str:
    by = fault.left - (fault.stated or 0)
    return say(
        "find.count_differs.many" if by > 0 else "find.count_differs.few",
        stitches=stitches(fault.left),
        printed=_by_needle(fault) or fault.stated,
        by=abs(by),
    )


def _count_kept(fault: Fault) -> str:
    by = fault.left - fault.before
    key = "find.count_kept.many" if by > 0 else "find.count_kept.few"
    return say(key, stitches=stitches(fault.left), kept=fault.before, by=abs(by))


def _by_needle(fault: Fault) -> str:
    """The stitches that a pattern says to be on each of so many needles: `4 × 18`; empty where it says those of all."""
    return f"{fault.needles} × {(fault.stated or 0) // fault.needles}" if fault.needles else ""


def _round_missing(numbers: str) -> str:
    """`numbers`: the last number before, the first and last that are missing, and the next one there is."""
    before, first, last, after = numbers.split(",")
    if before == "0":
        return say("find.rounds_before", after=after)
    if first != last:
        return say("find.rounds_between", before=before, after=after)
    return say("find.round_missing", round=first)


def _never_ends(fault: Fault) -> str:
    return fault.text if fault.stated is None else say("find.never_comes_to", stitches=stitches(fault.stated))


_SENTENCES: Final[Mapping[str, Callable[[Fault], str]]] = {
    "left_over": _left_over,
    "runs_out": _runs_out,
    LEFT_OUT: lambda fault: say("find.repeat_left_out", used=fault.used, stitches=stitches(fault.before)),
    "count_differs": _count_differs,
    "wrong_way": _count_differs,
    COUNT_KEPT: _count_kept,
    "cast_on_differs": lambda fault: say_count("find.cast_on_differs", fault.before, printed=fault.stated),
    "sizes_differ": lambda fault: say("find.sizes_differ", numbers=fault.stated, sizes=fault.before),
    "never_ends": _never_ends,
    "too_many_rounds": lambda _: say("find.too_many_rounds", most=MOST_ROUNDS),
    "not_understood": lambda fault: fault.text or say("find.not_read"),
    "round_missing": lambda fault: _round_missing(fault.text),
    "round_twice": lambda fault: say("find.round_twice", round=fault.text),
    "to_a_length": lambda _: say("find.to_a_length"),
    "chart": lambda _: say("find.chart"),
    "markers": lambda _: say("find.markers"),
    "rib_not_told": lambda _: say("find.rib_not_told"),
    "goes_on": lambda fault: say("find.goes_on", stitches=fault.text),
}


def no_rounds() -> str:
    """A text without rounds."""
    return say("find.no_rounds")


def cast_on_comes_out(counts: list[str]) -> str:
    """Another count to cast on, or two that are as good."""
    return say("find.cast_on_comes_out", stitches=reduce(_either, counts))


def _either(first: str, second: str) -> str:
    """The first or the second."""
    return say("find.either", first=first, second=second)


def ambiguous(ways: list[tuple[str, int, int]]) -> str:
    """The ways a round can be read, each with what it uses and leaves; the first was taken."""
    (first, first_used, first_left), (second, second_used, second_left) = ways[:2]
    return say(
        "find.ambiguous",
        first=say(f"find.way.{first}"),
        first_used=first_used,
        first_left=first_left,
        second=say(f"find.way.{second}"),
        second_used=second_used,
        second_left=second_left,
    )


def size_taken(size: int, count: int) -> str:
    """Which of several sizes was taken for the only one that is asked for."""
    return say("find.size_taken", size=size, stitches=stitches(count))


def unknown_word(word: str, near: tuple[str, ...], taken: int) -> str:
    """A word where a stitch should be, with the stitches that look most like it.

    `taken`: with how many stitches used and left by it the line comes out, 0 where that is not known.
    """
    match near[:2]:
        case (nearest, other):
            return say("find.unknown_word.nearer", word=word, near=nearest, other=other)
        case (nearest,):
            return say("find.unknown_word.near", word=word, near=nearest)
    if taken:
        return say_count("find.unknown_word.comes_out", taken, word=word)
    return say("find.unknown_word", word=word)


def too_many_findings(count: int) -> str:
    """Findings that are left out."""
    return say("find.too_many_findings", count=count)


# --- what an editor asks


def count_not_printed() -> str:
    """A shaping line without its count."""
    return say("find.count_not_printed")


def rib_shifted() -> str:
    """Knits over purls."""
    return say("find.rib_shifted")


def rhythm_broken(change: int, usual: int) -> str:
    """A shaping round unlike its neighbours."""
    return say("find.rhythm_broken", change=change, usual=usual)


def closing_count(printed: int, left: int) -> str:
    """Another count in the closing than is left."""
    return say_count("find.closing_count", left, printed=stitches(printed))


def split_differs(held: int, count: int) -> str:
    """Other stitches on the needles than there are."""
    return say_count("find.split_differs", count, held=stitches(held))


def list_differs(numbers: int, sizes: int) -> str:
    """A list for another number of sizes."""
    return say("find.list_differs", numbers=numbers, sizes=sizes)


def sizes_not_growing(before: float, here: float) -> str:
    """A number that falls from one size to the next."""
    return say("find.sizes_not_growing", before=float(before), here=float(here))


def not_a_multiple(  # noqa: PLR0917 - a count, and the counts beside it that suit more and more
    count: int, repeat: int, nearest: list[int], suited: list[int], sections: int, both: list[int]
) -> str:
    """A cast-on that a repeat does not come out on, and the nearest that it does.

    Those are named that are `suited` to the other rounds, though they are farther. Of a crown that comes out on the
    cast-on as it is, `both` suit its sections and the repeat; none where they are far.
    """
    if suited and not set(suited) <= set(nearest):
        counts = reduce(_either, map(str, suited))
        return say("find.not_a_multiple.other_rounds", stitches=count, repeat=repeat, nearest=counts)
    nearest = suited or nearest
    message = say(
        "find.not_a_multiple", stitches=count, repeat=repeat, nearest=reduce(_either, map(str, nearest))
    )
    if set(nearest) <= set(both) or (not both and all(near % sections == 0 for near in nearest)):
        return message
    crown = (
        say("find.not_a_multiple.crown", sections=sections, both=reduce(_either, map(str, both)))
        if both
        else say("find.not_a_multiple.no_count", sections=sections)
    )
    return joined(" ", message, crown)


def girth_differs(count: int, made: float) -> str:
    """Another circumference at the gauge, in centimetres."""
    return say("find.girth_differs", stitches=stitches(count), cm=made, inches=made / CM_PER_INCH)


def length_differs(rounds: int, made: float) -> str:
    """Another length at the gauge, in centimetres."""
    return say("find.length_differs", rounds=rounds, cm=made, inches=made / CM_PER_INCH)


def units_differ(cm: float, inches: float, same: float) -> str:
    """Two lengths that are not the same."""
    return say("find.units_differ", inches=float(inches), same=same, cm=float(cm))


def needle_differs(number: str, diameters: tuple[float, ...]) -> str:
    """A US size with another diameter than the charts give, in millimetres."""
    sizes = [say("find.diameter", mm=float(diameter)) for diameter in diameters]
    return say("find.needle_differs", number=number, diameters=reduce(_either, map(str, sizes)))


def abbreviation_not_explained(word: str) -> str:
    """A stitch that is used."""
    return say("find.abbreviation_not_explained", word=word)


def abbreviation_not_used(word: str) -> str:
    """A word that is explained."""
    return say("find.abbreviation_not_used", word=word)


def terms_mixed(us: str, uk: str) -> str:
    """Terms of two countries."""
    return say("find.terms_mixed", us=us, uk=uk)


def flat_word(word: str) -> str:
    """A word of flat knitting."""
    return say("find.flat_word", word=word.strip())
