"""The tree of a language's wordings: what may be left out, and how large it becomes."""

import pytest

from roundwright import reference
from roundwright.wording.reading.languages.lexicon import Node, lexicon, made_of

MOST_NODES = 90_000
"""Places in the tree of a language, about 21 MB (measured for French, the largest)."""
ROW = reference.wordings("de")[0]


def nodes(node: Node) -> int:
    return 1 + sum(map(nodes, node.following.values()))


def wordings(reads: str) -> set[str]:
    """All ways through the tree of a row with this wording."""
    row = ROW.__class__(means="knit", reads=(reads,), kind="word", source=ROW.source, mark=ROW.mark)
    found = set()
    paths: list[tuple[tuple[str, ...], Node]] = [((), made_of((row,)).root)]
    while paths:
        path, node = paths.pop()
        if node.meaning is not None:
            found.add(" ".join(path))
        paths.extend(((*path, key), following) for key, following in node.following.items())
    return found


@pytest.mark.parametrize(
    ("reads", "ways"),
    [
        ("alle [drei] runden", {"alle drei runden", "alle runden"}),
        ("[nun] je[weils] enden", {"nun jeweils enden", "nun je enden", "jeweils enden", "je enden"}),
        ("so [weiter [und weiter]] enden", {"so weiter und weiter enden", "so weiter enden", "so enden"}),
    ],
)
def test_what_may_be_left_out_is_there_and_is_not(reads: str, ways: set[str]) -> None:
    assert wordings(reads) == ways


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_language_fills_the_memory(language: str) -> None:
    """Each word that may be left out doubles the ways of a wording: a row with ten of them is a thousand."""
    assert nodes(lexicon(language).root) < MOST_NODES
