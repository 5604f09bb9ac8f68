"""Words that say one thing, and the other ways in which they may be cut."""

from msgspec import Struct

from roundwright.wording.reading.label import Label
from roundwright.wording.reading.phrases import Phrase


class Segment(Struct, frozen=True, gc=False):
    """Words that say one thing: a round, a number of rounds, rounds worked again.

    - `label`: what stands before it; None for the second of a line
    - `within`: whether it follows another in the same labelled line
    - `heading`: whether a heading stands before it
    - `intro`: whether it ends with a colon that introduces the lines below
    - `under_notes`: whether it stands under a heading whose lines are not worked
    - `earlier`: how many segments before it are of the same sentence, or of the one before it where it begins one
    - `cuts`: other ways to cut its words, and those of segments behind it
    """

    label: Label | None
    phrases: tuple[Phrase, ...]
    start: int
    end: int
    heading: bool
    under_notes: bool
    troubles: tuple[tuple[str, str, int], ...] = ()
    alone: bool = True
    title: bool = False
    intro: bool = False
    earlier: int = 0
    cuts: "tuple[Cut, ...]" = ()


class Cut(Struct, frozen=True, gc=False):
    """Another way to cut the words of the next `length` segments."""

    length: int
    segments: tuple[Segment, ...]
