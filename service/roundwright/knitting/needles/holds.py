"""What holds a round, and what it is called: double-pointed needles, halves of a magic loop, or two circulars."""

from typing import Final, Literal

Hold = Literal["double_pointed", "magic_loop", "two_circulars"]

_HALVES: Final = {"magic_loop": "half", "two_circulars": "circular"}
_ORDINALS: Final = {1: "first", 2: "second"}


def holder(hold: str, number: int) -> str:
    """What holds the stitches, by its number from 1: `needle 2`, `the second half`, `the second circular`."""
    noun = _HALVES.get(hold)
    return f"needle {number}" if noun is None else f"the {_ORDINALS[number]} {noun}"


def holders(hold: str) -> str:
    """What holds the stitches, all together: `needles`, `halves`, `circulars`."""
    return {"magic_loop": "halves", "two_circulars": "circulars"}.get(hold, "needles")


def emptied(hold: str, numbers: tuple[int, ...]) -> str:
    """What to do with a needle that is empty after a round; with a half, where all stitches lie on the other."""
    if hold in _HALVES:
        other = holder(hold, 3 - numbers[0])
        return (
            f"{holder(hold, numbers[0]).capitalize()} is empty after this round: work on with {other} alone."
        )
    listed = " and ".join(map(str, numbers))
    if len(numbers) == 1:
        return f"Needle {listed} is empty after this round: put it aside and work on with the others."
    return f"Needles {listed} are empty after this round: put them aside and work on with the others."
