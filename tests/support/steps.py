"""Steps of every kind for property tests: works and nested repeats, some of which stop early."""

from hypothesis import strategies as st

from roundwright.knitting.rounds.round import (
    Repeat,
    Step,
    StitchName,
    Unworkable,
    Work,
    execute,
    leading_steps,
)

NAMES = StitchName.__args__  # type: ignore[attr-defined]

works = st.builds(Work, st.sampled_from(NAMES), st.integers(1, 5))


def repeats(steps: tuple[Step, ...], times: int, share: float) -> Repeat:
    """A repeat that may stop early, at a stitch of its own."""
    places = [place for place in range(1, execute(steps)[0]) if can_stop(steps, place)]
    return Repeat(times, steps, places[int(share * len(places)) - 1] if int(share * len(places)) else 0)


def can_stop(steps: tuple[Step, ...], place: int) -> bool:
    """Whether a repeat of these steps can stop after so many stitches."""
    try:
        return bool(leading_steps(steps, place))
    except Unworkable:
        return False


steps = st.lists(
    st.recursive(
        works, lambda inner: st.builds(
            repeats, st.lists(inner, min_size=1, max_size=3).map(tuple), st.integers(1, 4), st.floats(0, 1)
        ),
        max_leaves=8,
    ),
    min_size=1,
    max_size=5,
).map(tuple)  # fmt: skip
