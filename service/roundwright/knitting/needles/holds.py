"""What holds a round, and what it is called: double-pointed needles, halves of a magic loop, or two circulars."""

from typing import Final, Literal

from roundwright.language import Message, listed, say

Hold = Literal["double_pointed", "magic_loop", "two_circulars"]


_HALVES: Final = ("magic_loop", "two_circulars")


def holder(hold: str, number: int) -> Message:
    """What holds the stitches, by its number from 1: `needle 2`, `the second half`, `the second circular`."""
    if hold in _HALVES:
        return say(f"holder.{hold}.{number}")
    return say("holder.double_pointed", number=number)


def holders(hold: str) -> Message:
    """What holds the stitches, all together: `needles`, `halves`, `circulars`."""
    return say(f"holders.{hold if hold in _HALVES else 'double_pointed'}")


def emptied(hold: str, numbers: tuple[int, ...]) -> Message:
    """What to do with a needle that is empty after a round; with a half, where all stitches lie on the other."""
    if hold in _HALVES:
        return say(f"emptied.{hold}.{numbers[0]}")
    if len(numbers) == 1:
        return say("emptied.needle", needle=numbers[0])
    return say("emptied.needles", needles=listed(tuple(map(str, numbers))))
