"""Needles layout: which stitches are on which needle before a round, and where the needles lie.

The needles lie around the work, the first at the bottom; with three or more they make a regular polygon.
"""

from math import pi, sqrt, tan
from typing import Final, NamedTuple

from roundwright.drawing.theme import MARGIN, text_scale
from roundwright.knitting.answers import Impossible
from roundwright.knitting.rounds.round import Round
from roundwright.knitting.work.split_over_needles import SplitAnswer
from roundwright.language import say

HALF_LENGTHS: Final = {2: 165.0, 3: 150.0, 4: 122.0, 5: 98.0}
"""Half the length of a needle without its tips, by the number of needles."""
BETWEEN_TWO: Final = 62.0
"""Distance from the middle where there are two needles."""
FILLED_SHARE: Final = 0.94
"""Share of its length over which a needle carries its stitches."""
MIN_STITCH: Final = 3.2
MAX_STITCH: Final = 15.0
OUTSIDE: Final = 46.0
"""Room outside the needles for their names and the working needle."""


class NeedleState(NamedTuple):
    """The stitches on the needles before a round, after sliding, and the round; no round before the first."""

    before: tuple[int, ...]
    slid: tuple[int, ...]
    """Stitches slid on to each needle from the needle before it."""
    round: Round | None


class Layout(NamedTuple):
    """Where the needles lie, in pixels."""

    needles: int
    half_length: float
    """Of a needle without its tips."""
    distance: float
    """Of a needle from the middle."""
    scale: float
    """Scale of the text, over 1 on a wide picture."""

    @property
    def line_scale(self) -> float:
        """Scale of the width of lines."""
        return sqrt(self.scale)

    @property
    def corner(self) -> float:
        """Distance from the middle of the corner where two needles meet."""
        return sqrt(self.half_length**2 + self.distance**2)

    def angle(self, needle: int) -> float:
        """The angle of a needle; the first is 0."""
        return 360 / self.needles * needle


def state_before(plan: SplitAnswer, round_number: int) -> NeedleState:
    """The needles before a round, or the split itself for round 0. Raises `Impossible` for a round after the last."""
    if round_number > len(plan.rounds):
        last = len(plan.rounds)
        raise Impossible(
            say("picture.no_round" if last else "picture.no_rounds", round=round_number, last=last),
            code="not_there",
            pointer="#/round",
            nearest=say("picture.round", number=last),
        )
    if not round_number:
        return NeedleState(plan.split, (0,) * len(plan.split), None)
    round = plan.rounds[round_number - 1]
    before = list(plan.rounds[round_number - 2].needles or ()) if round_number > 1 else list(plan.split)
    slid = [0] * len(before)
    for move in round.moves:
        before[move.needle - 1] -= move.stitches
        before[move.needle] += move.stitches
        slid[move.needle] = move.stitches
    return NeedleState(tuple(before), tuple(slid), round)


def needles_layout(state: NeedleState) -> Layout:
    """The layout that gives the fullest needle room for its stitches."""
    needles = len(state.before)
    half_length = max(HALF_LENGTHS[needles], MIN_STITCH * max(state.before) / 2 / FILLED_SHARE)
    distance = BETWEEN_TWO if needles == 2 else half_length / tan(pi / needles)
    scale = text_scale(2 * (sqrt(half_length**2 + distance**2) + OUTSIDE + MARGIN))
    return Layout(needles, half_length, distance * (1 if needles > 2 else scale), scale)
