"""The wordings of a language, from its table, in a tree by their words: the longest that stands in a text is found.

A wording has its words as they are printed, and `{n}` for a number or a list of sizes, `{o}` for an ordinal, `{s}` for
ordinals in a list, `[...]` around what may be left out, `...` for some words of the same sentence, `^` and `$` where a
sentence has to begin or end, and `~` behind the beginning of a word that may end in any way. Wordings of a single word
stand for the first of their row in all other rows: where a row has `M`, it is found with `Masche` and `Maschen` too.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Final, NamedTuple

from msgspec import Struct

from roundwright import reference
from roundwright.language import ENGLISH, supported, words_of
from roundwright.reference.once import making
from roundwright.reference.rows import WordingRow

PIECES: Final = re.compile(
    r"\{[a-z]\}|\.\.\.|[A-Za-z]{1,4}[0-9]{1,2}[A-Za-z]{1,4}(?![^\W_])|[0-9]+\.?|[^\W\d_]+~?|[^\w\s]"
)
"""Slots, numbers, words and signs of a wording."""
SHORTEST_STEM: Final = 3
LONGEST_STEM: Final = 24

SIZE: Final = "[2-6]?X{0,3}[SL]|M|[2-6]XL"
"""A pattern for the letters of a size."""
SIZES: Final = frozenset("SML")
"""Sizes of one letter."""
COUNTS: Final = "nmabc"
"""Letters of slots for numbers; `o`, `p` and `q` are for an ordinal, `s` for several of them."""
_WORDS: Final = re.compile(r"[^\W\d_]{2,}")
_OPTIONAL: Final = re.compile(r"\[([^\[\]]*)\]")
_ENTWINED: Final = re.compile(r"\w\[|\]\w|\[[^\]]*\[")
"""What may be left out inside a word, `je[weils]`, or inside what may be left out."""
_HYPHEN: Final = re.compile(r"(?<=[^\W\d_])-(?=[^\W\d_])")
_DASHES: Final = str.maketrans("–—−‐’‘`´×„“”«»", '----\'\'\'\'x"""""')
NUMBER: Final = "{n}"
ORDINAL: Final = "{o}"
ORDINALS: Final = "{s}"
GAP: Final = "..."
BEGINNING: Final = "^"
END: Final = "$"


class Meaning(Struct, frozen=True):
    """What a wording means: its English words, and the letters of its slots in order."""

    english: str
    slots: tuple[str, ...]


class Node(Struct):
    """The wordings that begin alike: what follows, and what those that end here mean."""

    following: dict[str, "Node"] = {}
    meaning: Meaning | None = None


class Lexicon(Struct, frozen=True):
    """The wordings of a language.

    - `forms`: the word that stands for each form; `stems`: the same for beginnings of words
    - `values`: numbers in words; `ordinals`: ordinals in words; `endings`: what makes an ordinal of a number
    - `long_numbers`: a pattern for those of several words, `soixante-douze`, `setenta y dos`; None where there are none
    - `fillers`: words that say nothing, between those of any wording; `silent`: several words that do together,
      `aux mêmes endroits`
    - `dotted`: forms that are printed with a full stop that ends no sentence
    - `joins`: words that stand with or without a comma before what begins a sentence: `, und noch 2 Rd re`
    - `together`: words that make a decrease of the stitches before them
    - `letters`: those of old print and other keyboards with those of the wordings, `aa` and `å`, and words of old print
    - `words`: all words of the wordings
    - `sizes`: the English letters of a size for its own: `L` for `G`; `size`: a pattern for the letters of one,
      `ands`: for the words that join two
    """

    root: Node
    silent: Node
    forms: Mapping[str, str]
    stems: Mapping[str, str]
    values: Mapping[str, int]
    long_numbers: re.Pattern[str] | None
    ordinals: Mapping[str, int]
    endings: frozenset[str]
    fillers: frozenset[str]
    dotted: frozenset[str]
    joins: frozenset[str]
    together: frozenset[str]
    letters: tuple[tuple[str, str], ...]
    words: frozenset[str]
    sizes: Mapping[str, str]
    size: str
    ands: str

    def number(self, small: str) -> str:
        """A number in words as digits, with a full stop where it is an ordinal; empty where it is none."""
        if small in self.values:
            return str(self.values[small])
        return f"{self.ordinals[small]}." if small in self.ordinals else ""

    def is_size(self, text: str) -> bool:
        """Whether a word is the capital of a size whose small letter says nothing: `L`, where `l'` is the article."""
        return text in SIZES and text.lower() in self.fillers

    def single(self, text: str) -> str:
        """The English words for a word that stands alone; empty where it is in no row."""
        node = self.root.following.get(self.word(text))
        return node.meaning.english if node is not None and node.meaning is not None else ""

    def word(self, text: str) -> str:
        """The word that stands for a form; the form in small letters where it is in no row."""
        word = _word(text, self.forms, self.stems)
        if self.letters and word == text.lower() and word not in self.words:
            return self.respelt(word)
        return word

    def respelt(self, word: str) -> str:
        """The word that stands for one with other letters, `Groesse` for `Größe`; the word where there is none."""
        spellings = [word.replace(*pair) for pair in self.letters if pair[0] in word]
        for pair in self.letters if len(spellings) > 1 else ():
            spellings[0:0] = [spellings[0].replace(*pair)] if pair[0] in spellings[0] else []
        for spelling in spellings:
            known = _word(spelling, self.forms, self.stems)
            if known != spelling or spelling in self.words:
                return known
        return word


def _word(text: str, forms: Mapping[str, str], stems: Mapping[str, str]) -> str:
    known = forms.get(text)
    if known is not None:
        return known
    small = text.lower()
    known = forms.get(small)
    if known is not None:
        return known
    for stop in range(min(len(small), LONGEST_STEM), SHORTEST_STEM - 1, -1):
        known = stems.get(small[:stop])
        if known is not None:
            return known
    return small


@cache
def lexicon(language: str) -> Lexicon:
    """The wordings of a language, made once on first use."""
    with making:
        return made_of((*reference.wordings(language), *own_sentences(language)))


OWN: Final = (
    "pattern.measures", "start.circular", "start.one_circular", "start.one_needle", "start.two_needles",
    "split.uneven.fewer", "split.uneven.fewer.repeats", "split.uneven.none", "split.uneven.none.repeats",
    "split.uneven.repeats_alone", "line.next_rounds.short", "line.next_rounds.beginner",
    "round.star", "round.star_to", "plain.star", "plain.star_to", "line.begin_here", "line.crown_done",
)  # fmt: skip
"""Sentences of the service's own patterns in which words of rounds, stitches and needles stand close together."""
_PARTS: Final = re.compile(
    r"\{(?:shares|lengths|steps|sentences|tail|sizes|stitches|note|slides)\}|(?<=\.) |(?<=\w)\s?; "
)
_COUNT: Final = re.compile(r"\{(\w\w+)\}")
_ENDS: Final = " \u00a0.:;,"


def own_sentences(language: str) -> Iterator[WordingRow]:
    """What the service itself writes in a language: the English text of the same message stands for it."""
    code = supported(language)
    if code is None or words_of(code).is_english:
        return
    for key in OWN:
        for written, means in zip(_texts(key, code), _texts(key, ENGLISH), strict=True):
            for part, english in zip(_PARTS.split(written), _PARTS.split(means), strict=False):
                yield from _own_sentence(part.lstrip("*").strip(_ENDS), english.strip(_ENDS))


def _texts(key: str, code: str) -> list[str]:
    """The text of a message, or its plural forms."""
    catalogue = words_of(code).catalogue
    forms = [catalogue.ngettext(key, key, count) for count in (1, 2)]
    if forms == [key, key]:
        return [catalogue.gettext(key)]
    return forms


def _own_sentence(written: str, english: str) -> Iterator[WordingRow]:
    names = dict.fromkeys(_COUNT.findall(english))
    if len(_WORDS.findall(_COUNT.sub("", written))) > 1 and names.keys() == set(_COUNT.findall(written)):
        slots = {name: f"{{{letter}}}" for name, letter in zip(names, COUNTS, strict=False)}
        yield WordingRow(
            means=english.format_map(slots), reads=(written.format_map(slots),), source="", mark="A"
        )


@cache
def spoken(language: str) -> frozenset[str]:
    """All words of the wordings of a language, in small letters."""
    reads = (read for row in reference.wordings(language) if row.kind != "letters" for read in row.reads)
    return frozenset(word.lower() for read in reads for word in _WORDS.findall(read.replace("~", " ")))


@cache
def spoken_alone(language: str) -> frozenset[str]:
    """The words of a language that say something by themselves, in small letters: stitches, rounds, what is worn."""
    reads = (read for row in reference.wordings(language) if row.kind == "word" for read in row.reads)
    words = (read.lstrip("0123456789") for read in reads)  # `2pjd`
    return frozenset(word.rstrip(".~").lower() for word in words if _is_word(word))


def made_of(rows: tuple[WordingRow, ...]) -> Lexicon:
    """The wordings of rows."""
    words = [row for row in rows if row.kind == "word"]
    forms, stems = _forms(words)
    reads = [read for row in rows for read in row.reads]
    known = Lexicon(
        Node(),
        Node(),
        forms,
        stems,
        values := _numbers(rows, "number"),
        _long_numbers([*values, *(ordinals := _numbers(rows, "ordinal"))]),
        ordinals,
        endings=frozenset(read for row in rows if row.kind == "ending" for read in row.reads),
        fillers=frozenset(read for row in rows if row.kind == "filler" for read in row.reads),
        dotted=frozenset(read[:-1].lower() for read in reads if _is_word(read) and read.endswith(".")),
        joins=frozenset(
            _word(read, forms, stems) for row in rows if row.kind == "join" for read in row.reads
        ),
        together=frozenset(
            read.lower() for row in words if row.means == "together" for read in row.reads if read.isalpha()
        ),
        letters=tuple((read, row.means) for row in rows if row.kind == "letters" for read in row.reads),
        words=frozenset(
            word.lower()
            for row in words
            for read in row.reads
            for word in _WORDS.findall(read.replace("~", " "))
        ),
        sizes=letters_of_sizes(rows),
        size=size_pattern(letters_of_sizes(rows)),
        ands="|".join(read for row in words if row.means == "and" for read in row.reads if read.isalpha()),
    )
    for row in words:
        for read in row.reads:
            _add(known, known.root, read, row.means)
    for read in known.fillers:
        if " " in read:
            _add(known, known.silent, read, "")
    _share(known.root, {})
    return known


_Kept = dict[tuple[Meaning | None, frozenset[tuple[str, int]]], Node]


def _share(node: Node, kept: _Kept) -> Node:
    """The node, or another behind which the same follows: with and without a word that may be left out it does.

    After this, no wording may be put into the tree.
    """
    following = node.following
    for key, behind in following.items():
        following[key] = _share(behind, kept)
    alike = frozenset([(key, id(behind)) for key, behind in following.items()])
    return kept.setdefault((node.meaning, alike), node)


def _forms(rows: list[WordingRow]) -> tuple[dict[str, str], dict[str, str]]:
    """For each form, and each beginning of forms, the word that stands for all of its row."""
    forms: dict[str, str] = {}
    stems: dict[str, str] = {}
    for row in rows:
        single = [read.rstrip(".") for read in row.reads if _is_word(read)]
        for form in single:
            word = single[0].rstrip("~").lower() + "~"
            if form.endswith("~"):
                stems.setdefault(form[:-1].lower(), word)
            else:
                forms.setdefault(form, word)
    for form, word in list(forms.items()):
        forms.setdefault(form.lower(), word)
    return forms, stems


def _numbers(rows: tuple[WordingRow, ...], kind: str) -> dict[str, int]:
    numbers = ((read.lower(), int(row.means)) for row in rows if row.kind == kind for read in row.reads)
    return {BETWEEN_WORDS.sub(" ", read): number for read, number in numbers}


BETWEEN_WORDS: Final = re.compile("[ \\u00a0\\-‐‑]")
"""What parts the words of a number."""


def _long_numbers(values: Iterable[str]) -> re.Pattern[str] | None:
    """A pattern for the numbers of several words, the longest first."""
    several = sorted((value.split(" ") for value in values if " " in value), key=len, reverse=True)
    wordings = (BETWEEN_WORDS.pattern.join(map(re.escape, words)) for words in several)
    return re.compile(rf"(?:{'|'.join(wordings)})(?![^\W_])", re.IGNORECASE) if several else None


def letters_of_sizes(rows: Iterable[WordingRow]) -> dict[str, str]:
    """The English letters of a size for its own, by the rows of a language."""
    return {read: row.means for row in rows if row.kind == "size" for read in row.reads}


def size_pattern(sizes: Iterable[str]) -> str:
    """A pattern for the letters of a size: those of English, `2XL`, and a language's own."""
    return f"(?:{'|'.join([*sorted(sizes, key=len, reverse=True), SIZE])})"


def _is_word(read: str) -> bool:
    return read.rstrip(".~").isalpha()


class _Step(NamedTuple):
    """A word, sign or slot of a wording: how it stands in the tree, and the letter of a slot."""

    key: str
    slot: str = ""


def _add(known: Lexicon, root: Node, read: str, means: str) -> None:
    """Add a wording to a tree, with and without what may be left out; with all of it first."""
    for wording in _spelled_out(read) if _ENTWINED.search(read) else (read,):
        parts: list[tuple[_Step, ...] | _Step] = []
        for place, text in enumerate(_OPTIONAL.split(wording)):  # what may be left out is every second
            steps = _steps(known, text)
            parts.extend(steps if place % 2 == 0 else [tuple(steps)] if steps else [])
        _grow(root, root, parts, "", means)


def _steps(known: Lexicon, text: str) -> list[_Step]:
    """The steps of a part of a wording; words that are passed over make none."""
    steps = []
    for piece in PIECES.findall(_HYPHEN.sub(" ", text.translate(_DASHES))):
        if piece[0] == "{":
            letter = piece[1]
            steps.append(
                _Step(NUMBER if letter in COUNTS else ORDINALS if letter == "s" else ORDINAL, letter)
            )
        elif not known.is_size(piece) and piece[0].isalpha():
            word = known.number(piece.lower()) or known.word(piece.rstrip("~"))
            if word not in known.fillers:
                steps.append(_Step(word))
        elif piece != "'":
            steps.append(_Step(piece))
    return steps


def _grow(root: Node, node: Node, parts: Sequence[tuple[_Step, ...] | _Step], slots: str, means: str) -> None:
    """Put the rest of a wording into the tree behind a node. What begins alike is walked once."""
    for place, part in enumerate(parts):
        if isinstance(part, _Step):
            node, slots = _next(root, node, part), slots + part.slot
            continue
        inner, within = node, slots
        for step in part:
            inner, within = _next(root, inner, step), within + step.slot
        _grow(root, inner, parts[place + 1 :], within, means)
    if node.meaning is None and node is not root:
        node.meaning = Meaning(means, tuple(slots))


def _next(root: Node, node: Node, step: _Step) -> Node:
    """The node behind a step; a full stop counts at the begin of a wording alone."""
    if step.key == "." and node is not root:
        return node
    return node.following.setdefault(step.key, Node())


def _spelled_out(read: str) -> Iterator[str]:
    """A wording with and without what may be left out, with all of it first."""
    optional = _OPTIONAL.search(read)
    if optional is None:
        yield read
        return
    for inner in (optional[1], " "):
        yield from _spelled_out(f"{read[: optional.start()]}{inner}{read[optional.end() :]}")
