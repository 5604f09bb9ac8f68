"""Rounds by their names, one after the other: `the dec round and one plain round`."""

from typing import Final

from roundwright.wording.reading.parsing.lengths import Lengths
from roundwright.wording.reading.phrases import Again
from roundwright.wording.reading.tokens import COLON, COMMA, SEMI, STOP
from roundwright.wording.reading.tree import ONE, PLAIN_ROUND, named

MOST_IN_SEQUENCE: Final = 24
"""Rounds that are told by their names in one breath."""
_NAMED_SINGLY: Final = ("decrease", "increase", "plain", "even")
"""What a round is called by that is worked between others."""


class SequenceReader(Lengths):
    """Reads rounds that are told by their names."""

    def sequence(self, ahead: int) -> Again | None:
        """Rounds by their names, one after the other: `the dec round and one plain round`, `dec rnd, then k 1 rnd`."""
        names: list[int] = []
        stop = ahead
        while len(names) < MOST_IN_SEQUENCE and (item := self.round_by_name(ahead)):
            item_names, stop = item
            names.extend(item_names)
            ahead = stop
            ahead = self.skip_joints(ahead)
        if len(names) < 2 or set(names) == {PLAIN_ROUND}:
            return None
        if len(set(names)) == 1 and self.kind(ahead) in ("each", "alternate", "per"):
            return None  # a dec rnd, then a dec rnd every other rnd
        return Again(*self.take(stop), tuple(names), work=True)

    def sequence_begins(self, ahead: int) -> bool:
        """Whether rounds are told by their names here, the first of them plain."""
        first = self.round_by_name(ahead)
        second = self.round_by_name(self.skip_joints(first[1])) if first else None
        return second is not None and set(second[0]) != {PLAIN_ROUND}

    def skip_joints(self, ahead: int) -> int:
        """Behind `and` and `then`."""
        while self.kind(ahead) in ("and", "then", "", "work") and self.place + ahead < self.stop:
            ahead += 1
        return ahead

    def round_by_name(self, ahead: int) -> tuple[list[int], int] | None:
        """The names of the rounds that are told here, `dec round`, `2 rounds even`, and where their words end."""
        ahead = self.skip(ahead)
        if self.flags(ahead) & (STOP | SEMI | COLON) and ahead:
            return None
        kind, behind = self.kind(ahead), self.kind(ahead + 1)
        if kind in _NAMED_SINGLY and behind == "round" and self.joined(ahead + 1):
            return [named("plain" if kind == "even" else kind)], ahead + 2
        if kind in ("knit", "work"):
            ahead += 1
            kind, behind = behind, self.kind(ahead + 1)
        number = (self.token(ahead).number or ONE).of(0) or 1
        if kind != "number" or number > MOST_IN_SEQUENCE:
            return None
        if behind in ("plain", "even") and self.kind(ahead + 2) == "round":
            return [PLAIN_ROUND] * number, ahead + 3
        if behind in _NAMED_SINGLY and self.kind(ahead + 2) == "round" and number == 1:
            return [named(behind)], ahead + 3
        if behind == "round" and self.joined(ahead + 1):
            plain = self.kind(ahead + 2) in ("plain", "even") and not self.flags(ahead + 2) & (STOP | COMMA)
            return [PLAIN_ROUND] * number, ahead + 2 + plain
        return None
