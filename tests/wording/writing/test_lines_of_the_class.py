"""The hats of the class that the README plans: how short their pattern is, and what the class is told."""

from tests.support.handouts import CLASS, handout_of
from tests.support.hats import hats

MOST_LINES = 19
"""Lines of the rounds of a crown, in four sizes."""
MOST_NOTES = 4
"""Lines between them: where a size begins, how a marker comes off."""


def test_the_crown_of_the_class_has_nineteen_lines_at_most() -> None:
    """Four sizes join in as their counts come; the largest alone has 18 rounds. Notes are indented."""
    answer = hats(**CLASS)
    (crown,) = (
        block.split("\n")[1:] for block in answer["pattern"].split("\n\n") if block.startswith("CROWN")
    )
    rounds = [line for line in crown if line.startswith("Rnd")]

    assert len(CLASS["sizes"]) == 4
    assert len(rounds) <= MOST_LINES
    assert len(crown) - len(rounds) <= MOST_NOTES


ANY_NEEDLES = [
    "A hank is wound into a ball before the class",
    "take needles that grip, bamboo or wood",
    "Count after casting on, twice",
    "Measure under the needle with the work flat and the edge uncurled",
    "After a rest the smooth side is towards you and the yarn hangs at the right",
]
SEVERAL_NEEDLES = [
    "you knit with two",
    "A needle with 0 stitches in the last rounds is put aside. If it is empty by mistake, slip the nearer half",
    "One stitch is left on a needle and the decrease takes two: slide it on",
]
A_LOOP = [
    "You knit one half at a time",
    "One stitch is left at the end of a half and the decrease takes two: slide it",
]
"""What a teacher tells every class (common practice), on any needles, on double-pointed ones and on a loop."""


def helped(**fields: object) -> str:
    """The section of a handout that is for the class."""
    (section,) = (section for section in handout_of(**fields).sections if section.heading == "In class")
    return "\n".join(line.text for line in section.lines)


def test_a_class_is_told_all_that_it_needs_for_its_needles() -> None:
    """Eight rows for double-pointed needles, seven for a loop, five where the needles are not known."""
    loop = {"magic_loop": {"value": 80, "unit": "cm"}}
    for needles, rows in ((4, SEVERAL_NEEDLES), (loop, A_LOOP), ({"circulars": 2}, A_LOOP), (None, [])):
        text = helped(needles=needles)
        assert [row for row in (*ANY_NEEDLES, *SEVERAL_NEEDLES, *A_LOOP) if row in text] == [
            *ANY_NEEDLES,
            *rows,
        ]
        assert len(text.split("\n")) == 5 + len(rows)
