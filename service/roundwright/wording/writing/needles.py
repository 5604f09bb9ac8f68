"""The needles of a pattern in words: what to bring, how to start on them, where to change."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from roundwright.knitting.gauge.convert import NeedleSize, needle_sizes_of
from roundwright.knitting.hat.needles import SizeNeedles
from roundwright.knitting.hat.plan import HatPlan
from roundwright.knitting.hat.request import HatRequest
from roundwright.language import Words, sentence_start
from roundwright.wording.writing.printed_quantities import printed_quantity, with_unit
from roundwright.wording.writing.size_lists import SharedLine, shared_lines, size_numbers


def needle_lines(request: HatRequest, plans: Sequence[HatPlan], words: Words) -> Iterator[str]:
    """The needles to bring, a line for each kind, with their sizes."""
    texts = [_needles_text(request, size, plan, words) for size, plan in enumerate(plans)]
    lines = lines_of_sizes(texts, words)
    sizes = _sizes_text(request, words)
    size = words.say("materials.size_and_brim" if request.brim.smaller_needle else "materials.size")
    if len(lines) == 1 and sizes:
        yield words.say("materials.needles_about", needles=lines[0], sizes=sizes, size=size)
    elif len(lines) == 1:
        yield words.say("materials.needles", needles=lines[0], size=size)
    else:
        yield from lines
        yield words.say("materials.sizes_about", sizes=sizes, size=size) if sizes else sentence_start(size)


def _needles_text(request: HatRequest, size: int, plan: HatPlan, words: Words) -> str:
    requested, needles = request.needles_of(size), plan.needles
    if needles is None or requested is None:
        return words.say("materials.any_needles")
    if needles.hold == "magic_loop" and requested.magic_loop:
        return words.say("materials.magic_loop", length=printed_quantity(requested.magic_loop, words))
    if needles.hold == "two_circulars":
        if not needles.lengths:
            return words.say("materials.two_circulars")
        return words.say("materials.two_circulars_at_least", length=_at_least(needles, words))
    if needles.hold == "circular" and requested.circular:
        length = printed_quantity(requested.circular, words)
        if needles.change is None:
            return words.say("materials.circular", length=length)
        count = len(needles.change.split)
        return words.say("materials.circular_and_double_pointed", length=length, count=count)
    given = requested.double_pointed_length
    if given:
        length = printed_quantity(given, words)
        return words.say("materials.double_pointed_of", count=needles.count, length=length)
    if needles.lengths:
        length = _at_least(needles, words)
        return words.say("materials.double_pointed_at_least", count=needles.count, length=length)
    return words.say("materials.double_pointed", count=needles.count)


def _at_least(needles: SizeNeedles, words: Words) -> str:
    return printed_quantity(needles.lengths[0], words)


def _sizes_text(request: HatRequest, words: Words) -> str:
    """Sizes to start a swatch with, in mm and in the numbers of the country, those of the requested units first."""
    sizes = needle_sizes_of(request.gauge)
    if not sizes:
        return ""
    mm = with_unit(_range([words.number(size.mm) for size in sizes], words), "mm", words)
    numbers = [number for size in sizes for number in _numbers(size, request.terms)[:1]]
    if not (numbers and words.is_english):  # needles have numbers in English-speaking countries alone
        return mm
    numbered = words.say(f"materials.numbers.{request.terms}", numbers=_range(numbers, words))
    first, second = (numbered, mm) if request.units == "imperial" else (mm, numbered)
    return words.say("materials.sizes", first=first, second=second)


def _numbers(size: NeedleSize, terms: str) -> tuple[str, ...]:
    return size.uk if terms == "uk" else size.us


def _range(values: Sequence[str], words: Words) -> str:
    first, last = values[0], values[-1]
    return first if first == last else words.say("join.to", first=first, last=last)


def start_lines(plans: Sequence[HatPlan], words: Words) -> Iterator[str]:
    """From the cast-on to the needles, the join, and the marker."""
    starts = [
        [step for step in plan.split.start if len(step.needles) > 1] if plan.split else [] for plan in plans
    ]
    for of_sizes in zip_longest(*starts):
        yield from lines_of_sizes([words.render(step.text) if step else None for step in of_sizes], words)
    reasons = [plan.split.reason if plan.split else None for plan in plans]
    yield from lines_of_sizes([reason and words.render(reason) for reason in reasons], words)
    join = words.say("pattern.join")
    yield from lines_of_sizes([None if start else join for start in starts], words)  # else the steps say it
    yield from lines_of_sizes([_marker(plan.needles, words) for plan in plans], words)


def _marker(needles: SizeNeedles | None, words: Words) -> str:
    if needles is None:
        return words.say("pattern.marker")
    if needles.hold == "circular":
        return words.say("pattern.marker_on_cord")
    return words.say(f"pattern.marker_between.{needles.hold}")


def change_lines(plans: Sequence[HatPlan], number: int, words: Words) -> Iterator[str]:
    """Where sizes go on to double-pointed needles, before the round of that number in the pattern."""
    changes = [plan.needles.change if plan.needles else None for plan in plans]
    texts = [
        words.render(change.text) if change and change.before_round == number else None for change in changes
    ]
    yield from lines_of_sizes(texts, words)


def lines_of_sizes(texts: Sequence[str | None], words: Words) -> list[str]:
    """The lines of all sizes, each with the sizes it is for."""
    return [of_sizes(line, len(texts), words) for line in shared_lines(texts, words)]


def of_sizes(line: SharedLine, size_count: int, words: Words) -> str:
    """A line that begins with its sizes where it is not for all: `Sizes 2 and 4 only: slide ...`."""
    sizes, text = line
    return text if len(sizes) == size_count else only_for(sizes, text, words)


def only_for(sizes: Sequence[int], text: str, words: Words) -> str:
    """A sentence that is for some sizes, given by their indexes."""
    return words.say_count(
        "sizes.only_line", len(sizes), sizes=size_numbers(sizes), text=words.after_colon(text)
    )
