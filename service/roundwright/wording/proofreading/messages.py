"""The sentences of findings, in a knitter's words, all in one place."""

from collections.abc import Callable, Mapping
from typing import Final

from roundwright.wording.proofreading.findings import stitches
from roundwright.wording.reading.states import Fault

NO_ROUNDS: Final = "No line of this text was read as a round, such as “Rnd 1: knit”."
NOT_READ: Final = (
    "This looks like work and was not read; reading goes on with the count the pattern goes on with."
)
TO_A_LENGTH: Final = (
    "How many rounds this is depends on the length; one is read, and the count goes on from it."
)
CHART: Final = "This is worked from a chart; it is taken to keep the count."
MARKERS: Final = "Where the markers are is not said; equal sections are assumed."


def message(fault: Fault) -> str:
    """What a fault says to the knitter."""
    write = _SENTENCES.get(fault.code)
    return write(fault) if write is not None else fault.text or fault.code


def _are(count: int) -> str:
    return "is" if count == 1 else "are"


def _left_over(fault: Fault) -> str:
    over = fault.before - fault.used
    return f"This works {fault.used} of the {stitches(fault.before)}: {over} {_are(over)} left over."


def _runs_out(fault: Fault) -> str:
    short = stitches(fault.used - fault.before)
    return f"This needs {stitches(fault.used)}, but there {_are(fault.before)} {fault.before}: {short} short."


def _count_differs(fault: Fault) -> str:
    by = fault.left - (fault.stated or 0)
    quantity = "many" if by > 0 else "few"
    return f"This leaves {stitches(fault.left)}; the pattern says {fault.stated}: {abs(by)} too {quantity}."


def _round_missing(numbers: str) -> str:
    """`numbers`: the last number before, the first and last that are missing, and the next one there is."""
    before, first, last, after = numbers.split(",")
    if before == "0":
        return f"The rounds before round {after} are not given."
    if first != last:
        return f"Between rounds {before} and {after} some are not given."
    return f"Round {first} is not given."


def _cast_on_differs(fault: Fault) -> str:
    return f"The text casts on {fault.stated} here, but {fault.before} {_are(fault.before)} asked for."


def _sizes_differ(fault: Fault) -> str:
    return f"Here are numbers for {fault.stated} sizes; the pattern has {fault.before}."


def _never_ends(fault: Fault) -> str:
    return fault.text if fault.stated is None else f"This never comes to {stitches(fault.stated)}."


_SENTENCES: Final[Mapping[str, Callable[[Fault], str]]] = {
    "left_over": _left_over,
    "runs_out": _runs_out,
    "count_differs": _count_differs,
    "wrong_way": _count_differs,
    "cast_on_differs": _cast_on_differs,
    "sizes_differ": _sizes_differ,
    "never_ends": _never_ends,
    "not_understood": lambda fault: fault.text or NOT_READ,
    "round_missing": lambda fault: _round_missing(fault.text),
    "round_twice": lambda fault: f"Round {fault.text} is given twice.",
    "to_a_length": lambda _: TO_A_LENGTH,
    "chart": lambda _: CHART,
    "markers": lambda _: MARKERS,
    "goes_on": lambda fault: (
        f"This is read as going on in the same way until {fault.text} stitches are left."
    ),
}


def cast_on_comes_out(count: str) -> str:
    """Another count to cast on."""
    return f"With {count} stitches cast on the rounds come out."


def ambiguous(ways: list[tuple[str, int, int]]) -> str:
    """The ways a round can be read, each with what it uses and leaves; the first was taken."""
    (first, first_used, first_left), (second, second_used, second_left) = ways[:2]
    return (
        f"This can be read in two ways. If {first}, it uses {first_used} and leaves {first_left}, which is taken; "
        f"if {second}, it uses {second_used} and leaves {second_left}."
    )


def size_taken(size: int, count: int) -> str:
    """Which of several sizes was taken for the only one that is asked for."""
    return f"There are numbers for several sizes; those of size {size} come out on {stitches(count)} and are taken."


def unknown_word(word: str, near: tuple[str, ...]) -> str:
    """A word where a stitch should be, with the stitches that look most like it."""
    hint = " or ".join(f"“{name}”" for name in near[:2])
    return f"“{word}” is not a stitch that is known{f'; {hint} looks most like it' if hint else ''}."


def too_many_findings(count: int) -> str:
    """Findings that are not told."""
    return f"There are {count} more; mend these first."


# --- what an editor asks


COUNT_NOT_PRINTED: Final = "The other shaping lines have their count printed; this has none."
RIB_SHIFTED: Final = "Here knits stand over purls, between rounds of a rib in which they do not."


def rhythm_broken(change: int, usual: int) -> str:
    """A shaping round unlike its neighbours."""
    return f"This changes the count by {change}; the shaping rounds before and after it by {usual}."


def closing_count(printed: int, left: int) -> str:
    """Another count in the closing than is left."""
    return f"The closing speaks of {stitches(printed)}; there {_are(left)} {left}."


def list_differs(numbers: int, sizes: int) -> str:
    """A list for another number of sizes."""
    return f"This is for {numbers} sizes; the cast-on has {sizes}."


def sizes_not_growing(before: float, here: float) -> str:
    """A number that falls from one size to the next."""
    return f"From {before:g} to {here:g} this gets less for a larger size, where the others grow."


def not_a_multiple(count: int, repeat: int, nearest: int) -> str:
    """A cast-on that a repeat does not come out on."""
    return f"{count} is no multiple of the {repeat} stitches of the repeat; {nearest} is the nearest that is."


def girth_differs(count: int, made: float) -> str:
    """Another circumference at the gauge."""
    return f"At this gauge {stitches(count)} make {made:.0f} cm ({made / 2.54:.1f} in)."


def length_differs(rounds: int, made: float) -> str:
    """Another length at the gauge."""
    return f"At this gauge {rounds} rounds make {made:.1f} cm ({made / 2.54:.1f} in)."


def units_differ(cm: float, inches: float, same: float) -> str:
    """Two lengths that are not the same."""
    return f"{inches:g} in are {same:.1f} cm, not {cm:g} cm."


def needle_differs(number: str, diameters: tuple[float, ...]) -> str:
    """A US size with another diameter than the charts give."""
    return f"US {number} is {' or '.join(f'{diameter:g} mm' for diameter in diameters)} in the charts of needle sizes."


def abbreviation_not_explained(word: str) -> str:
    """A stitch that is used."""
    return f"“{word}” is used and not in the list of abbreviations."


def abbreviation_not_used(word: str) -> str:
    """A word that is explained."""
    return f"“{word}” is explained here and not used."


def terms_mixed(us: str, uk: str) -> str:
    """Terms of two countries."""
    return f"“{us}” is the US term and “{uk}” the UK one; the text has both."


def flat_word(word: str) -> str:
    """A word of flat knitting."""
    return f"“{word.strip()}” belongs to work in rows; this is worked in the round."
