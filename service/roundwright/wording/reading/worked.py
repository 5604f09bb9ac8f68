"""What working a tree comes to: steps, the stitches they use and leave, and the sections between markers."""

from collections.abc import Mapping
from typing import Final, NamedTuple

from roundwright.knitting.rounds.round import Repeat, Steps, StitchName, Work
from roundwright.wording.reading.tree import Fill, Group, Nodes


class UnclearError(Exception):
    """A line that cannot be worked as it stands, whatever the count."""

    def __init__(self, code: str, message: str, start: int) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.start = start


Sections = tuple[int, ...]
"""Stitches between the markers, from the start of the round."""

Changes = Mapping[int, int | StitchName]
"""Other values for numbers and stitches, by the place where those stand in the text: a repair being tried."""

NO_CHANGES: Final[Changes] = {}
USUAL_SECTIONS: Final = (8, 6, 4, 7, 5, 9, 10, 12, 3, 2)
"""Into how many sections a crown is parted, the usual first, where nobody placed the markers (common practice)."""
USUAL_NEEDLES: Final = (4, 3, 5, 2, *USUAL_SECTIONS)
"""Needles of a round whose number no line says: four of a set of five, most often (common practice)."""
OTHER_SECTIONS: Final = range(2, 25)
"""Into how many it may be parted where a printed count says so."""
MOST_MARKERS: Final = 100
"""Markers in a round."""


class Worked(NamedTuple):
    """A line worked on some stitches.

    `steps` use so many stitches and leave so many; `sections` are those after it, where it has markers; `assumed` says
    that nobody has placed the markers it goes by.
    """

    steps: Steps
    used: int
    left: int
    sections: Sections | None = None
    assumed: bool = False


def times(number: int, steps: Steps) -> Steps:
    """The steps so many times."""
    if number == 1:
        return steps
    match steps:
        case (Work(stitch, 1),):
            return (Work(stitch, number),)
    return (Repeat(number, steps),)


def whole(sections: Sections) -> Sections:
    """The sections, with the first and the last as one where the round begins within a section."""
    if len(sections) > 2 and sections[0] + sections[-1] == sections[1] and len(set(sections[1:-1])) == 1:
        return (sections[1],) * (len(sections) - 1)
    return sections


def has_fill(nodes: Nodes) -> bool:
    """Whether something in it goes on to a marker or to the end."""
    for node in nodes:
        kind = type(node)
        if kind is Fill or (kind is Group and has_fill(node.nodes)):  # type: ignore[union-attr]
            return True
    return False
