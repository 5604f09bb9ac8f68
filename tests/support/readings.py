"""A reading by its rounds, where these fail if anything is called wrong in it, or by what is called wrong."""

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
