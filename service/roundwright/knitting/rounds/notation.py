"""Notation: the written line of a round, as patterns print it."""

from roundwright.knitting.rounds.round import Repeat, Step, Steps, Work, execute


def written_line(steps: Steps, *, flat: bool = False) -> str:
    """The written line of a round, without its count: `*k2, k2tog; rep from * around` (`to end` for a row)."""
    if len(steps) == 1 and isinstance(steps[0], Work):
        word = {"k": "knit", "p": "purl"}.get(steps[0].stitch)
        if word:
            return word
    star = star_of(steps)
    return _inline(steps) if star is None else _starred(*star, end="to end" if flat else "around")


def star_of(steps: Steps) -> tuple[Steps, Repeat, Steps] | None:
    """The steps before the only repeat of a round, that repeat, and the steps after it; None for other rounds.

    Such a round is written with a star: its repeat is worked to the end, or to the stitches of the steps after it.
    """
    repeats = [index for index, step in enumerate(steps) if isinstance(step, Repeat)]
    if len(repeats) != 1:
        return None
    index = repeats[0]
    repeat, tail = steps[index], steps[index + 1 :]
    if (
        not isinstance(repeat, Repeat)
        or repeat.times == 1
        or repeat.again
        or any(isinstance(s, Repeat) for s in repeat.steps)
    ):
        return None
    if not execute(repeat.steps)[0] or (tail and not execute(tail)[0]):
        return None  # increases alone use no stitches, so "to last sts" would not say where to end
    return steps[:index], repeat, tail


def _starred(head: Steps, repeat: Repeat, tail: Steps, end: str) -> str:
    start = f"{_inline(head)}, " if head else ""
    if not tail:
        return f"{start}*{_inline(repeat.steps)}; rep from * {end}"
    used, _ = execute(tail)
    last = "last st" if used == 1 else f"last {used} sts"
    return f"{start}*{_inline(repeat.steps)}; rep from * to {last}, {_inline(tail)}"


def _inline(steps: Steps) -> str:
    return ", ".join(_phrase(step) for step in steps)


def _phrase(step: Step) -> str:
    if isinstance(step, Repeat):
        inside = _inline(step.steps)
        if step.again:
            times = "once" if step.times == 1 else f"{step.times} times"
            part = "first st" if step.again == 1 else f"first {step.again} sts"
            return f"[{inside}] {times} and its {part} again"
        return inside if step.times == 1 else f"[{inside}] {step.times} times"
    if step.stitch in ("k", "p", "sl"):
        return f"{step.stitch}{step.times}"
    return step.stitch if step.times == 1 else f"[{step.stitch}] {step.times} times"
