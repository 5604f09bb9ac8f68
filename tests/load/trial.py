"""A fault being tried: what is going on, and for how long."""

from dataclasses import dataclass, field

from tests.load.callers import Call
from tests.load.fleet import Fleet, Replica


@dataclass
class Trial:
    """The fleet it is tried on, for how many seconds, the requests of the steady stream, and what was noted."""

    fleet: Fleet
    seconds: float
    calls: list[Call]
    notes: list[str] = field(default_factory=list)

    @property
    def replicas(self) -> list[Replica]:
        """The replicas of the fleet."""
        return self.fleet.replicas

    def over(self, what: str) -> None:
        """Note what is over its bound, so that the run ends with an error."""
        self.notes.append(f"**{what}**")
