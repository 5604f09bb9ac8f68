"""Tracking: what each needle holds after every round, and what is slid so that no decrease lies on two needles."""

from msgspec.structs import replace

from roundwright.knitting.needles.boundaries import BoundaryPaths, boundaries_of, boundary_paths
from roundwright.knitting.needles.holds import emptied
from roundwright.knitting.rounds.round import MOST_NOTES, Move, Round


def track_needles(rounds: tuple[Round, ...], split: tuple[int, ...]) -> tuple[Round, ...]:
    """The rounds with the stitches on each needle after them, and the moves to make before working each.

    `split` is what each needle holds before the first round. Moves are made in the order given. A needle may
    run empty near the close: it stays in the count with 0, and the round that empties it has a note, but for the last.
    """
    return track_needles_along(boundary_paths(rounds, sum(split)), split)


def track_needles_along(
    paths: BoundaryPaths, split: tuple[int, ...], hold: str = "double_pointed"
) -> tuple[Round, ...]:
    """`track_needles` for rounds whose boundary paths are already known; `hold` is what its notes call a needle."""
    boundaries, needles = boundaries_of(split), split
    tracked = []
    for round, round_map in zip(paths.rounds, paths.round_maps, strict=True):
        moves: tuple[Move, ...] = ()
        if round_map is not None:
            new = [round_map.new_position(boundary) for boundary in boundaries]
            moves = tuple([Move(needle, slid) for needle, (_, slid) in enumerate(new, start=1) if slid])
            boundaries = tuple([position for position, _ in new])
        before, needles = needles, _stitches_between(boundaries, round.after)
        notes = (
            round.notes if round is paths.rounds[-1] else round.notes + _emptied_note(before, needles, hold)
        )
        tracked.append(replace(round, needles=needles, moves=moves, notes=notes[:MOST_NOTES]))
    return tuple(tracked)


def _emptied_note(before: tuple[int, ...], after: tuple[int, ...], hold: str) -> tuple[str, ...]:
    empty = tuple(
        needle
        for needle, (had, has) in enumerate(zip(before, after, strict=True), start=1)
        if had and not has
    )
    return (emptied(hold, empty),) if empty else ()


def _stitches_between(boundaries: tuple[int, ...], stitches: int) -> tuple[int, ...]:
    ends = (*boundaries, stitches)
    return tuple(end - start for start, end in zip((0, *boundaries), ends, strict=True))
