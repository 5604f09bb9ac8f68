"""A reading by its rounds, where these fail if anything is called wrong in it, or by what is called wrong."""

from textwrap import dedent

from roundwright.wording.proofreading.read import Reading
from tests.corpus.score import counts as counts_of
from tests.corpus.score import errors


def counts(reading: Reading) -> list[list[int]]:
    """The stitch counts of each size, each once, the cast-on first."""
    _nothing_wrong(reading)
    return [counts_of(rounds, rounds[0].before) for rounds in reading.rounds]


def worked(reading: Reading) -> list[tuple[int, int, str]]:
    """Each round of the only size: the stitches before and after it, and its words."""
    _nothing_wrong(reading)
    [rounds] = reading.rounds
    return [(done.before, done.after, done.text) for done in rounds]


def after_each_round(reading: Reading) -> list[int]:
    """The stitches after each round of the only size."""
    return [after for _, after, _ in worked(reading)]


def after_rounds_of_sizes(reading: Reading) -> list[list[int]]:
    """The stitches after each round, of every size."""
    _nothing_wrong(reading)
    return [[done.after for done in rounds] for rounds in reading.rounds]


def words_of_rounds(reading: Reading) -> list[str]:
    """The words of each round of the only size."""
    return [words for _, _, words in worked(reading)]


def words_unremarked(reading: Reading) -> list[str]:
    """The words of each round of the only size, where not even a remark is made."""
    assert not reading.findings
    return words_of_rounds(reading)


def number_of_rounds(reading: Reading) -> list[int]:
    """How many rounds each size has."""
    _nothing_wrong(reading)
    return [len(rounds) for rounds in reading.rounds]


def faults(reading: Reading) -> list[tuple[str, int]]:
    """Code and line of everything that is called wrong."""
    return [(finding.code, finding.line) for finding in errors(reading)]


def _nothing_wrong(reading: Reading) -> None:
    wrong = [(finding.line, finding.code, finding.message) for finding in errors(reading)]
    assert not wrong, wrong


def told_crowns(block: str) -> list[tuple[str, int, list[int]]]:
    """The texts of a block, each with its cast-on and the stitches after each round, which stand on a line before it.

    A blank line ends a text, a line that is indented goes on with the line before, and `#` begins a comment.
    """
    lines = [line for line in dedent(block).strip().split("\n") if not line.startswith("#")]
    texts = []
    for told in "\n".join(lines).split("\n\n"):
        numbers, text = told.strip("\n").split("\n", 1)
        cast_on, after = numbers.split(":")
        texts.append((text.replace("\n  ", " "), int(cast_on), [int(stitches) for stitches in after.split()]))
    return texts
