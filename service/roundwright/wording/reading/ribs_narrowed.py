"""Decreases in every rib of a sort, worked into the rib above: `P2tog in every purl rib` behind `k3, p2`.

Of `p2tog each pair of purl sts` a wide rib has several.
"""

from typing import Final, NamedTuple

from msgspec.structs import replace

from roundwright.knitting.rounds.round import StitchName, uses_and_leaves
from roundwright.wording.reading.parsing.looking import NAMES, TOGETHER, TWO_AS_ONE
from roundwright.wording.reading.phrases import Change, Extent, Fabric, Phrase, Said, Stitches, Then
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.tree import NOTHING, ONE, Number, Stitch

MOST_ABOVE: Final = 4
"""Segments above in which the rib is looked for."""
_EVERY: Final = frozenset(("each", "every", "all", "remaining"))
_OTHERS: Final = frozenset(("the", "other"))
_ALTERNATE: Final = frozenset(("other", "second", "2nd", "alternate"))
_PAIRS: Final = frozenset(("pair", "pairs"))
_STITCHES: Final = frozenset(("sts", "stitches"))
_BETWEEN: Final = _EVERY | _ALTERNATE | _PAIRS | {"in", "of", "the"}
"""What may stand before the sort: `all but` is not every rib."""
_BUT: Final = frozenset(("except", "but", "save"))
_PARTS: Final = frozenset(("rib", "ribs", "section", "sections", "column", "columns", "stripe", "stripes"))
_OPENING: Final = (Said, Fabric, Then, Change)
"""What may stand before the decrease: `then, in the rib, decrease:`."""
_LEFT: Final = {decrease: sort for sort, decrease in TWO_AS_ONE.items()}
"""The stitch that a decrease of a rib leaves, for the ribs of the rounds above it."""
_DECREASE: Final = (2, 1)
"""The stitches that a decrease uses and leaves."""


class _Narrowing(NamedTuple):
    """The phrases from `first` to `last`: a decrease in every rib of a sort, `k` or `p`, or in every second.

    With `pairs`, of each pair in every rib.
    """

    first: int
    last: int
    sort: StitchName
    decrease: StitchName
    alternate: bool
    pairs: bool


def with_ribs_narrowed(above: list[Segment], segments: list[Segment]) -> list[Segment]:
    """The segments of a line, where these stand above it, with decreases in every rib as a round of that rib."""
    made: list[Segment] = []
    for segment in segments:
        near = [*above[-MOST_ABOVE:], *made[-MOST_ABOVE:]][-MOST_ABOVE:]
        ordered = _with_decrease_first(segment.phrases)
        narrowing = _narrowing(ordered)
        if narrowing is not None and (rib := _rib(near)):
            phrases = _narrowed(ordered, narrowing, rib)
        else:
            phrases = _worked_together(segment, near)
        made.append(replace(segment, phrases=phrases) if phrases else segment)
    return made


def _with_decrease_first(phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    """`p2tog in every purl rib` for `in every purl rib p2tog`; other phrases as they are."""
    at = next((at for at, phrase in enumerate(phrases) if type(phrase) is Stitches), len(phrases))
    begin = at
    while begin and type(before := phrases[begin - 1]) is Said and before.text in _BETWEEN:
        begin -= 1
    if at - begin < FEWEST_BEFORE or at + 2 >= len(phrases):
        return phrases
    sort, part, decrease = _stitch(phrases[at]), phrases[at + 1], phrases[at + 2]
    rib = type(part) is Fabric or (type(part) is Said and part.text in _PARTS)
    if sort is None or not sort.bare or not rib or type(decrease) is not Stitches:
        return phrases
    first = replace(decrease, start=phrases[begin].start, flags=phrases[begin].flags)
    between = (replace(phrases[begin], flags=0), *phrases[begin + 1 : at + 1])
    return (*phrases[:begin], first, *between, replace(part, end=decrease.end), *phrases[at + 3 :])


FEWEST_BEFORE: Final = 2
"""Words before a sort of ribs: `in every`."""


def _narrowing(phrases: tuple[Phrase, ...]) -> _Narrowing | None:
    """Where every rib of a sort has a decrease, `p2tog in every purl rib`; None where that is not narrowing."""
    first = next((at for at, phrase in enumerate(phrases) if type(phrase) not in _OPENING), len(phrases))
    place = next((at for at in range(first + 1, len(phrases)) if type(phrases[at]) is not Said), len(phrases))
    if place + 1 >= len(phrases):
        return None
    decrease, sort, part = _stitch(phrases[first]), _stitch(phrases[place]), phrases[place + 1]
    texts = [phrase.text for phrase in phrases[first:place] if type(phrase) is Said]
    words = {word for text in texts for word in text.split()}
    pairs = not words.isdisjoint(_PAIRS)
    ribs = (type(part) is Fabric and part.kind == "rib") or (
        type(part) is Said and part.text in (_STITCHES if pairs else _PARTS)
    )
    if decrease is None or uses_and_leaves()[decrease.name] != _DECREASE or decrease.times != ONE or not ribs:
        return None
    behind = {word for phrase in phrases[place + 2 :] if type(phrase) is Said for word in phrase.text.split()}
    every = not words.isdisjoint(_EVERY)
    if not (every or words >= _OTHERS) or not words <= _BETWEEN or behind & _BUT:
        return None
    if sort is None or not sort.bare or sort.name not in TWO_AS_ONE:
        return None
    return _Narrowing(
        first,
        place + 1,
        sort.name,
        TWO_AS_ONE[sort.name] if decrease.loose else decrease.name,
        every and not words.isdisjoint(_ALTERNATE),
        pairs,
    )


def _worked_together(segment: Segment, above: list[Segment]) -> tuple[Phrase, ...]:
    """The phrases of a segment with a round in which every rib of the sorts told is one stitch; none for others.

    `Knit all knit stitches together and purl all purl stitches together`, `knit the two knits together`.
    """
    phrases = segment.phrases
    stop = next((at for at, phrase in enumerate(phrases) if type(phrase) not in _OF_TOGETHER), len(phrases))
    words = [word for phrase in phrases[:stop] if type(phrase) is Said for word in phrase.text.split()]
    nodes = [node for phrase in phrases[:stop] if (node := _stitch(phrase)) is not None]
    pairs = {
        verb.name: verb
        for verb, noun in zip(nodes[::2], nodes[1::2], strict=False)
        if verb.name == noun.name and noun.bare
    }
    alike = (
        words.count("together") == len(pairs) and len(nodes) == 2 * len(pairs) and _OF_RIBS.issuperset(words)
    )
    if not pairs or not alike or segment.label is not None:
        return ()
    start, end = phrases[0].start, phrases[stop - 1].end
    made: list[Phrase] = []
    for part in _rib(above):
        verb, number = pairs.get(part.name), part.times.of(0) or 0
        name = TOGETHER.get((_CRAFTS[part.name], number)) if verb is not None else part.name
        if name is None or (verb is not None and not verb.bare and verb.times.of(0) != number):
            return ()
        node = Stitch(name, ONE if verb is not None else part.times, start, end)
        made.append(Stitches(start, end, 0 if made else phrases[0].flags, node))
    return (*made, Extent(end, end, 0, NOTHING), *phrases[stop:]) if made else ()


_OF_TOGETHER: Final = (Stitches, Said, Extent)
_OF_RIBS: Final = frozenset(
    ("together", "all", "the", "and", "then", "stitches", "sts", "stitch", "each", "of")
)
_CRAFTS: Final[dict[str, str]] = {NAMES[craft]: craft for craft in ("knit", "purl")}


def _stitch(phrase: Phrase) -> Stitch | None:
    node = phrase.node if type(phrase) is Stitches else None
    return node if type(node) is Stitch else None


def _rib(above: list[Segment]) -> tuple[Stitch, ...]:
    """The stitches of the rib that comes last; empty where another round does."""
    for segment in reversed(above):
        named = [node for phrase in segment.phrases if type(phrase) is Fabric for node in phrase.nodes]
        nodes = named or [phrase.node for phrase in segment.phrases if type(phrase) is Stitches]
        rib = tuple(
            replace(node, name=_LEFT.get(node.name, node.name))
            for node in nodes
            if type(node) is Stitch
            and (node.name in TWO_AS_ONE or (node.name in _LEFT and node.times == ONE))
            and not node.bare
        )
        if nodes:
            return rib if len(rib) == len(nodes) and len({node.name for node in rib}) > 1 else ()
    return ()


def _narrowed(
    phrases: tuple[Phrase, ...], narrowing: _Narrowing, rib: tuple[Stitch, ...]
) -> tuple[Phrase, ...]:
    """The phrases with a round of the rib, in which every part of the sort begins with the decrease."""
    start, end = phrases[narrowing.first].start, phrases[narrowing.last].end
    nodes: list[Stitch] = []
    wide = sum(part.name == narrowing.sort and (part.times.of(0) or 0) > 1 for part in rib)
    met = 0
    for part in rib * (1 + (narrowing.alternate and wide % 2)):
        number = part.times.of(0) or 0
        if part.name == narrowing.sort and number > 1:
            if not (narrowing.alternate and met % 2):
                pairs = number // 2 if narrowing.pairs else 1
                nodes.extend(pairs * [Stitch(narrowing.decrease, ONE, start, end)])
                number -= 2 * pairs
            met += 1
        if number:
            nodes.append(Stitch(part.name, Number((number,)), start, end))
    flags = (phrases[narrowing.first].flags, *(0 for _ in nodes[1:]))
    worked = (Stitches(start, end, flag, node) for flag, node in zip(flags, nodes, strict=True))
    return (*worked, Extent(end, end, 0, NOTHING), *phrases[narrowing.last + 1 :])
