"""What an editor would ask about a pattern that can be knitted as it stands: notes, none on a clean pattern."""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from roundwright.wording.proofreading.editorial import crown, measures, needles, sizes, words
from roundwright.wording.proofreading.editorial.sheet import Sheet
from roundwright.wording.proofreading.evaluate import Found
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import Finding
from roundwright.wording.proofreading.line import Line

Rule = Callable[[Sheet], Iterator[Finding]]

RULES: Final[Mapping[str, Rule]] = MappingProxyType({
    "rhythm_broken": crown.rhythm_broken,
    "closing_count": crown.closing_count,
    "count_not_printed": crown.count_not_printed,
    "rib_shifted": crown.rib_shifted,
    "list_differs": sizes.list_differs,
    "sizes_not_growing": sizes.sizes_not_growing,
    "not_a_multiple": sizes.not_a_multiple,
    "girth_differs": measures.girth_differs,
    "length_differs": measures.length_differs,
    "units_differ": measures.units_differ,
    "needle_differs": measures.needle_differs,
    "split_differs": needles.split_differs,
    "abbreviations": words.abbreviations,
    "terms_mixed": words.terms_mixed,
    "flat_words": words.flat_words,
})  # fmt: skip
"""The rules, by the code of their notes; `abbreviations` gives two."""


def notes(explained: Explained, lines: tuple[Line, ...], findings: list[Found]) -> list[Finding]:
    """The notes of a text; none where nothing in it is work."""
    if not any(candidate.nodes for candidate in explained.chosen.values()):
        return []
    wrong = frozenset(entry.finding.line for entry in findings if entry.finding.severity == "error")
    better_cast_ons = tuple(
        repair.cast_on
        for entry in findings
        if entry.finding.code == "cast_on_differs"
        for repair in entry.repairs
        if repair.cast_on and not repair.left
    )
    sheet = Sheet(explained, lines, wrong, better_cast_ons)
    return [note for rule in RULES.values() for note in rule(sheet)]
