"""Counts made after one slip, drawn at random: what work, what slip, and what of it is handed over.

Nobody has published how often knitters slip, or how often they count wrong: the frequencies are `common practice`.
"""

from random import Random
from typing import Any, NamedTuple

import msgspec

from roundwright.knitting.answers import Impossible
from roundwright.knitting.crown.crown import crown
from roundwright.knitting.crown.request import CrownRequest
from roundwright.knitting.crown.styles import STYLES
from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from tests.support import by_hand, slipping

SLIPS = {
    "missed_decrease": (slipping.miss_a_decrease,),
    "extra_decrease": (slipping.decrease_too_often,),
    "dropped_stitch": (slipping.drop_a_stitch,),
    "extra_stitch": (slipping.add_a_stitch,),
    "needles_merged": (slipping.merge_needles, slipping.merge_needles, slipping.stray),
    "other_round": (None,),
}


class Case(NamedTuple):
    """A slip, and what is handed over about it."""

    code: str
    request: dict[str, Any]
    off: int  # stitches too many
    needle: int | None  # on which it was made, where the service is told the needles and the knitter's split

    @property
    def given(self) -> tuple[str, str]:
        """What is handed over."""
        count = "by needle" if "needles" in self.request else "whole"
        return count, "round known" if "round" in self.request else "round not known"


def a_crown(chance: Random) -> dict[str, Any]:
    """A crown of any style for any head, 24 to 120 stitches."""
    piece: dict[str, Any] = {
        "stitches": chance.randint(6, 30) * 4 + chance.choice([0, 0, 0, 1, 2, 3]),
        "style": chance.choice(sorted(STYLES)),
        "needles": chance.randint(2, 5),
        "tolerance": chance.choice([2, 4, 8]),
        "decrease_at": chance.choice(["end", "start"]),
    }
    if chance.random() < 0.3:
        piece["cadence"] = {"plain_rounds": chance.randint(0, 3)}
    return piece


def a_hat(chance: Random) -> dict[str, Any]:
    """A whole hat in one size."""
    return {
        "gauge": {"stitches": chance.choice([18, 20, 22, 26]), "rows": chance.choice([24, 28, 32])},
        "sizes": [{"head": {"value": chance.randint(33, 60), "unit": "cm"}}],
        "brim": {"kind": chance.choice(["rolled", "ribbed", "garter", "folded"])},
        "crown": {"style": chance.choice(sorted(STYLES))},
        "needles": chance.randint(2, 5),
    }


def lines_of(kind: str, piece: dict[str, Any]) -> tuple[list[int], list[tuple[str | None, dict[str, Any]]]]:
    """The split and every round in order, each with its part, as the service gives them."""
    if kind == "crown":
        answer = _over_the_wire(crown(msgspec.convert(piece, CrownRequest)))
        return answer["split"]["split"], [(None, line) for line in answer["rounds"]]
    plan = hat.hats(msgspec.convert(piece, hat_request.HatRequest), lambda *_: "").sizes[0]
    size = _over_the_wire(plan)
    straights = [
        (part, {**round, "number": number})
        for part in ("brim", "body")
        for number, round in enumerate(by_hand.straight_rounds(size[part]), start=1)
    ]
    return size["split"]["split"], [*straights, *(("crown", line) for line in size["crown"]["rounds"])]


def _over_the_wire(answer: Any) -> dict[str, Any]:
    return msgspec.json.decode(msgspec.json.encode(answer, enc_hook=str))


class Drawn(NamedTuple):
    """Work, and what it should leave on the needles round by round."""

    request: dict[str, Any]  # the work as the service is told of it
    rounds: list[tuple[str | None, dict[str, Any]]]
    held: list[slipping.Needles]  # before each round, and after the last
    needles_known: bool


def draw(chance: Random) -> Case:
    """A case in which there is something to see.

    - the work: four crowns for each hat; all styles, 24 to 123 stitches, 2 to 5 needles. For one crown in five the
      service is not told of needles, and the knitter shares the stitches out in a way of their own, which in half of
      them is handed over as `split`
    - the slip: each of the six codes alike. A decrease is missed or worked twice in any round that has one (or two
      stitches knitted together in a plain round); other slips in any round; a merge is of whole needles twice, and of a
      few stitches once, in three. `other_round` is twice the wrong round said, one to three away, and once the line of
      a neighbouring decrease round worked in place of the right one
    - the count is made after that round (half of the cases), later but before the next decrease round (a quarter), or
      up to four rounds later, the knitter reading the knitting all the while
    - it is made needle by needle in 6 of 10, always where needles were merged, since the whole count is right then
    - the round is known in half, always where the wrong round is said
    - a slip that what is counted does not show, since it is right for the round just finished, is drawn again: one made
      good by a later decrease, or a wrong line that comes out
    """
    code = chance.choice(sorted(SLIPS))
    while True:
        work = _work(chance)
        case = work and (_other_round(chance, work) if code == "other_round" else _slip(chance, work, code))
        if case:
            return case


def draw_miscount(chance: Random) -> Case:
    """A case in which nothing is wrong but the count: one stitch is skipped or counted twice, on one of the needles.

    Work, place and what is handed over are drawn as for a slip.
    """
    while True:
        work = _work(chance)
        if not work or not work.rounds:
            continue
        at = _place(chance, work)
        needles = [list(loops) for loops in work.held[at + 1]]
        needle = chance.choice([number for number, loops in enumerate(needles) if loops])
        if chance.random() < 0.5:
            needles[needle].append(slipping.EXTRA)
        else:
            needles[needle].pop()
        case = _handed_over(chance, work, at, "count_again", (needles, needle + 1))
        if case:
            return case


def _work(chance: Random) -> Drawn | None:
    kind = "crown" if chance.random() < 0.8 else "hat"
    piece = a_crown(chance) if kind == "crown" else a_hat(chance)
    try:
        split, rounds = lines_of(kind, piece)
    except Impossible:
        return None
    request: dict[str, Any] = {kind: piece}
    known = True
    if kind == "crown" and chance.random() < 0.2:
        stitches, needles = piece["stitches"], piece.pop("needles")
        split = [stitches // needles + (place < stitches % needles) for place in range(needles)]
        chance.shuffle(split)
        known = chance.random() < 0.5
        if known:
            request["split"] = split
    held = [slipping.cast_on(split)]
    for _, line in rounds:
        held.append(slipping.knit(held[-1], line))
    return Drawn(request, rounds, held, known)


def _place(chance: Random, work: Drawn) -> int:
    """The round in which it happens; of a hat mostly one of the crown, where most rounds with decreases are."""
    places = range(len(work.rounds))
    crown_only = [
        place for place in places if work.rounds[place][0] != "brim" and work.rounds[place][0] != "body"
    ]
    return chance.choice(crown_only if crown_only and chance.random() < 0.7 else places)


def _slip(chance: Random, work: Drawn, code: str) -> Case | None:
    if not work.rounds:
        return None
    at = _place(chance, work)
    slipped = chance.choice(SLIPS[code])(work.held[at], work.rounds[at][1], chance)
    if slipped is None:
        return None
    needles, needle = slipped
    last = _carry_on(chance, work.rounds, at)
    for _, line in work.rounds[at + 1 : last + 1]:
        needles = slipping.knit(needles, line)
    return _handed_over(chance, work, last, code, (needles, needle))


def _carry_on(chance: Random, rounds: list[tuple[str | None, dict[str, Any]]], at: int) -> int:
    """The round after which the count is made."""
    how, last = chance.random(), at
    if how < 0.5:
        return at
    if how >= 0.75:
        return min(len(rounds) - 1, at + chance.randint(0, 4))
    while last + 1 < len(rounds) and rounds[last + 1][1]["before"] == rounds[last + 1][1]["after"]:
        last += 1
    return chance.randint(at, min(last, at + 6))


def _other_round(chance: Random, work: Drawn) -> Case | None:
    if not work.rounds:
        return None
    at = _place(chance, work)
    if chance.random() < 2 / 3:
        claim = at + chance.choice([-3, -2, -1, 1, 2, 3])
        if not 0 <= claim < len(work.rounds) or work.rounds[claim][0] != work.rounds[at][0]:
            return None
        return _handed_over(chance, work, claim, "other_round", (work.held[at + 1], None), known=True)
    decreases = [place for place, (_, line) in enumerate(work.rounds) if line["after"] < line["before"]]
    if at not in decreases:
        return None
    beside = decreases.index(at) + chance.choice([-1, 1])
    if not 0 <= beside < len(decreases):
        return None
    needles = slipping.work_the_wrong_line(work.held[at], work.rounds[decreases[beside]][1])
    return _handed_over(chance, work, at, "other_round", (needles, None))


def _handed_over(
    chance: Random,
    work: Drawn,
    last: int,
    code: str,
    made: tuple[slipping.Needles, int | None],
    *,
    known: bool = False,
) -> Case | None:
    (needles, needle), (part, line) = made, work.rounds[last]
    counted, right = slipping.counts(needles), slipping.counts(work.held[last + 1])
    by_needle = code == "needles_merged" or chance.random() < 0.6
    off = sum(counted) - line["after"]
    seen = off or (by_needle and counted != right and (work.needles_known or [] in needles))
    if not seen or sum(counted) < 1:
        return None
    request = dict(work.request)
    if by_needle:
        aside = chance.random() < 0.5  # an empty needle is put aside, and not counted any more
        request["needles"] = [count for count in counted if count] if aside else counted
    else:
        request["count"] = sum(counted)
    if known or chance.random() < 0.5:
        request["round"] = line["number"]
        if part is not None:
            request["part"] = part
    return Case(code, request, off, needle if by_needle and work.needles_known else None)
