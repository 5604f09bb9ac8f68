"""A count that is not right, or a place in the work that is lost: what the stitches on the needles say.

    request -> rounds in stages -> those after which the count is right, or the causes -> explained, with repairs

`request` has the request, `progress` the stages, `lost_place` the rounds that a count may belong to, `causes` the
causes, `explain` their explanation, `putting_right` what to do and `repair` the repaired lines.
"""

from collections.abc import Sequence
from typing import Annotated, Final

from msgspec import Meta, Struct
from msgspec.structs import replace

from roundwright.knitting.answers import COMMON_PRACTICE, RULES, Basis, Notice, RulesVersion
from roundwright.knitting.counting.causes import RECOUNTS, Cause, Counted, Kind, is_right, possible_causes
from roundwright.knitting.counting.explain import CountCause, Explanation, explain
from roundwright.knitting.counting.lost_place import (
    MOST_NAMED,
    found,
    holding,
    part_unknown,
    places_named,
    several,
    spans_of,
    which_round,
)
from roundwright.knitting.counting.progress import LineWriter, Needles, NextLine, PartName, Place, Progress
from roundwright.knitting.counting.putting_right import go_on
from roundwright.knitting.counting.request import (
    CountRequest,
    Reader,
    count_of,
    printed_first,
    progress_of,
    stated_places,
)
from roundwright.knitting.needles.tracking import track_needles
from roundwright.knitting.rounds.round import LAST_ROUND, Round
from roundwright.language import joined, listed, say, say_count


class CountMatch(Struct, frozen=True, kw_only=True):
    """A round after which the count is right, or several in succession that leave the same stitches."""

    part: Annotated[PartName | None, Meta(description="Part of the hat; null for a pattern in words.")]
    round: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)],
        Meta(description="Number of the round; 0 before the first."),
    ]
    last: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)],
        Meta(description="Number of the last such round in succession; the same where there is only one."),
    ]
    stitches: Annotated[int, Meta(description="Stitches after it.")]
    needles: Annotated[
        tuple[int, ...] | None,
        Meta(description="Stitches on each needle after it; null where needles are not known."),
    ]
    text: Annotated[str, Meta(description="The line of `round`, empty for round 0.")]
    next: Annotated[
        Round | None,
        Meta(
            description="The line after `last`; null where the work is done, or a pattern is followed no farther."
        ),
    ]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]


class CountAnswer(Struct, frozen=True, kw_only=True):
    """What a count says."""

    message: Annotated[str, Meta(description="The answer in a few sentences.")]
    matches: Annotated[
        tuple[CountMatch, ...],
        Meta(
            description="The rounds after which the count is right, in order, the one stated first; with `needles` "
            "every needle must be right."
        ),
    ]
    causes: Annotated[
        tuple[CountCause, ...],
        Meta(
            description="What may have gone wrong, the likeliest first; empty where the count is right. Without a "
            "`round` it is right if it is right after any. For a few stitches too many or too few, or whole needles "
            "too few, the first is mostly to count again."
        ),
    ]
    tell_apart: Annotated[
        str | None,
        Meta(
            description="How to tell the first two causes apart, counting again left aside, where they leave the same "
            "count; null where there is nothing to tell apart."
        ),
    ]
    next: Annotated[
        Round | None,
        Meta(
            description="The next line to work. Where a few rounds match that are no further apart than a plain round, "
            "the line after the first of them: a plain round too many does the least harm. Null where more match, so "
            "that nobody knows the round: `message` says how to go on and to find it. Where none matches, as the first "
            "of `causes` has it, for a count that stays when it is made again."
        ),
    ]
    next_part: Annotated[PartName | None, Meta(description="The part of the hat that `next` belongs to.")]
    basis: Annotated[tuple[Basis, ...], Meta(description="What the answer rests on.")]
    warnings: Annotated[tuple[Notice, ...], Meta(description="What to mind.")]
    rules: RulesVersion = RULES


def check(request: CountRequest, read: Reader, in_sentences: LineWriter) -> CountAnswer:
    """The rounds after which the count is right, or what may have gone wrong and how to put it right.

    Raises `Impossible` for a request that names no work, or work that cannot be knitted, or a round it does not have.
    """
    counted = count_of(request)
    progress = progress_of(request, read, in_sentences)
    stated = stated_places(request, progress)
    if request.round == 0 and stated[0] == (0, 0) and progress.stages[0].part in ("brim", None):
        progress = progress._replace(cast_on_now=True)
    if progress.printed and len(stated) > 1:
        progress = progress._replace(alike=stated)
        stated = printed_first(progress, stated)
    places = tuple(sorted(stated)) or tuple(
        (index, stage.first) for index, stage in enumerate(progress.stages)
    )
    if request.round is None:
        progress = progress._replace(possible=places)
    right = [
        index
        for index, stage in enumerate(progress.stages)
        if is_right(stage, counted, needles_known=progress.needles_known)
    ]
    here = [place for place in places if place[0] in right]
    right.sort(key=lambda index: index not in [place for place, _ in here])
    matches = tuple(_match(progress, counted, index) for index in right)
    if here:
        return _right(progress, counted, here, matches)
    return _wrong(progress, counted, stated, matches)


def _right(
    progress: Progress,
    counted: Counted,
    here: list[Place],
    matches: tuple[CountMatch, ...],
) -> CountAnswer:
    if progress.possible and several(progress, here):
        rounds = places_named(progress, here)
        following, then = found(progress, here, say("count.right.go_on"))
    else:
        rounds = listed(list(dict.fromkeys(progress.reached(*place) for place in here[:MOST_NAMED])), "or")
        following = progress.next_line(*here[0])
        which = which_round(progress, here) if len(here) > 1 else ()
        then = joined(" ", *which, _next_named(progress, following))
    return CountAnswer(
        message=joined(
            " ", say_count("count.right", counted.total, rounds=rounds), then, _round_taken(progress, here)
        ),
        matches=matches,
        causes=(),
        tell_apart=None,
        next=_on_needles(progress, counted, following),
        next_part=following.part if following else None,
        basis=BASIS,
        warnings=_notices_of_right(progress, counted),
    )


def _round_taken(progress: Progress, taken: Sequence[Place]) -> str:
    """Which round of the stated number the answer is for, and which others the pattern has; empty where it has one."""
    if not progress.alike:
        return ""
    others = [place for place in progress.alike if place not in taken]
    number = progress.alike[0][1]
    here = listed([_line_of_text(progress, place) for place in taken], "or")
    there = listed([_line_of_text(progress, place) for place in others[:MOST_NAMED]], "and")
    also = say("count.pattern.taken_also", round=number, lines=there) if others else ""
    return joined(" ", say("count.pattern.taken", round=number, lines=here), also)


def _line_of_text(progress: Progress, place: Place) -> str:
    """A round by the line of the text that asks for it."""
    line = progress.stages[place[0]].line(place[1])
    return say("count.pattern.line", line=line.line or 0, text=line.text)


def _own_needles(progress: Progress, counted: Counted) -> Needles | None:
    """What the knitter counted on each needle, where the split of the stages is only assumed."""
    return counted.needles if progress.stages[0].needles and not progress.needles_known else None


def _on_needles(progress: Progress, counted: Counted, following: NextLine | None) -> Round | None:
    """The line to work next, on the knitter's own needles where the split is only assumed."""
    own = _own_needles(progress, counted)
    if following is None or own is None or following.round.before != sum(own):
        return following.round if following else None
    return track_needles((following.round,), own)[0]


def _notices_of_right(progress: Progress, counted: Counted) -> tuple[Notice, ...]:
    """The notices; of a split that is only assumed, that the needles are followed as they were counted."""
    if _own_needles(progress, counted) is None:
        return progress.notices
    followed = say("count.split_followed")
    return tuple(
        replace(notice, message=followed) if notice.code == "split_assumed" else notice
        for notice in progress.notices
    )


def _next_named(progress: Progress, following: NextLine | None) -> str:
    if following is None:
        return go_on(progress, None)
    return say(
        "count.right.next", line=progress.line_named(following), text=progress.wording(following.round)
    )


def _wrong(
    progress: Progress,
    counted: Counted,
    stated: tuple[Place, ...],
    matches: tuple[CountMatch, ...],
) -> CountAnswer:
    causes = possible_causes(progress, counted, stated)
    if progress.unread is not None and not stated and causes[0].kind == "far":
        raise progress.unread  # the round may be among those that are not followed
    explained = _without_taking_back_first([(cause, explain(progress, counted, cause)) for cause in causes])
    tell_apart = _tell_apart(progress, [cause for cause, _ in explained])
    causes_found = tuple(
        replace(text.as_cause(progress, cause.code), next=_on_needles(progress, counted, text.fix.next))
        for cause, text in explained
    )
    first = causes_found[0]
    taken = sorted(stated, key=lambda place: abs(progress.stages[place[0]].after - counted.total))[:1]
    return CountAnswer(
        message=joined(" ", _advice(progress, explained, tell_apart), _round_taken(progress, taken)),
        matches=matches,
        causes=causes_found,
        tell_apart=tell_apart,
        next=first.next,
        next_part=first.next_part,
        basis=BASIS,
        warnings=progress.notices,
    )


Explained = tuple[Cause, Explanation]


def _without_taking_back_first(explained: list[Explained]) -> list[Explained]:
    """The causes in order, but none that takes back work before a round that matches as it is."""
    if any(cause.kind == "elsewhere" for cause, _ in explained):
        return sorted(explained, key=lambda pair: pair[1].fix.takes_back)
    return explained


def _tell_apart(progress: Progress, causes: list[Cause]) -> str | None:
    """How to tell the first two causes apart, counting again left aside."""
    pair = [cause for cause in causes if cause.kind not in RECOUNTS][:2]
    if len(pair) < 2 or any(cause.kind == "slid_off" for cause in pair):
        return None
    kinds = [cause.kind for cause in pair if cause.code == "other_round"]
    codes = "+".join(sorted(cause.code for cause in pair))
    pair_name = kinds[0] if kinds else codes
    if pair[0].kind in ("strayed", "spread") and pair[1].kind == "hidden":
        return say(progress.held("count.apart.hidden"))
    if pair_name == "near":
        pair_name = "elsewhere"
    if pair_name not in _TOLD_APART:
        return None
    if progress.loop and pair_name.endswith("+worked_plain"):
        return say("count.apart.plain_half")
    return say(f"count.apart.{pair_name}")


_TOLD_APART: Final = frozenset(
    (
        "elsewhere",
        "line",
        "midway",
        "extra_stitch+missed_decrease",
        "dropped_stitch+extra_decrease",
        "dropped_stitch+missed_increase",
        "missed_decrease+worked_plain",
        "extra_stitch+worked_plain",
    )
)
"""Pairs of causes that can be told apart: by the kind of another round, or by their codes, sorted."""


def _advice(progress: Progress, explained: list[Explained], tell_apart: str | None) -> str:
    """The likeliest cause with what to do, as a guess; before it to count again, where that may be all."""
    (cause, first), *others = explained
    again = next((pair for pair in explained if pair[0].kind in RECOUNTS), None)
    if again is None:
        guess = say("count.likeliest", cause=first.message) if cause.kind in GUESSED else first.message
        sentences = [guess, first.fix.text]
    elif again[0] is cause:
        sentences = [first.message, first.fix.text]
        sentences += [_otherwise(progress, cause, *other) for other in others[:1]]
    else:
        how = again[1].fix.text if again[0].kind == "left_out" else ""
        sentences = [again[1].message, how, _otherwise(progress, again[0], cause, first), first.fix.text]
    return joined(" ", *sentences, tell_apart or "")


GUESSED: Final[frozenset[Kind]] = frozenset(
    {"stitches_off", "plain_needle", "line", "midway", "slid_off", "hidden"}
)
"""Kinds that the count suggests and does not show: the others say so themselves, or are seen on the needles."""


def _otherwise(progress: Progress, again: Cause, cause: Cause, explained: Explanation) -> str:
    """The likeliest cause where the count stays; with its place where the count to be belongs to rounds far apart."""
    apart = len(spans_of(progress, holding(progress, progress.stages[again.stage].after))) > 1
    apart = apart and not part_unknown(progress, cause.stage)
    key = "count.count_again.otherwise_there" if apart else "count.count_again.otherwise"
    place = progress.reached(cause.stage, cause.number)
    return say(key, cause=explained.message, place=place)


BASIS: Final = (
    Basis(say("count.basis.counts"), "arithmetic"),
    Basis(say("count.basis.causes"), COMMON_PRACTICE),
    Basis(say("count.basis.repairs"), COMMON_PRACTICE),
)


def _match(progress: Progress, counted: Counted, index: int) -> CountMatch:
    stage = progress.stages[index]
    following = progress.next_line(index, stage.last)
    return CountMatch(
        part=stage.part,
        round=stage.first,
        last=stage.last,
        stitches=stage.after,
        needles=_own_needles(progress, counted) or stage.needles,
        text=stage.line(stage.first).text if stage.first else "",
        next=_on_needles(progress, counted, following),
        next_part=following.part if following else None,
    )
