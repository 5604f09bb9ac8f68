"""What to do about a cause: the advice in words, and the next line with the repair in it."""

from typing import NamedTuple

from msgspec.structs import replace

from roundwright.knitting.counting.causes import MOST_OFF, Cause, Counted, off_on_needles
from roundwright.knitting.counting.lost_place import part_unknown, rib_among, unsure_after
from roundwright.knitting.counting.progress import (
    Needles,
    NextLine,
    Progress,
    decrease_places,
    increase_places,
    rib_of,
)
from roundwright.knitting.counting.repair import MAKE, TRIPLE, Miscounted, caught_up, repaired_round
from roundwright.knitting.rounds.round import Repeat, Round, stitch_names
from roundwright.knitting.rounds.work_round import work_round
from roundwright.language import joined, listed, say, say_count


class Fix(NamedTuple):
    """How to put it right, and the line to work next.

    `takes_back` where work is to be taken back; `on_needle` unless the needle that is off has no room for the repair.
    """

    text: str
    next: NextLine | None
    takes_back: bool = False
    on_needle: bool = True


def go_on(progress: Progress, line: NextLine | None) -> str:
    """What comes next as the pattern has it."""
    if line is not None:
        return say("count.go_on.next", line=progress.line_named(line), text=progress.wording(line.round))
    key = "count.go_on.done" if progress.unread is None else "count.go_on.unread"
    return say(
        "count.go_on.fragment" if progress.fragment else key,
        word=say(f"count.word.{progress.word}"),
    )


def following(progress: Progress, cause: Cause) -> tuple[NextLine | None, str]:
    """The line after the round as the pattern has it, and the same in words; no line where nobody knows the round."""
    if unsure_after(progress, cause.stage):
        return None, say("count.go_on.as_before")
    line = progress.next_line(cause.stage, cause.number)
    return line, go_on(progress, line)


def in_first_round(progress: Progress, cause: Cause) -> bool:
    """Whether only the first round is worked above the cast-on, so that the cast-on itself may be miscounted."""
    stage = progress.stages[cause.stage]
    return cause.number == 1 and not cause.stage and stage.part in ("brim", None) and progress.word == "round"


def on_the_edge(progress: Progress, counted: Counted, cause: Cause) -> str:
    """That the cast-on may have been miscounted, and what to do then.

    A brim that comes out on the stitches there are can be knitted as it is, and the body have the right number.
    """
    stage = progress.stages[cause.stage]
    comes_out = stage.rib is None or counted.total % sum(stage.rib) == 0
    body = any(other.part == "body" and other.after == stage.after for other in progress.stages)
    how = _together_or_made(cause)
    mended = "in_body" if body and comes_out else "next"
    if repeats_off(progress, cause) and not (body and in_first_round(progress, cause)):
        mended = "anywhere" if part_unknown(progress, cause.stage) else "after_rib"
    return joined(
        " ",
        say("count.first_round.edge", counted=counted.total),
        say(f"count.first_round.{mended}", counted=counted.total, how=how),
    )


def repeats_off(progress: Progress, cause: Cause) -> bool:
    """Whether a rib that begins on the cast-on is off by whole repeats, so that its columns are right all the same.

    Slips in the rib would put its columns wrong: it is the cast-on that was miscounted. Stitches taken out or made in
    the rib put them wrong, too, so they are mended after it.
    """
    stage = progress.stages[cause.stage]
    begun = cause.number or progress.possible
    if cause.stage or not begun or not stage.rib or progress.word == "row":
        return False
    other_fabric = any(later.lines and not later.rib for later in progress.stages[1:])
    goes_on = other_fabric or progress.fragment
    return goes_on and cause.stitches % sum(stage.rib) == 0


def _rib_on(counted: Counted, planned: NextLine | None) -> NextLine | None:
    """The line of a rib on the stitches there are, where they are whole repeats of it."""
    rib = rib_of(planned.round.steps) if planned else None
    if planned is None or rib is None or counted.total % sum(rib):
        return planned
    (repeat,) = planned.round.steps
    assert isinstance(repeat, Repeat)
    times = counted.total // sum(rib)
    line = work_round(planned.round.number, counted.total, (Repeat(times, repeat.steps),))
    return NextLine(planned.part, replace(line, needles=planned.round.needles and counted.needles))


def put_right(progress: Progress, counted: Counted, cause: Cause) -> Fix:
    """How to put a count right, and the line to work next."""
    known, then = following(progress, cause)
    if progress.cast_on_now and not cause.number:
        return Fix(joined(" ", _on_cast_on(cause), then), known)
    if cause.code == "dropped_stitch":
        return _caught(progress, counted, cause, known, then)
    if cause.code == "extra_stitch" and repeats_off(progress, cause):
        line = _rib_on(counted, known)
        then = go_on(progress, line) if line else then
        return Fix(joined(" ", say("count.fix.whole_repeats", counted=counted.total), then), line)
    if part_unknown(progress, cause.stage):
        return _in_what_follows(progress, cause, "count.fix.anywhere")
    after = progress.next_line(cause.stage, cause.number)
    if after is not None:
        return _mended(progress, counted, cause, after, is_known=known is not None)
    if progress.fragment:
        return _in_what_follows(progress, cause, "count.fix.fragment")
    return Fix(say("count.fix.harmless" if progress.unread is None else "count.fix.unread"), None)


def _caught(progress: Progress, counted: Counted, cause: Cause, line: NextLine | None, then: str) -> Fix:
    """A dropped stitch put back on the needle: no line has to be changed."""
    sentences: list[str] = [say_count("count.dropped_stitch.fix", abs(cause.stitches), go_on=then)]
    if progress.stages[cause.stage].rib:
        sentences.insert(0, say("count.dropped_stitch.fix.rib"))
    if repeats_off(progress, cause):
        sentences.insert(0, say("count.fix.whole_repeats", counted=counted.total))
    return Fix(_sentences(progress, cause, sentences), line)


def _mended(progress: Progress, counted: Counted, cause: Cause, after: NextLine, *, is_known: bool) -> Fix:
    """Mended in the line `after`, which is known to be next or not; the work taken back where it has no room for it."""
    line = _repaired(progress, counted, cause, after)
    on_needle = line is not None
    line = line or _repaired(progress, counted, cause, after, anywhere=True)
    if line is None:
        return take_back(progress, cause)
    sentences: list[str] = [
        say(
            "count.fix.mend" if is_known else "count.fix.mend.next",
            line=progress.line_named(line),
            word=say(f"count.word.{progress.word}"),
            how=_how(cause, after.round, line.round),
            text=progress.wording(line.round),
            after=say_count("stitches", line.round.after),
        )
    ]
    if cause.code == "extra_stitch":
        sentences.insert(0, say("count.fix.let_drop"))
    elif cause.stitches < 0 and cause.kind == "stitches_off":
        sentences.insert(0, say("count.fix.dropped_first"))
    if progress.stages[cause.stage].rib and rib_of(after.round.steps):
        sentences.append(_there_in_rib(cause))
    else:
        sentences.append(say("count.fix.there"))
    return Fix(_sentences(progress, cause, sentences), line, on_needle=on_needle)


def _in_what_follows(progress: Progress, cause: Cause, mend: str) -> Fix:
    """Mended, as the message `mend` has it, in a round whose line nobody can say.

    So it is behind the end of a text that is a part of a pattern, and where rounds of several parts may be done.
    """
    if abs(cause.stitches) > MOST_OFF:
        return take_back(progress, cause)
    word = say(f"count.word.{progress.word}")
    sentences: list[str] = [say(mend, how=_together_or_made(cause), word=word), say("count.fix.there")]
    if part_unknown(progress, cause.stage) and rib_among(progress, cause.stage):
        sentences.append(_there_in_rib(cause))
    if cause.code == "extra_stitch":
        sentences.insert(0, say("count.fix.let_drop"))
    elif cause.stitches < 0:
        sentences.insert(0, say("count.fix.dropped_first"))
    return Fix(_sentences(progress, cause, sentences), None)


def _together_or_made(cause: Cause) -> str:
    return say_count("count.fix.together" if cause.stitches > 0 else "count.fix.make", abs(cause.stitches))


def _there_in_rib(cause: Cause) -> str:
    return say("count.fix.there.rib.many" if cause.stitches > 0 else "count.fix.there.rib.few")


def _sentences(progress: Progress, cause: Cause, sentences: list[str]) -> str:
    """The advice, with what is easier while nothing is knitted before it, and the last resort after it."""
    if not cause.number and progress.stages[cause.stage].part != "crown":
        sentences.insert(0, _on_cast_on(cause))
    return joined(" ", *sentences, say("count.fix.last_resort"))


def _on_cast_on(cause: Cause) -> str:
    return say("count.cast_on.fix.many" if cause.stitches > 0 else "count.cast_on.fix.few")


def _how(cause: Cause, planned: Round, repaired: Round) -> str:
    new = stitch_names(repaired.steps) - stitch_names(planned.steps)
    if cause.stitches > 0:
        how = "together" if new.isdisjoint(TRIPLE) else "take_in"
    else:
        how = "leave_out" if new.isdisjoint(MAKE.values()) else "make"
    return say_count(f"count.fix.{how}", abs(cause.stitches))


def _repaired(
    progress: Progress, counted: Counted, cause: Cause, after: NextLine, *, anywhere: bool = False
) -> NextLine | None:
    """The next line with the repair in it, or None where it cannot be made there."""
    stage = progress.stages[cause.stage]
    if not 0 < abs(cause.stitches) <= min(MOST_OFF, stage.after // 2):
        return None
    off = off_on_needles(stage, counted)
    if cause.needle is None and not progress.needles_known:
        off = None
    if off is not None and min(off) < 0 < max(off):
        off = None
    shares = None if off is None else stage.needles
    miscounted = Miscounted(off or (cause.stitches,), shares, _likeliest_places(progress, cause))
    line = repaired_round(after.round, miscounted, flat=progress.word == "row", anywhere=anywhere)
    return NextLine(after.part, line) if line else None


def _likeliest_places(progress: Progress, cause: Cause) -> Needles:
    shaped = progress.last_shaped(cause.stage)
    if shaped is None:
        return ()
    steps = progress.stages[shaped].lines[0].steps
    return increase_places(steps) if cause.code == "missed_increase" else decrease_places(steps)


def take_back(progress: Progress, cause: Cause) -> Fix:
    """Back to before it happened."""
    shaped = progress.last_shaped(cause.stage)
    line = progress.first_line(cause.stage if shaped is None else shaped)
    if line is None:
        return Fix(say("count.fix.cast_on_anew"), None, takes_back=True)
    words = say(
        "count.fix.take_back",
        word=say(f"count.word.{progress.word}"),
        before=say_count("stitches", line.round.before),
        line=progress.line_named(line),
        text=progress.wording(line.round),
    )
    return Fix(words, line, takes_back=True)


def needles_named(progress: Progress, needles: Needles) -> str:
    """Needles by their indexes, in words: `needle 2`, `needles 1 and 3`, `half 2`."""
    numbers = listed([str(needle + 1) for needle in needles])
    held = "halves" if progress.loop else "needles"
    return say_count(f"count.worked_plain.{held}", len(needles), needles=numbers)


def catch_up(progress: Progress, cause: Cause, shaped: int, plain: Needles) -> Fix:
    """Work the forgotten decreases in the next round where that is plain, else in a round of their own."""
    stage = progress.stages[shaped]
    after, then = following(progress, cause)
    begun = progress.needles_before(shaped) or ()
    line = caught_up(stage.lines[0], begun, plain, after.round if after else None)
    if line is None:
        return take_back(progress, cause)
    instead = after is not None and (after.part, after.round.number) == (stage.part, line.number)
    caught = NextLine(stage.part, line)
    words = say(
        "count.worked_plain.fix" if instead else "count.worked_plain.fix.first",
        line=progress.line_named(caught),
        text=progress.wording(line),
        after=say_count("stitches", line.after),
        go_on=then,
        last_resort=say("count.fix.last_resort"),
        needles=needles_named(progress, plain),
        round=progress.named(shaped, stage.first),
    )
    return Fix(words, caught)
