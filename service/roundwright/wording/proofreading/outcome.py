"""What comes of a line on so many stitches, in each way it may be understood."""

from typing import NamedTuple

from roundwright.wording.proofreading.evaluate import Plan, UnclearError, Worked, fits_any_count, plan, work
from roundwright.wording.reading.tree import Body, Nodes, Trouble


class Outcome(NamedTuple):
    """A line worked on `before` stitches, read in one way.

    `nodes` and `words` are the reading, `stated` the count the line says it leaves, `trouble` why it cannot be worked.
    """

    before: int
    column: int
    nodes: Nodes
    words: str
    worked: Worked | None
    stated: int | None
    trouble: Trouble | None = None

    @property
    def over(self) -> int:
        """Stitches that are left over at the end; below 0, stitches that are missing."""
        return self.before - self.worked.used if self.worked else 0

    @property
    def whole(self) -> bool:
        """Whether it uses all stitches there are and no more."""
        return self.worked is not None and self.worked.used == self.before

    @property
    def right(self) -> bool:
        """Whether it comes out, with the count it says."""
        return (
            self.worked is not None
            and self.worked.used == self.before
            and (self.stated is None or self.worked.left == self.stated)
        )


class Outcomes:
    """Lines worked on counts. Each line is put in numbers once for a size."""

    def __init__(self) -> None:
        self._plans: dict[tuple[int, int, int], Plan | Trouble] = {}

    def of(self, body: Body, column: int, count: int) -> list[Outcome]:
        """The outcome in each way the line may be understood, the likelier first."""
        stated = body.stated.after(count, column) if body.stated else None
        outcomes = []
        for place, reading in enumerate(body.readings):
            planned = self._plan(body, place, column)
            if not isinstance(planned, Trouble):
                try:
                    worked = work(planned, count)
                except UnclearError as error:
                    planned = error.trouble
                else:
                    outcomes.append(Outcome(count, column, reading.nodes, reading.words, worked, stated))
                    continue
            outcomes.append(Outcome(count, column, reading.nodes, reading.words, None, stated, planned))
        return outcomes

    def _plan(self, body: Body, reading: int, column: int) -> Plan | Trouble:
        key = (id(body), reading, column if body.lists else 0)
        planned = self._plans.get(key)
        if planned is None:
            if body.broken:
                planned = body.troubles[0]
            else:
                try:
                    planned = plan(body.readings[reading].nodes, column)
                except UnclearError as error:
                    planned = error.trouble
            self._plans[key] = planned
        return planned

    def best(self, body: Body, columns: tuple[int, ...], count: int) -> Outcome:
        """The outcome that comes out, or else the one that uses all stitches, or else the likeliest."""
        outcomes = [one for column in columns for one in self.of(body, column, count)]
        if len(outcomes) == 1:
            return outcomes[0]
        return next(
            (one for one in outcomes if one.right),
            next((one for one in outcomes if one.whole), outcomes[0]),
        )

    def says_nothing(self, body: Body, column: int) -> bool:
        """Whether the line comes out on any count, as a plain round does."""
        planned = self._plan(body, 0, column)
        return not isinstance(planned, Trouble) and fits_any_count(planned)
