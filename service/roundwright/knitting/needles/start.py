"""The start: steps from the cast-on to the working needles."""

from typing import Annotated, Final

from msgspec import Meta, Struct

from roundwright.knitting.needles.best_split import NeedleStitches


class StartStep(Struct, frozen=True, kw_only=True):
    """A step on the way from the cast-on to the working needles."""

    needles: Annotated[NeedleStitches, Meta(description="Stitches on each needle after the step.")]
    text: Annotated[str, Meta(description="What to do.")]


def start_on(split: tuple[int, ...]) -> tuple[StartStep, ...]:
    """The steps from one needle to two halves to the working needles (common practice).

    With two needles the halves are the split itself.
    """
    stitches = sum(split)
    half = split[0] if len(split) == 2 else stitches // 2
    halves = (half, stitches - half)
    steps = [
        StartStep(needles=(stitches,), text=f"Cast on {stitches} stitches to one needle."),
        StartStep(
            needles=halves,
            text=f"Slide {halves[1]} of them to a second needle: {halves[0]} and {halves[1]}."
            + (_JOIN if len(split) == 2 else " A stitch more or less on either does no harm."),
        ),
    ]
    if len(split) > 2:
        shares = [f"{count} on to the {_ORDINALS[index]}" for index, count in enumerate(split)]
        text = f"Join, the cast-on edge untwisted, and work the first round: {', '.join(shares)} needle."
        steps.append(StartStep(needles=split, text=text))
    return tuple(steps)


_JOIN: Final = " Join, the cast-on edge untwisted."
_ORDINALS: Final = ("first", "second", "third", "fourth", "fifth")
