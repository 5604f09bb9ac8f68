"""What one line says to each size apart: `K6, k2tog / K7, k2tog around`, `Child: *k6, k2tog*. Adult: *k8, k2tog*`."""

from collections.abc import Mapping
from itertools import zip_longest
from operator import attrgetter
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from roundwright.knitting.rounds.round import Work, execute
from roundwright.wording.reading.label import Label
from roundwright.wording.reading.parsing.looking import CRAFTS
from roundwright.wording.reading.phrases import Brackets, Count, Extent, Phrase, Rounds, Said, Star, Stitches
from roundwright.wording.reading.seen import has_stitches
from roundwright.wording.reading.segment import Segment
from roundwright.wording.reading.sizes_in_brackets import name_in_bracket
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    EQUALS,
    FULL,
    LINE,
    SLASH,
    SPACE,
    STOP,
    TAB,
    Token,
)
from roundwright.wording.reading.tree import ONE, Number, Stitch


def of_size(label: Label | None, start: int, sizes: tuple[str, ...]) -> Label:
    """A label for these sizes only."""
    return replace(label, sizes=sizes) if label is not None else Label("sizes", start, sizes=sizes)


class _WorkForName(Struct, frozen=True):
    """Work of the size at a column: the verb before its number, the words behind and the name."""

    column: int
    verbs: list[Token]
    count: Token
    behind: list[Token]
    stop: int
    name: list[Token]


def with_numbers_of_names(tokens: list[Token], names: Mapping[str, int]) -> list[Token]:
    """The tokens with numbers that stand by the names of their sizes as one list: `K1 (small) or K2 (newborn)`.

    The work of a size becomes a sentence of its own, `For Child: knit 4 rounds`: `Work 4 rounds in rib for Child, or 6
    for Adult`, `For Child knit 4 rounds, for Adult purl 6`.
    """
    if not names:
        return tokens
    tokens = [*tokens]
    made: list[Token] = []
    place = 0
    padded = [*tokens, *tokens[-1:] * MOST_BEHIND_NUMBER]
    while place < len(tokens):
        counts, stop = _numbers_of_names(padded, place, names)
        verbs = tokens[place : place + (tokens[place].kind in CRAFTS)]
        behind = [token for token in tokens[place:stop] if token.kind in _COUNTED][:1]
        if len(counts) < 2 and (works := _works_for_names(padded, place, names)):
            if _heads_work(works, padded):
                made.extend(_as_list(works, tokens[place].flags))
                place = works[-1].stop
                continue
            made.extend(token for work in works for token in _sentence(work, works[0]))
            place = works[-1].stop
            if tokens[place].flags & ~SPACE or works[-1].name[0].start > works[-1].count.start:
                place += tokens[place].text == "and" or tokens[place].kind == "then"
                tokens[place] = replace(tokens[place], flags=tokens[place].flags | LINE | STOP)
            continue
        if len(counts) < 2:
            name = _stop_of_name(padded, place, names)
            begun = not place or tokens[place].flags & ~SPACE
            if name > place and begun and tokens[name].kind in _WORKING and not tokens[name].flags & COLON:
                sentence = range(name + 1, min(name + MOST_IN_SENTENCE, len(tokens)))
                end = next((at for at in sentence if tokens[at].flags & (LINE | FULL)), place)
                for at, flags in ((place, LINE | STOP), (name, COLON), (end, LINE)):
                    tokens[at] = replace(tokens[at], flags=tokens[at].flags | flags)
            made.append(tokens[place])
            place += 1
            continue
        numbers = sorted(counts.values(), key=attrgetter("start"))
        begin, end = numbers[0].start, numbers[-1].end
        values = tuple((counts[column].number or ONE).of(0) for column in sorted(counts))
        work = [*verbs, replace(numbers[0], end=end, number=Number(values, begin, end)), *behind]
        made.extend([replace(work[0], flags=tokens[place].flags), *work[1:]])
        place = stop
    return made


def _sentence(work: _WorkForName, first: _WorkForName) -> list[Token]:
    """The work of a size as a sentence of its own: `For Child: knit 4 rounds`."""
    begin = (work.verbs or [work.count])[0]
    own = min(begin, work.name[0], key=attrgetter("start"))
    head = [
        token
        if own.start <= token.start < work.count.start
        else replace(token, start=begin.start, end=begin.start)
        for token in (*work.name, *(work.verbs or first.verbs))
    ]
    head[0] = replace(head[0], flags=own.flags | LINE | STOP)
    head[len(work.name)] = replace(head[len(work.name)], flags=COLON)
    whole = work.verbs and any(token.kind in _COUNTED for token in work.behind)
    return [*head, work.count, *(work.behind if whole else first.behind)]


def _heads_work(works: list[_WorkForName], tokens: list[Token]) -> bool:
    """Whether the work of all sizes stands behind how often each works it: `for S 10 repeats, for L 12 repeats: k4`."""
    alike = {tuple(token.text for token in work.behind) for work in works}
    verbs = {token.kind for work in works for token in work.verbs}
    return len(works) > 1 and len(alike) == len(verbs) == 1 and bool(tokens[works[-1].stop].flags & COLON)


def _as_list(works: list[_WorkForName], flags: int) -> list[Token]:
    """The works of all sizes as one, its number a list: `work 10 (12) repeats`."""
    first, ordered = works[0], sorted(works, key=attrgetter("column"))
    values = tuple((work.count.number or ONE).of(0) for work in ordered)
    number = Number(values, first.count.start, works[-1].count.end)
    words = [*first.verbs, replace(first.count, end=works[-1].count.end, number=number), *first.behind]
    return [replace(words[0], flags=flags), *words[1:]]


def _works_for_names(tokens: list[Token], place: int, names: Mapping[str, int]) -> list[_WorkForName]:
    """The work of every size for its name, which may differ: `for Child knit 4 rounds, for Adult 6`.

    Takes time in the number of sizes.
    """
    works: list[_WorkForName] = []
    width = max(names.values()) + 1
    if tokens[place].kind not in _BEGIN_WORK:
        return []
    while len(works) < width:
        at = place + (bool(works) and tokens[place].text in _JOINING)
        work = _work_for_name(tokens, at, names, works[0].behind if works else None)
        if work is None and len(works) == 1 and works[0].verbs and tokens[place].flags & STOP:
            return works
        if work is None or work.column in (known.column for known in works):
            return []
        works.append(work)
        place = work.stop
    ended = tokens[place].flags & ~SPACE or {tokens[place].kind, tokens[place].text} & _ENDING
    counted = works[0].verbs and any(token.kind in ("round", "times", "repeat") for token in works[0].behind)
    return works if width > 1 and ended and counted else []


def _work_for_name(
    tokens: list[Token], place: int, names: Mapping[str, int], model: list[Token] | None
) -> _WorkForName | None:
    """The work with the name of its size before or behind it, if its words are as in the model or fewer."""
    before = _stop_of_name(tokens, place, names)
    kinds = [token.kind for token in tokens[before : before + MOST_FOR_NAME]]
    count = before + (kinds[0] in _VERBS)
    if kinds[0] == "repeat" and "times" in kinds:
        count = before + kinds.index("times") - 1
    near = tokens[count : count + MOST_FOR_NAME]
    if not near or near[0].kind != "number" or len((near[0].number or ONE).values) > 1:
        return None
    behind: list[Token] = []
    stop = count + 1
    for token in near[1:]:
        named = _stop_of_name(tokens, stop + (token.text in _JOINING), names) > stop + 1
        other = before > place and model is not None and not _is_like([*behind, token], model)
        onward = token.kind in _VERBS and tokens[stop + 2].kind == "round"
        if named or other or token.flags & (LINE | FULL) or (token.flags & COMMA and onward):
            break
        behind.append(token)
        stop += 1
    else:
        return None
    name = tokens[place:before]
    if before == place:
        end = _stop_of_name(tokens, stop, names)
        ends = tokens[stop].flags & (LINE | FULL) or tokens[end].flags & COLON
        if stop == end or ends or not (model is None or _is_like(behind, model) or count > before):
            return None
        name, stop = tokens[stop:end], end
    texts = [token.text.removesuffix("'s") for token in name]
    column = next(names[text] for text in texts if text in names)
    return _WorkForName(column, tokens[before:count], near[0], behind, stop, name)


def _is_like(words: list[Token], model: list[Token]) -> bool:
    """Whether the model begins with these words, or has them behind what is counted: `6 in rib`."""
    texts, all_texts = [word.text for word in words], [word.text for word in model]
    return texts in (all_texts[: len(texts)], all_texts[1 : len(texts) + 1])


def _stop_of_name(tokens: list[Token], place: int, names: Mapping[str, int]) -> int:
    """Where `for Child`, `for the Child size` ends; its beginning where no such name stands there."""
    if place + 3 >= len(tokens) or tokens[place].kind != "for":
        return place
    name = place + 1 + (tokens[place + 1].text == "the")
    name += tokens[name].kind == "size"
    if tokens[name].text.removesuffix("'s") not in names or tokens[name].flags & ~SPACE:
        return place
    return name + 1 + (tokens[name + 1].kind in ("size", "only") and not tokens[name + 1].flags & ~SPACE)


MOST_FOR_NAME: Final = 9
"""Words of the work of a size from its number to the name of the next: `4 rounds in rib for`."""
MOST_IN_SENTENCE: Final = 80
"""Words of a sentence for a size, behind its name."""
_JOINING: Final = frozenset(("or", "and"))
_ENDING: Final = frozenset(("then", "end", "and"))
_VERBS: Final = CRAFTS | {"work"}
_WORKING: Final = _VERBS | {"repeat"}
_BEGIN_WORK: Final = _WORKING | {"for"}


MOST_BEHIND_NUMBER: Final = 6
"""Words from the number of a size up to the next: `sts (newborn) or`, `rounds for the newborn size and`."""
_COUNTED: Final = frozenset(("stitch_noun", "round", "times"))
"""What numbers by the names of sizes count."""


def _numbers_of_names(
    tokens: list[Token], place: int, names: Mapping[str, int]
) -> tuple[dict[int, Token], int]:
    """The number for each column that is named behind it, and where the last of them ends."""
    counts: dict[int, Token] = {}
    stop = at = place
    first = place + (tokens[place].kind in CRAFTS)
    if first >= len(tokens) or tokens[first].kind != "number":
        return {}, place
    if place and tokens[place - 1].text in names:
        return {}, place  # small 16 sts, medium 24 sts
    while at + MOST_BEHIND_NUMBER < len(tokens) and tokens[at].kind == tokens[place].kind:
        count = at + (tokens[at].kind in CRAFTS)
        behind = count + 1 + (tokens[count + 1].kind in _COUNTED)
        begin = behind
        if tokens[behind].kind == "for":
            begin += 1 + (tokens[behind + 1].kind == "")
        name, end = name_in_bracket(tokens, begin)
        if not name:
            name, end = tokens[begin].text.removesuffix("'s"), begin + 1
        joined = not tokens[behind].flags & ~SPACE
        apart = bool(counts) and bool(tokens[at].flags & (LINE | STOP | COLON))
        if (
            tokens[count].kind != "number"
            or name not in names
            or not joined
            or names[name] in counts
            or apart
        ):
            break
        counts[names[name]] = tokens[count]
        stop = end
        stop += tokens[stop].kind == "size" and not tokens[stop].flags & ~SPACE
        at = stop + (tokens[stop].text in ("or", "and"))
    return counts, stop


def with_counts_of_sizes(label: Label | None, phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with the counts of the sizes that a line is for as one list: `M and L only: ... = 9 and 12 sts`."""
    width = len(label.sizes) if label is not None and label.sizes else 0
    if width < 2 or len(phrases) < width:
        return phrases
    counts: list[Count] = []
    stop = len(phrases)
    while stop and len(counts) < width and type(phrases[stop - 1]) in (Count, Said):
        stop -= 1
        phrase = phrases[stop]
        if type(phrase) is Count and not phrase.sign and len(phrase.number.values) == 1:
            counts.insert(0, phrase)
        elif type(phrase) is not Said or phrase.text not in ("and", "&"):
            return phrases
    joined = all(count.flags & COMMA or place == 0 or count.sure for place, count in enumerate(counts))
    if len(counts) != width or not joined or not (counts[0].flags & EQUALS or counts[-1].sure):
        return phrases
    first, last = counts[0], counts[-1]
    number = Number(tuple(count.number.of(0) for count in counts), first.number.start, last.number.end)
    return [*phrases[:stop], Count(first.start, last.end, first.flags, number)]


def with_stitches_of_sizes(label: Label | None, phrases: list[Phrase]) -> list[Phrase]:
    """The phrases with a stitch told for each size of the line as one: `M and L only: (K5 / K7, K2tog) 6 times`."""
    width = len(label.sizes) if label is not None and label.sizes else 0
    if width < 2:
        return phrases
    made: list[Phrase] = []
    for phrase in phrases:
        if type(phrase) is Brackets:
            made.append(replace(phrase, inside=tuple(with_stitches_of_sizes(label, list(phrase.inside)))))
            continue
        made.append(phrase)
        if len(made) >= width and (merged := _of_sizes(made[-width:])):
            made[-width:] = [merged]
    return made


def _of_sizes(phrases: list[Phrase]) -> Stitches | None:
    """One stitch with a number for each size, of stitches between slashes: `K5 / K7`; None where they are others."""
    first, nodes = phrases[0], [phrase.node for phrase in phrases if type(phrase) is Stitches]
    stitches = [node for node in nodes if type(node) is Stitch and len(node.times.values) == 1]
    slashed = [bool(phrase.flags & SLASH) for phrase in phrases] == [False] + [True] * (len(phrases) - 1)
    if len(stitches) != len(phrases) or not slashed or type(first) is not Stitches:
        return None
    if len({stitch.name for stitch in stitches}) > 1 or any(stitch.bare for stitch in stitches):
        return None
    begin, end = stitches[0].times.start, stitches[-1].times.end
    number = Number(tuple(stitch.times.of(0) for stitch in stitches), begin, end)
    node = replace(stitches[0], times=number, end=stitches[-1].end)
    return replace(first, node=node, end=phrases[-1].end)


def with_sizes_apart(piece: Segment, width: int) -> list[Segment]:
    """The segment for each size apart where stitches stand so, `K2tog (k3tog)`, `K6 (k7, k8), k2tog`; else as it is.

    So it is where shaping rounds do, `every 4th (5th) rnd`, or the plain ones: `with 1 (2) rounds after each`.
    """
    of = piece.label.sizes if piece.label is not None and piece.label.sizes else None
    columns = of or tuple(str(place + 1) for place in range(width))
    if len(columns) < 2 or not all(column.isdigit() for column in columns):
        return [piece]
    works = [_of_column(piece.phrases, place, len(columns)) for place in range(len(columns))]
    if works[0] == piece.phrases:
        return [piece]
    return [
        replace(piece, label=of_size(piece.label, piece.start, (column,)), phrases=phrases, cuts=())
        for column, phrases in zip(columns, works, strict=True)
    ]


def _of_column(phrases: tuple[Phrase, ...], place: int, width: int) -> tuple[Phrase, ...]:
    """The phrases with the stitch of the size at this place of the list instead of those of all."""
    made: list[Phrase] = []
    for phrase, behind in zip_longest(phrases, phrases[1:]):
        if type(phrase) is Brackets and made and (nodes := _nodes_of_sizes(made[-1], phrase, width)):
            made[-1] = Stitches(made[-1].start, phrase.end, made[-1].flags, nodes[place])
        elif type(phrase) is Brackets:
            made.append(replace(phrase, inside=_of_column(phrase.inside, place, width)))
        elif type(phrase) is Rounds and phrase.steps is not None and len(phrase.steps.values) == width:
            made.append(replace(phrase, step=phrase.steps.of(place) or phrase.step, steps=None))
        elif type(phrase) is Rounds and _are_beside(phrase, behind) and len(phrase.number.values) == width:
            number = replace(phrase.number, values=(phrase.number.of(place),))
            made.append(replace(phrase, number=number))
        else:
            made.append(phrase)
    return tuple(made)


def _are_beside(rounds: Rounds, behind: Phrase | None) -> bool:
    """Whether rounds are told that stand behind others or between them: `with 1 (2) plain rounds after each`."""
    return not rounds.every and type(behind) is Said and behind.text in _BESIDE


_BESIDE: Final = frozenset(("after", "after each", "between", "in between", "inbetween"))
"""What stands behind a number of plain rounds that are worked between others."""


def _nodes_of_sizes(first: Phrase, others: Brackets, width: int) -> list[Stitch]:
    """A stitch for each size, the others in a bracket; none where they change the count alike: `k2tog (ssk)`."""
    phrases = (first, *others.inside)
    nodes = [phrase.node for phrase in phrases if type(phrase) is Stitches]
    stitches = [node for node in nodes if type(node) is Stitch and len(node.times.values) == 1]
    if len(stitches) != width or len(phrases) != width or any(stitch.bare for stitch in stitches):
        return []
    if others.flags & ~SPACE or any(not phrase.flags & (COMMA | SLASH) for phrase in phrases[2:]):
        return []
    works = [(stitch.name, stitch.times.of(0) or 0) for stitch in stitches]
    counts = [execute((Work(name, times),)) for name, times in works]
    changes = {after - before for before, after in counts}
    alike = len({name for name, _ in works}) == 1 and len(set(works)) > 1
    shapes = len(changes) > 1 and min(changes) * max(changes) > 0
    return stitches if alike or shapes else []


def cells(phrases: list[Phrase], width: int) -> list[list[Phrase]]:
    """The phrases of a row of a table that has a cell for each size, `| k8, k2tog | k9, k2tog`; else empty.

    Counts may stand in cells of their own, `| k8, k2tog | 81 |`; a size without such a round has a dash.
    """
    if width < 2 or not phrases or not phrases[0].flags & TAB:
        return []
    begins = [place for place, phrase in enumerate(phrases) if phrase.flags & TAB]
    made = [phrases[begin:end] for begin, end in zip(begins, [*begins[1:], len(phrases)], strict=True)]
    if len(made) == 2 * width:
        made = [[*work, *count] for work, count in zip(made[::2], made[1::2], strict=True)]
    while len(made) > width and not any(map(_works, made[-1])):
        behind = made.pop()
        made[-1].extend(behind)  # what stands behind the last is for all
    works = all(any(map(_works, cell)) or is_no_cell(cell) for cell in made)
    return made if len(made) == width and works and any(map(_works, phrases)) else []


def is_no_cell(cell: list[Phrase]) -> bool:
    """Whether a cell has a dash in place of work."""
    return all(type(phrase) is Said and phrase.text == "-" for phrase in cell)


def alternatives(phrases: list[Phrase], width: int) -> list[list[Phrase]]:
    """The phrases for each size, where slashes part as many as there are sizes; what stands behind is for all."""
    cuts = [
        place
        for place, phrase in enumerate(phrases)
        if place and phrase.flags & SLASH and type(phrase) in _BEGINS and _works(phrase)
    ]
    if width < 2 or len(cuts) != width - 1:
        return [phrases]
    parts = [phrases[begin:end] for begin, end in zip([0, *cuts], [*cuts, len(phrases)], strict=True)]
    if not all(any(map(has_stitches, part)) for part in parts):
        return [phrases]
    last = max(place for place, phrase in enumerate(parts[-1]) if has_stitches(phrase))
    tail = parts[-1][last + 1 :]
    return [_with_tail(part, tail) for part in parts[:-1]] + [parts[-1]]


def _works(phrase: Phrase) -> bool:
    return type(phrase) is Star or has_stitches(phrase)


def _with_tail(part: list[Phrase], tail: list[Phrase]) -> list[Phrase]:
    """The phrases of a size with what is said at the end for all sizes, but for an end that it has itself."""
    ended = any(type(phrase) in _ENDS for phrase in part)
    return [*part, *(phrase for phrase in tail if not (ended and type(phrase) in _ENDS))]


_BEGINS: Final = frozenset((Stitches, Star, Brackets))
_ENDS: Final = frozenset((Extent, Star))
