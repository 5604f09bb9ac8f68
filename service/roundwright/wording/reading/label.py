"""What stands at the beginning of a line: which rounds it is for."""

from typing import Literal

from msgspec import Struct

from roundwright.wording.reading.spans import Span, Standing
from roundwright.wording.reading.tree import Number

LabelKind = Literal["numbered", "listed", "next", "sort", "every", "sizes", "count", "step"]


class Label(Struct, frozen=True, gc=False):
    """The start of a line: which rounds it is for.

    - `kind`: `numbered`; `listed` for `3.` of a list; `next` for `Next 5 rnds`; `sort` for `Decrease rnd`;
      `every` for `All odd rnds`; `sizes` for `Size 3 only`; `step` for a part of a handout
    - `sizes`: the numbers or names of the sizes it is for
    - `named`: below 0, for `Round A` and `Dec round`: what it can be called by later
    - `defines`: whether the round is only explained here, to be worked where its name stands
    - `scope`: whether the sizes stand first, so that all that follows in the line is for them; with `sentence` only
      what follows in the sentence: `Size L only knit 2 rounds. Purl 1 round.`
    """

    kind: LabelKind
    start: int
    spans: tuple[Span, ...] = ()
    every: Standing | None = None
    count: Number | None = None
    sizes: tuple[str, ...] | None = None
    scope: bool = False
    named: int = 0
    defines: bool = False
    sentence: bool = False

    def numbers_several(self) -> bool:
        """Whether it numbers several rounds."""
        numbered = self.kind in ("numbered", "listed") and bool(self.spans)
        return numbered and (self.spans[-1].last.of(0) or 0) > (self.spans[0].first.of(0) or 0)
