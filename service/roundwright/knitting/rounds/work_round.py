"""Work a round: run its steps on the stitches there are. It is the only way to build a round."""

from functools import lru_cache

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Round, RoundKind, Steps, Unworkable, execute
from roundwright.language import say


def work_round(
    number: int,
    before: int,
    steps: Steps,
    kind: RoundKind | None = None,
    notes: tuple[str, ...] = (),
    *,
    flat: bool = False,
) -> Round:
    """The round, or with `flat` the row, that these steps make of `before` stitches.

    Raises `Unworkable` where the steps use more or fewer stitches than there are.
    """
    used, after, text = _worked_and_written(steps, flat)
    if used != before:
        raise Unworkable(say("round_check.uses", round=number, used=used, stitches=before))
    if kind is None:
        kind = "plain" if after == before else "decrease" if after < before else "increase"
    return Round(number=number, before=before, after=after, steps=steps, text=text, kind=kind, notes=notes)


@lru_cache(maxsize=2048)  # hats of all sizes have many rounds in common
def _worked_and_written(steps: Steps, flat: bool) -> tuple[int, int, str]:
    """Stitches used and left, and the written line."""
    return *execute(steps), written_line(steps, flat=flat)


def chained(rounds: tuple[Round, ...], pointer: str = "#/rounds") -> tuple[Round, ...]:
    """The same rounds, checked: each uses exactly the stitches the one before left, and states the right counts.

    Raises `Unworkable`, which names the first round that is wrong.
    """
    count = rounds[0].before if rounds else 0
    for index, round in enumerate(rounds):
        used, left = execute(round.steps)
        if used != count:
            surplus = used - count
            raise Unworkable(
                say("round_check.works", round=round.number, used=used, stitches=count),
                pointer=f"{pointer}/{index}/steps",
                nearest=say(
                    "round_check.fewer" if surplus > 0 else "round_check.more",
                    stitches=count,
                    difference=abs(surplus),
                ),
            )
        if round.before != used or round.after != left:
            raise Unworkable(
                say(
                    "round_check.states",
                    round=round.number,
                    before=round.before,
                    after=round.after,
                    used=used,
                    left=left,
                ),
                pointer=f"{pointer}/{index}/{'before' if round.before != used else 'after'}",
                nearest=say("round_check.before_after", used=used, left=left),
            )
        count = left
    return rounds
