"""A cause explained to the knitter: what happened, about where, and how to put it right.

Its sentences are the messages `count.…` of the catalogues.
"""

from collections.abc import Callable, Iterator
from typing import Annotated, Final, NamedTuple

from msgspec import Meta, Struct

from roundwright.knitting.counting.causes import (
    Cause,
    CauseCode,
    Counted,
    Kind,
    decreases_on,
    off_on_needles,
    plain_needles,
    worked_around,
    worked_on,
)
from roundwright.knitting.counting.lost_place import (
    found,
    holding,
    part_unknown,
    places_named,
    rib_among,
    several,
    unsure_after,
)
from roundwright.knitting.counting.progress import PartName, Progress, Stage, decrease_places
from roundwright.knitting.counting.putting_right import (
    Fix,
    catch_up,
    following,
    in_first_round,
    needles_named,
    on_the_edge,
    put_right,
    repeats_off,
    take_back,
)
from roundwright.knitting.rounds.notation import star_of
from roundwright.knitting.rounds.round import MOST_STITCHES, Round, execute
from roundwright.language import joined, listed, say, say_count

MOST_WRONG_LINE: Final = 2
"""Stitches off after the line of another round that are still made good in the next: beyond, the decreases are all out
of place and the round is worked again."""


class CountCause(Struct, frozen=True, kw_only=True):
    """What may have gone wrong, and how to put it right."""

    code: Annotated[
        CauseCode,
        Meta(
            description="`count_again`: nothing, the count itself was wrong; `missed_decrease`; `extra_decrease`: one "
            "too many, or one worked twice; `missed_increase`; `dropped_stitch`; `extra_stitch`: a yarn over by "
            "accident, or a stitch split in two; `worked_plain`: a needle on which all decreases were forgotten; "
            "`needles_merged`: stitches of one needle worked on to another, all or some; `other_round`: another round "
            "than thought is finished, or half finished, or its line was worked. More may be added."
        ),
    ]
    message: Annotated[str, Meta(description="What may have happened, in a sentence or two.")]
    part: Annotated[
        PartName | None,
        Meta(description="Part of the hat; null for a pattern in words, and where nobody knows the part."),
    ]
    round: Annotated[
        Annotated[int, Meta(ge=0, le=10_000)] | None,
        Meta(
            description="Number of the round in which it happened; 0 is the cast-on. Null where the count may belong "
            "to several parts, so that nobody knows it."
        ),
    ]
    stitches: Annotated[
        int,
        Meta(
            ge=-MOST_STITCHES,
            le=MOST_STITCHES,
            description="Stitches too many on the needles if this is so; below 0, too few.",
        ),
    ]
    needle: Annotated[
        int | None,
        Meta(
            description="Needle on which it happened, from 1, and on which `next` puts it right; null where that "
            "cannot be told."
        ),
    ]
    stitch: Annotated[
        int | None,
        Meta(
            description="About how many stitches of that needle (of the round, where no needle is named) come before "
            "the place; null where that cannot be told."
        ),
    ]
    where: Annotated[str, Meta(description="How to find the place on the needles.")]
    fix: Annotated[
        str,
        Meta(
            description="How to put it right: in the next round where that works, taking back work last of all."
        ),
    ]
    next: Annotated[
        Round | None,
        Meta(
            description="The next line to work, with the repair in it where that is made in the next round; `before` "
            "is what the needles hold when it is begun. Null when nothing is left to work, a pattern is followed no "
            "farther, or nobody knows the round."
        ),
    ]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]


class Explanation(NamedTuple):
    """A cause in words."""

    message: str
    where: str
    fix: Fix
    at: int  # index of the stage in which it happened
    round: int
    stitches: int
    needle: int | None = None
    stitch: int | None = None

    def as_cause(self, progress: Progress, code: CauseCode) -> CountCause:
        """The same as it is answered."""
        following, is_lost = self.fix.next, part_unknown(progress, self.at)
        return CountCause(
            code=code,
            message=self.message,
            part=None if is_lost else progress.stages[self.at].part,
            round=None if is_lost else self.round,
            stitches=self.stitches,
            needle=None if self.needle is None else self.needle + 1,
            stitch=self.stitch,
            where=self.where,
            fix=self.fix.text,
            next=following.round if following else None,
            next_part=following.part if following else None,
        )


def explain(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    """The cause in words, with its repair."""
    return _EXPLAIN[cause.kind](progress, counted, cause)


# --- counting again -----------------------------------------------------------------------------------------


def _recount(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    stage = progress.stages[cause.stage]
    have, due, needle = counted.total, stage.after, cause.needle
    off = off_on_needles(stage, counted)
    message, where = "count.count_again.message", "count.count_again.where"
    if needle is not None and off is not None and stage.needles is not None:
        due = stage.needles[needle]
        have = due + off[needle]
        message, where = "count.count_again.message.needle", "count.count_again.where.needle"
        if not progress.needles_known:
            message = "count.count_again.message.needle_assumed"
    elif abs(cause.stitches) > 1:
        pair = abs(cause.stitches) == 2
        message = "count.count_again.message.pair" if pair else "count.count_again.message.few"
    number = None if needle is None else needle + 1
    place = progress.reached(cause.stage, cause.number)
    if several(progress, places := holding(progress, stage.after)):
        line, then = found(progress, places, say("count.go_on.as_before"))
        rounds = places_named(progress, places)
        if needle is None:
            message, place = "count.count_again.message.lost", rounds
        else:
            then = joined(" ", say_count("count.right", stage.after, rounds=rounds), then)
    else:
        line, then = following(progress, cause)
    return Explanation(
        message=say(
            progress.held(message),
            counted=have,
            due=due,
            needle=number,
            place=place,
            shares=_shares(progress.stages[0]),
        ),
        where=say(progress.held(where), needle=number, start=progress.start(cause.stage, cause.number)),
        fix=Fix(say("count.count_again.fix", due=due, go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
        needle=needle,
    )


def _left_out(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    stage = progress.stages[cause.stage]
    line, then = following(progress, cause)
    place = _place(progress, cause)
    if cause.needle is not None and stage.needles is not None:
        message = say(
            progress.held("count.left_out.message.needle"),
            needle=cause.needle + 1,
            share=stage.needles[cause.needle],
            place=place,
        )
    else:
        needles = "count.left_out.message" if progress.needles_known else "count.left_out.message.even"
        message = say_count(
            progress.held(needles),
            cause.other,
            counted=counted.total,
            due=stage.after,
            missing=-cause.stitches,
            place=place,
        )
    return Explanation(
        message=message,
        where=say(progress.held("count.left_out.where"), start=progress.start(cause.stage, cause.number)),
        fix=Fix(
            joined(
                " ",
                say(progress.held("count.left_out.fix")),
                say("count.count_again.fix", due=stage.after, go_on=then),
            ),
            line,
        ),
        at=cause.stage,
        round=cause.number,
        stitches=0,
        needle=cause.needle,
    )


def _place(progress: Progress, cause: Cause) -> str:
    """Where the knitter is: all places where nobody knows the part."""
    if part_unknown(progress, cause.stage):
        return places_named(progress, holding(progress, progress.stages[cause.stage].after))
    return progress.reached(cause.stage, cause.number)


def _slid_off(progress: Progress, _: Counted, cause: Cause) -> Explanation:
    line, then = following(progress, cause)
    happened = (
        say_count(progress.held("count.slid_off.happened"), cause.other)
        if cause.needle is None
        else say(progress.held("count.slid_off.happened.needle"), needle=cause.needle + 1)
    )
    return Explanation(
        message=say_count("count.off.few", -cause.stitches, what=happened),
        where=say("count.slid_off.where"),
        fix=Fix(say("count.slid_off.fix", go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=cause.stitches,
        needle=cause.needle,
    )


def _far(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    line, then = following(progress, cause)
    fields = {
        "word": say(f"count.word.{progress.word}"),
        "words": say(f"count.words.{progress.word}"),
        "stitches": say_count("stitches", counted.total),
        "place": places_named(progress, holding(progress, progress.stages[cause.stage].after))
        or progress.reached(cause.stage, cause.number),
        "due": progress.stages[cause.stage].after,
        "start": progress.start(cause.stage, cause.number),
        "go_on": then,
    }
    return Explanation(
        message=say("count.far.message", **fields),
        where=say("count.far.where", **fields),
        fix=Fix(say("count.far.fix", **fields), line),
        at=cause.stage,
        round=cause.number,
        stitches=cause.stitches,
    )


# --- a stitch too many or too few ---------------------------------------------------------------------------


def _stitches_off(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    shaped = progress.last_shaped(cause.stage) if cause.code in _IN_SHAPED_ROUND else None
    at = cause.stage if shaped is None else shaped
    number = cause.number if at == cause.stage else progress.stages[at].first
    stage = progress.stages[at]
    fix = put_right(progress, counted, cause)
    if not fix.on_needle:  # the needle named is always the needle mended
        cause = cause._replace(needle=None)
    message = say_count(
        "count.off.many" if cause.stitches > 0 else "count.off.few",
        abs(cause.stitches),
        what=_happened(progress, cause, at, number),
    )
    if cause.code in _OFF_FROM_CAST_ON and (in_first_round(progress, cause) or repeats_off(progress, cause)):
        message = joined(" ", message, on_the_edge(progress, counted, cause))
    return Explanation(
        message=message,
        where=_where(progress, counted, cause, stage),
        fix=fix,
        at=at,
        round=number,
        stitches=cause.stitches,
        needle=cause.needle,
        stitch=_only_decrease(cause, stage) if cause.code == "missed_decrease" else None,
    )


_IN_SHAPED_ROUND: Final[frozenset[CauseCode]] = frozenset(
    {"missed_decrease", "extra_decrease", "missed_increase"}
)


_OFF_FROM_CAST_ON: Final[frozenset[CauseCode]] = frozenset({"extra_stitch", "dropped_stitch"})
"""Causes that may go back to the cast-on."""


def _happened(progress: Progress, cause: Cause, at: int, number: int) -> str:
    """What happened in the round `number` of the stage `at`, or where nobody knows the round."""
    slips = abs(cause.stitches)
    if part_unknown(progress, at) and (cause.code == "extra_decrease" or _is_extra_anywhere(progress, cause)):
        return say_count(f"count.anywhere.{cause.code}", slips, on=_on_needle(progress, cause))
    on_cast_on = not number and progress.stages[at].part != "crown"
    first_round = in_first_round(progress, cause)
    if cause.code in _OFF_FROM_CAST_ON:
        if on_cast_on or (repeats_off(progress, cause) and not first_round):
            return say(f"count.cast_on.{cause.code}")
        if first_round:
            of_cast_on = "first_round" if cause.code == "extra_stitch" else "cast_on"
            return say(f"count.{of_cast_on}.{cause.code}")
    place = progress.named(at, number)
    since = not number or (at, number) != (cause.stage, cause.number) or unsure_after(progress, at)
    if cause.code == "extra_decrease" and since:
        place = say("count.off.or_since", round=place)
    if cause.code == "missed_decrease":
        slips = -(-slips // progress.stages[at].shaping.takes)  # a double decrease takes two stitches away
    return say_count(f"count.{cause.code}.happened", slips, on=_on_needle(progress, cause), round=place)


def _is_extra_anywhere(progress: Progress, cause: Cause) -> bool:
    """Whether a stitch may have been added since the cast-on: not where whole repeats of a rib are too many."""
    return cause.code == "extra_stitch" and not repeats_off(progress, cause)


def _on_needle(progress: Progress, cause: Cause) -> str:
    """On which needle it happened, where that is known or assumed."""
    if cause.needle is None:
        return ""
    on_needle = "count.off.on_needle" if progress.needles_known else "count.off.on_needle_assumed"
    return say(progress.held(on_needle), needle=cause.needle + 1)


def _where(progress: Progress, counted: Counted, cause: Cause, stage: Stage) -> str:
    if progress.cast_on_now and not cause.number:
        return say("count.cast_on.where")
    is_lost = part_unknown(progress, cause.stage)
    sentences = [_between_decreases(progress, cause, stage) or say(f"count.{cause.code}.where")]
    if cause.code in _OFF_FROM_CAST_ON and repeats_off(progress, cause):
        sentences.insert(0, say("count.cast_on.where"))
    elif rib := rib_among(progress, cause.stage) if is_lost else progress.stages[cause.stage].rib:
        which = "many" if cause.stitches > 0 else "few"
        knit, purl = (
            say_count(f"count.rib.{kind}", width) for width, kind in zip(rib, ("knit", "purl"), strict=True)
        )
        there = "count.where.perhaps_rib" if is_lost else "count.where.rib"
        key = f"{there}.one_by_one" if rib == (1, 1) else f"{there}.{which}"
        sentences.insert(0, say(key, knit=knit, purl=purl))
    if needles := _needles_off(progress, counted, cause):
        sentences.insert(0, needles)
    return joined(" ", *sentences)


def _needles_off(progress: Progress, counted: Counted, cause: Cause) -> str | None:
    """Which needles are off, where it is more than one."""
    off = off_on_needles(progress.stages[cause.stage], counted) if progress.needles_known else None
    if not any(off or ()) or cause.needle is not None:
        return None
    needles: list[str] = []
    for needle, more in enumerate(off or (), start=1):
        if more:
            which = ("half" if progress.loop else "needle") + ("" if needles else "_first")
            how = "many" if more > 0 else "few"
            needles.append(say(f"count.off.{which}.{how}", needle=needle, count=abs(more)))
    return say("count.off.needles", needles=joined(", ", *needles))


def _between_decreases(progress: Progress, cause: Cause, stage: Stage) -> str | None:
    """How to find the place by the decreases; None where the line does not help."""
    if cause.code not in ("missed_decrease", "extra_decrease") or not stage.shaping.decreases:
        return None
    if cause.code == "missed_decrease" and (stitch := _only_decrease(cause, stage)) is not None:
        on_needle = "half" if progress.loop else "needle"
        what = "round" if cause.needle is None else on_needle
        return say(f"count.where.only_decrease.{what}", stitches=say_count("stitches", stitch))
    star = star_of(stage.lines[0].steps)
    if star is None:
        return None
    wide = execute(star[1].steps)[1]
    if wide < 2:  # nothing but decreases
        return None
    wrong = wide + (1 if cause.stitches > 0 else -1)
    return say("count.where.between_decreases", wide=say_count("stitches", wide), wrong=wrong)


def _only_decrease(cause: Cause, stage: Stage) -> int | None:
    """How far into the needle, or the round, its decrease stands where it has only one."""
    if cause.needle is not None and stage.needles is not None:
        places = decreases_on(stage, cause.needle)
    else:
        places = decrease_places(stage.lines[0].steps) if stage.lines else ()
    return places[0] if len(places) == 1 else None


# --- needles ------------------------------------------------------------------------------------------------


def _plain_needle(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    plain = plain_needles(progress, counted, cause.stage)
    shaped = progress.last_shaped(cause.stage)
    assert shaped is not None  # a needle is plain where the others are not
    number = progress.stages[shaped].first
    needles, place = needles_named(progress, plain), progress.named(shaped, number)
    return Explanation(
        message=say_count(
            "count.worked_plain.message",
            len(plain),
            needles=needles,
            round=place,
            stitches=say_count("stitches", cause.stitches),
        ),
        where=say("count.worked_plain.where", needles=needles),
        fix=catch_up(progress, cause, shaped, plain),
        at=shaped,
        round=number,
        stitches=cause.stitches,
        needle=cause.needle,
    )


def _merged(progress: Progress, _: Counted, cause: Cause) -> Explanation:
    full, empty = cause.needle or 0, cause.other
    stage = progress.stages[cause.stage]
    share = stage.needles[full] if stage.needles else 0
    line, then = following(progress, cause)
    return Explanation(
        message=say(progress.held("count.merged.message"), full=full + 1, empty=empty + 1),
        where=say(progress.held("count.merged.where"), empty=empty + 1, share=share),
        fix=Fix(say_count(progress.held("count.merged.fix"), cause.stitches, go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
        needle=full,
        stitch=share,
    )


def _strayed(progress: Progress, _: Counted, cause: Cause) -> Explanation:
    more, less, few = cause.needle or 0, cause.other, cause.stitches
    line, then = following(progress, cause)
    place = "last" if less == more + 1 or (less == 0 and more > 1) else "first"
    if progress.loop:
        place = f"{place}_of_half"
    return Explanation(
        message=say_count(progress.held("count.strayed.message"), few, more=more + 1, less=less + 1),
        where=say_count(f"count.strayed.where.{place}", few, more=more + 1),
        fix=Fix(say_count("count.strayed.fix", few, go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
        needle=more,
    )


def _spread(progress: Progress, _: Counted, cause: Cause) -> Explanation:
    line, then = following(progress, cause)
    shares = _shares(progress.stages[cause.stage])
    return Explanation(
        message=say(progress.held("count.spread.message")),
        where=say(
            progress.held("count.spread.where"),
            shares=shares,
            place=_place(progress, cause),
        ),
        fix=Fix(say(progress.held("count.spread.fix"), go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
    )


def _hidden(progress: Progress, _: Counted, cause: Cause) -> Explanation:
    line, then = following(progress, cause)
    less, more = cause.needle or 0, cause.other
    return Explanation(
        message=say(progress.held("count.hidden.message"), less=less + 1, more=more + 1),
        where=joined(" ", say("count.dropped_stitch.where"), say("count.extra_stitch.where")),
        fix=Fix(say("count.hidden.fix", go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
        needle=less,
    )


def _shares(stage: Stage) -> str:
    return ", ".join(str(share) for share in stage.needles or ())


# --- another round ------------------------------------------------------------------------------------------


def _elsewhere(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    stage = progress.stages[cause.stage]
    line, then = following(progress, cause)
    rounds = progress.reached(cause.stage, cause.number)
    if cause.number > stage.first:
        rounds = say("count.elsewhere.since", rounds=rounds, first=progress.named(cause.stage, stage.first))
    elif stage.last > stage.first:
        rounds = say("count.elsewhere.up_to", rounds=rounds, last=stage.last)
    off = off_on_needles(stage, counted) if progress.needles_known else None
    fix = "count.elsewhere.fix.needles" if any(off or ()) else "count.elsewhere.fix"
    return Explanation(
        message=say("count.elsewhere.message", rounds=rounds, word=say(f"count.word.{progress.word}")),
        where=say("count.elsewhere.where", words=say(f"count.words.{progress.word}")),
        fix=Fix(say(progress.held(fix), shares=_shares(stage), go_on=then), line),
        at=cause.stage,
        round=cause.number,
        stitches=0,
    )


def _near(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    stage = progress.stages[cause.stage]
    _, then = following(progress, cause)
    place = progress.reached(cause.stage, cause.number)
    slip: CauseCode = "dropped_stitch" if cause.stitches < 0 else "extra_stitch"
    slipped = _stitches_off(progress, counted, cause._replace(kind="stitches_off", code=slip))
    message = say(
        "count.near.message",
        counted=counted.total,
        due=stage.after,
        place=place,
        word=say(f"count.word.{progress.word}"),
    )
    return Explanation(
        message=joined(" ", message, *_begun(progress, cause)),
        where=say("count.elsewhere.where", words=say(f"count.words.{progress.word}")),
        fix=slipped.fix._replace(
            text=joined(
                " ",
                say("count.count_again.fix", due=stage.after, go_on=then),
                say("count.count_again.otherwise", cause=slipped.message),
                say("count.dropped_stitch.where" if cause.stitches < 0 else "count.extra_stitch.where"),
                slipped.fix.text,
            )
        ),
        at=cause.stage,
        round=cause.number,
        stitches=cause.stitches,
    )


def _begun(progress: Progress, cause: Cause) -> Iterator[str]:
    """That the decrease round behind is begun, where the stitches are fewer by decreases of it."""
    shaped = next(
        (
            index
            for index in range(cause.stage + 1, len(progress.stages))
            if progress.stages[index].shaping.decreases
        ),
        None,
    )
    if shaped is None or cause.stitches > 0:
        return
    stage = progress.stages[shaped]
    made, part = divmod(-cause.stitches, stage.shaping.takes)
    if part or stage.before != progress.stages[cause.stage].after or made >= stage.shaping.decreases:
        return
    yield say(
        "count.near.begun",
        round=progress.named(shaped, stage.first),
        made=made,
        decreases=stage.shaping.decreases,
    )


def _wrong_line(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    stage, other = progress.stages[cause.stage], progress.stages[cause.other]
    line, then = following(progress, cause)
    if not cause.stitches:
        fix = Fix(say("count.wrong_line.fix", go_on=then, last_resort=say("count.fix.last_resort")), line)
    elif line and abs(cause.stitches) <= MOST_WRONG_LINE:
        fix = put_right(progress, counted, cause)
    else:
        fix = take_back(progress, cause)
    return Explanation(
        message=say(
            "count.wrong_line.message",
            place=progress.named(cause.stage, cause.number),
            word=say(f"count.word.{progress.word}"),
            other=progress.named(cause.other, other.first),
            before=say_count("stitches", stage.before),
            counted=counted.total,
        ),
        where=joined(
            " ",
            say("count.wrong_line.where", text=progress.wording(stage.lines[0])),
            *_needles_after_line(progress, counted, cause),
        ),
        fix=fix,
        at=cause.stage,
        round=cause.number,
        stitches=cause.stitches,
    )


def _needles_after_line(progress: Progress, counted: Counted, cause: Cause) -> Iterator[str]:
    """What the needles would hold after the line of the other round, where they do not: who looks rules it out."""
    stage, held = progress.stages[cause.stage], progress.stages[cause.stage - 1].needles
    steps = worked_around(progress.stages[cause.other].lines[0].steps, stage.before)
    if steps is None or not held or not counted.needles or not progress.needles_known:
        return
    needles = worked_on(held, steps)
    if needles and needles != counted.needles:
        shares = ", ".join(map(str, needles))
        yield say(progress.held("count.wrong_line.needles"), shares=shares)


def _midway(progress: Progress, counted: Counted, cause: Cause) -> Explanation:
    done, place = cause.other, progress.named(cause.stage, cause.number, first=True)
    word = say(f"count.word.{progress.word}")
    return Explanation(
        message=say("count.midway.message_on_loop", place=place)
        if progress.loop
        else say_count(
            "count.midway.message",
            done,
            place=place,
            needles=listed([str(needle) for needle in range(1, done + 1)]),
        ),
        where=say(progress.held("count.midway.where"), word=word, needle=done + 1),
        fix=Fix(say("count.midway.fix", word=word), progress.first_line(cause.stage)),
        at=cause.stage,
        round=cause.number,
        stitches=counted.total - progress.stages[cause.stage].after,
        needle=done,
        stitch=0,
    )


_EXPLAIN: Final[dict[Kind, Callable[[Progress, Counted, Cause], Explanation]]] = {
    "recount": _recount,
    "left_out": _left_out,
    "slid_off": _slid_off,
    "hidden": _hidden,
    "stitches_off": _stitches_off,
    "plain_needle": _plain_needle,
    "elsewhere": _elsewhere,
    "near": _near,
    "line": _wrong_line,
    "midway": _midway,
    "merged": _merged,
    "strayed": _strayed,
    "spread": _spread,
    "far": _far,
}
