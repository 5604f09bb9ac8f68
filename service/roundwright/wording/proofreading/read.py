"""A text read: its rounds for each size, and everything that was found, with its edits."""

import msgspec

from roundwright.knitting.answers import Notice
from roundwright.knitting.rounds.round import Round
from roundwright.language import say
from roundwright.wording.proofreading.editorial import notes
from roundwright.wording.proofreading.edits import Edits, line_with, repaired, text_with, with_closing
from roundwright.wording.proofreading.evaluate import Found, evaluate
from roundwright.wording.proofreading.explained import Explained
from roundwright.wording.proofreading.findings import MOST_FINDINGS, Finding
from roundwright.wording.proofreading.in_language import in_original
from roundwright.wording.proofreading.line import Line
from roundwright.wording.proofreading.lines import lines
from roundwright.wording.proofreading.messages import too_many_findings
from roundwright.wording.proofreading.reading import Reading
from roundwright.wording.reading.languages.recognise import ENGLISH, Recognised, named, recognised
from roundwright.wording.reading.languages.rewrite import rewritten


def read(text: str, cast_on: tuple[int, ...], language: str | None = None) -> Reading:
    """The rounds of a pattern for each size, and everything that is wrong with it or worth knowing.

    `language`: its tag; where none is given, the language is found from the words of the text.
    """
    found = recognised(text) if language is None else named(language, text)
    if found.language == ENGLISH:
        reading = _read(text, cast_on)
    else:
        english = rewritten(text, found.language, len(cast_on))
        reading = in_original(_read(english.text, cast_on), english)
    return msgspec.structs.replace(reading, language=found.tag, notices=_notices(found))


def _notices(found: Recognised) -> tuple[Notice, ...]:
    """What is to be said of the language in which a text was read."""
    if not found.known:
        message = say("find.language_not_read", language=found.requested_tag)
        return (Notice(code="language_not_read", message=message, pointer="#/language"),)
    if found.in_words_of is not None:
        message = say("find.language_differs", language=found.requested_tag, other=found.in_words_of)
        return (Notice(code="language_differs", message=message, pointer="#/language"),)
    if found.second is not None:
        message = say("find.language_close", language=found.language, other=found.second)
        return (Notice(code="language_close", message=message, pointer="#/language"),)
    return ()


def _read(text: str, cast_on: tuple[int, ...]) -> Reading:
    """A text in English words, read."""
    explained = Explained(text, cast_on)
    laid = lines(explained)
    entries = _all_findings(explained, laid)
    edits = Edits(explained, lambda text, cast_on: _findings_of(Explained(text, cast_on, explained)))
    findings = []
    for entry, made in zip(entries, edits.of(entries), strict=True):
        repair = line_with(explained.text, made[0]) if made else None
        findings.append(msgspec.structs.replace(entry.finding, edits=made, repair=repair))
    findings = _cut(findings)
    chosen = with_closing(edits.together(repaired(explained, findings), findings), findings)
    whole = text_with(text, chosen) if chosen else None
    return Reading(
        _rounds(explained), tuple(findings), laid, whole, chosen, printed=_numbers_printed(explained)
    )


def _findings_of(explained: Explained) -> list[Finding]:
    """The findings of a text, without edits."""
    return _cut([entry.finding for entry in _all_findings(explained, lines(explained))])


def _all_findings(explained: Explained, laid: tuple[Line, ...]) -> list[Found]:
    """What does not come out, and what an editor would ask about, in the order of the lines."""
    entries = evaluate(explained)
    entries.extend(map(Found, notes(explained, laid, entries)))
    entries.sort(key=lambda entry: (entry.finding.line, entry.finding.column))
    notes_of_lines: set[tuple[int, str, int | None, str]] = set()
    kept = []
    for entry in entries:
        finding = entry.finding
        note = (finding.line, finding.code, finding.size, finding.message)
        if finding.severity == "error" or note not in notes_of_lines:  # a note is given once a line
            kept.append(entry)
            notes_of_lines.add(note)
    return kept


def _cut(findings: list[Finding]) -> list[Finding]:
    """As many findings as are told, the last of them that there are more; errors go before notes."""
    if len(findings) <= MOST_FINDINGS:
        return findings
    kept = sorted(findings, key=lambda finding: finding.severity)[: MOST_FINDINGS - 1]
    kept.sort(key=lambda finding: (finding.line, finding.column))
    last = kept[-1]
    more = Finding(
        line=last.line,
        column=last.column,
        code="too_many_findings",
        severity="note",
        message=too_many_findings(len(findings) - len(kept)),
    )
    return [*kept, more]


def _rounds(explained: Explained) -> tuple[tuple[Round, ...], ...]:
    """The rounds of each size, each with the line that asks for it."""
    at = explained.line_of_segments
    replace = msgspec.structs.replace
    return tuple(
        tuple(replace(done.round, line=at[done.segment]) for done in rounds)
        for rounds in explained.explanation.rounds
    )


def _numbers_printed(explained: Explained) -> tuple[tuple[bool, ...], ...]:
    """Of the rounds of each size, whether the text numbers them: those up to the last number printed in their part."""
    labels = [segment.label for segment in explained.segments]
    sizes = []
    for rounds in explained.explanation.rounds:
        printed: list[bool] = []
        begin = 0  # of the part, whose numbers follow each other
        for place, done in enumerate(rounds):
            if place and done.round.number != rounds[place - 1].round.number + 1:
                begin = place
            label = labels[done.segment]
            printed.append(False)
            if label is not None and label.spans:
                printed[begin:] = [True] * (place + 1 - begin)
                begin = place
        sizes.append(tuple(printed))
    return tuple(sizes)
