"""Work a round: run its steps on the stitches there are. It is the only way to build a round."""

from functools import lru_cache

from roundwright.knitting.rounds.notation import written_line
from roundwright.knitting.rounds.round import Round, RoundKind, Steps, Unworkable, execute


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
        raise Unworkable(f"Round {number} uses {used} stitches, but there are {before}.")
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
                f"Round {round.number} works {used} stitches, but {count} are on the needles.",
                pointer=f"{pointer}/{index}/steps",
                nearest=f"a round that works {count} stitches: {abs(surplus)} {'fewer' if surplus > 0 else 'more'}",
            )
        if round.before != used or round.after != left:
            raise Unworkable(
                f"Round {round.number} states {round.before} to {round.after} stitches; "
                f"its steps make {used} to {left}.",
                pointer=f"{pointer}/{index}/{'before' if round.before != used else 'after'}",
                nearest=f"before {used}, after {left}",
            )
        count = left
    return rounds
