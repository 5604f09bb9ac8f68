"""The tree of a language's wordings: what may be left out, and how large it becomes."""

import pytest

from roundwright import reference
from roundwright.reference.once import making
from roundwright.wording.reading.languages.lexicon import Node, lexicon, made_of

MOST_WAYS = 95_000
"""Places in the tree of a language with every way spelled out, which are made one by one: half a second."""
MOST_NODES = 10_000
"""Places that are kept, 3 MB at most: those behind which the same follows are one."""
ROW = reference.wordings("de")[0]


def ways(node: Node) -> int:
    return 1 + sum(map(ways, node.following.values()))


def nodes(node: Node, seen: set[int]) -> int:
    if id(node) not in seen:
        seen.add(id(node))
        for behind in node.following.values():
            nodes(behind, seen)
    return len(seen)


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
    ("reads", "all_ways"),
    [
        ("alle [drei] runden", {"alle drei runden", "alle runden"}),
        ("[nun] je[weils] enden", {"nun jeweils enden", "nun je enden", "jeweils enden", "je enden"}),
        ("so [weiter [und weiter]] enden", {"so weiter und weiter enden", "so weiter enden", "so enden"}),
    ],
)
def test_what_may_be_left_out_is_there_and_is_not(reads: str, all_ways: set[str]) -> None:
    assert wordings(reads) == all_ways


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_no_language_fills_the_memory(language: str) -> None:
    """Each word that may be left out doubles the ways of a wording: a row with ten of them is a thousand."""
    assert ways(lexicon(language).root) < MOST_WAYS
    assert nodes(lexicon(language).root, set()) < MOST_NODES


def test_what_is_alike_behind_two_words_is_kept_once() -> None:
    """Behind `alle` the same follows with `drei` and without."""
    row = ROW.__class__(
        means="knit", reads=("alle [drei] runden",), kind="word", source=ROW.source, mark=ROW.mark
    )
    (behind,) = made_of((row,)).root.following.values()

    assert behind.following["runden"] is behind.following["drei"].following["runden"]


def test_no_request_pays_for_the_words_of_a_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """They are made inside `making`, which the deadline of a calculation leaves out."""
    running: list[int] = []
    monkeypatch.setattr(
        "roundwright.wording.reading.languages.lexicon.made_of", lambda _: running.append(making.running)
    )
    lexicon.__wrapped__("nl")

    assert [1] == running
