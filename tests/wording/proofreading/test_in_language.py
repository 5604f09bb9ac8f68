"""A pattern in another language is proofread: findings, edits and the repaired text are those of the original."""

import re
from operator import itemgetter
from typing import Any

import pytest

from roundwright.knitting.counting.check import check
from roundwright.knitting.counting.request import CountRequest, WrittenPattern
from roundwright.wording.proofreading.proofread import ProofreadRequest, proofread
from roundwright.wording.proofreading.read import read
from roundwright.wording.reading.languages.recognise import named, recognised
from roundwright.wording.writing.plain_language import PlainLine
from tests.corpus.score import corpora
from tests.support.readings import counts

CORPORA = corpora()
TEXTS = [item for name, corpus in CORPORA.items() for item in corpus["wrong"] if "language" in item]


# Rounds in print with their counts; sources in references-further.md, A5, recomputed there.
BESTRICKENDES = """1. Rd: aus jeder M 2 M herausstr
2. Rd: re
3. Rd: *2 re, 1 zun, ab * wdh
4. Rd: *2 re, 1 li, 1 zun, ab * wdh"""
AIGUILLES = """1er tour : *3 m end, 1 m env* ; répéter de * à * tout le tour.
2e tour : *1 m env, 1 m end, 2 m env* ; répéter de * à * tout le tour."""
ALELUBLOG = """1ª vuelta: *2 p juntos; rep desde * hasta el final.
2ª vuelta: derecho.
3ª vuelta: 2 p juntos toda la vuelta, el último solo.
4ª vuelta: derecho.
5ª vuelta: *2 p juntos; rep desde * hasta el final."""
PATONS = """Rnd 1: *K7, K2tog; rep from * around.
Rnd 2 and alternate rnds: Knit.
Rnd 3: *K6, K2tog; rep from * around.
Cont in this manner, having 1 st less between decs, until 14 sts rem."""
PUBLISHED = [
    ("de", 8, BESTRICKENDES, [8, 16, 24, 32]),  # bestrickendes.de 2018/04
    (
        "de",
        3,
        "1. Rd: 1 M abh, 2 M re zusstr, die abgeh M überziehen (= 2 M abgenommen)",
        [3, 1],
    ),  # emf-verlag.de
    ("de", 15, "1. Rd: [3 M li, 2 M re] 3x", [15]),  # strickanleitungen-kostenlos.de
    ("de", 48, "1. Rd: *2 re, 2 li, ab * wdh", [48]),  # swrfernsehen.de, Grundanleitung für Socken
    ("de", 64, "1. Rd: 16 M je Nadel re str", [64]),  # asamandra.de
    ("fr", 80, AIGUILLES, [80]),  # aiguillesetmyrtilles.com
    (
        "fr",
        146,
        "1er rang : *2 m end, 1 m env*, répéter de * à *, terminer par 2 m end.\n2e rang : m ensemble 2 par 2.",
        [146, 73],
    ),  # desbonnets.blogspot.com, from a magazine of 1973
    ("es", 78, ALELUBLOG, [78, 39, 20, 10]),  # alelublog.blogspot.com
    ("da", 60, "1. omg: *2 r, 2 vr; gentag fra *", [60]),  # fiftyfabulous.dk
    ("da", 64, "1. omg: *1 vr, 2 r, 1 vr; gentag fra *", [64]),  # the same
    ("nl", 32, "5 toeren av, 4 toeren r, 4 toeren av, 4 toeren r, 4 toeren av", [32]),  # breiclub.nl
    ("en", 63, PATONS, [63, 56, 49, 42, 35, 28, 21, 14]),  # PAK0116-001086M
    ("en", 64, "Rnd 1: *K7, Kfb*\nRnd 2: *K8, Kfb*\nRnd 3: *K9, Kfb*", [64, 72, 80, 88]),  # PAK0416-030197M
    ("en", 98, "Rnd 1: K1, *K9, ssk, K2, k2tog, K9; rep from * to last st, K1.", [98, 90]),  # CAK0116-008819M
]


@pytest.mark.parametrize(("language", "cast_on", "text", "wanted"), PUBLISHED)
def test_published_rounds_come_out(language: str, cast_on: int, text: str, wanted: list[int]) -> None:
    """Rounds in print, with the counts that they lead to."""
    assert counts(read(text, (cast_on,), language)) == [wanted]


def test_findings_edits_and_repair_are_of_the_original() -> None:
    """The fault stands where it is printed, the edit is made there, and the line offered is in the language."""
    text = "Spitze:\n1. Rd: * 5 M re, 2 M re zusstr; ab * stets wdh (= 84 M).\n2. Rd: re."

    answer = proofread(ProofreadRequest(cast_on=(96,), text=text, language="de"))
    (finding,) = [finding for finding in answer.findings if finding.severity == "error"]
    (edit,) = finding.edits

    assert (finding.line, edit.start.column, edit.replacement) == (2, 10, "6")
    assert finding.repair == "1. Rd: * 6 M re, 2 M re zusstr; ab * stets wdh (= 84 M)."
    assert answer.repaired == text.replace("5 M", "6 M")
    assert answer.language == "de"


def test_a_missing_round_is_put_in_as_the_others_are_worded() -> None:
    """A line that is left out is offered in the words of its neighbours."""
    lines = [
        f"{n + 1}. Rd: * {6 - n} M re, 2 M re zusstr; ab * stets wdh (= {12 * (7 - n)} M)." for n in range(6)
    ]

    answer = proofread(ProofreadRequest(cast_on=(96,), text="\n".join(lines[:2] + lines[3:]), language="de"))

    assert answer.repaired == "\n".join(lines)


DOUBLE = (
    "Abreviatura: s.d. = surjete doble (pasar 1 pt. sin tejer, 2 pts. juntos al der., montar el pt. pasado "
    "sobre el tejido); s.s. = surjete simple (pasar 1 pt. sin tejer, 1 pt. der., montar el pt. pasado)."
)


@pytest.mark.parametrize(
    ("around", "double", "wrong"),
    [
        ("{n}ª vuelta: *{k} der., {s}*, repetir de * a * ({left} p.)", "dism. doble", "2 p. juntos der."),
        (
            DOUBLE + "\n{n}ª vta.: * {k} p. der., {s} * = {left} p.",
            "1 s.d.",
            "1 s.s.",
        ),
    ],
)
def test_a_stitch_put_in_is_worded_as_in_the_rounds_beside_it(around: str, double: str, wrong: str) -> None:
    """A wrong decrease is mended with the words, and the number before them, that the pattern has for the right."""
    heading, _, line = around.rpartition("\n")
    rounds = [
        line.format(n=number, k=plain, s=double, left=left)
        for number, plain, left in ((1, 9, 80), (2, 7, 64), (3, 5, 48), (4, 3, 32))
    ]
    lines = [heading, *rounds] if heading else rounds
    faulty = [row.replace(double, wrong) if "5 " in row else row for row in lines]

    answer = proofread(ProofreadRequest(cast_on=(96,), text="\n".join(faulty), language="es"))

    assert answer.repaired == "\n".join(lines)


def test_an_edit_that_has_english_words_is_not_offered() -> None:
    """What the language has no wording for is no repair of its text."""
    text = "Mindertoer: elke 8e en 9e (8e en 9e) steek samenbreien, dat wordt 64 (72) steken."
    (finding,) = (found for found in read(text, (72, 80), "nl").findings if found.severity == "error")

    assert (finding.code, finding.size, finding.edits, finding.repair) == ("left_over", 2, (), None)


def test_an_unknown_word_is_quoted_as_it_is_printed() -> None:
    """A message that quotes the text quotes the original."""
    text = "1. Rd: * 4 M re, frmpf, 2 M re zusstr; ab * stets wdh (= 40 M)."

    answer = proofread(ProofreadRequest(cast_on=(48,), text=text, language="de"))

    assert not any("ÿ" in finding.message for finding in answer.findings)


def test_an_unknown_stitch_is_quoted_with_the_stitches_it_may_use() -> None:
    """Twelve times five and one are the 72 there are."""
    text = "72 M anschlagen.\n1. Rd: *5 M re, 1 Quöpf; ab * wdh."

    answer = proofread(ProofreadRequest(cast_on=(72,), text=text, language="de"))

    (finding,) = answer.findings
    assert "“Quöpf” is not a stitch that is known. If it uses 1 stitch and leaves 1" in finding.message


@pytest.mark.parametrize(
    ("language", "bobble"), [("de", "1 Noppe"), ("fr", "1 nope"), ("es", "1 bodoque"), ("nl", "1 nop")]
)
def test_a_bobble_is_read_in_other_languages(language: str, bobble: str) -> None:
    """It uses a stitch and leaves it."""
    texts = {
        "de": "72 M anschlagen.\n1. Rd: *5 M re, {}; ab * wdh.",
        "fr": "Monter 72 m.\nTour 1 : *5 m end, {}; rép de *.",
        "es": "Montar 72 p.\nVuelta 1: *5 p der, {}; rep desde *.",
        "nl": "Zet 72 st op.\nToer 1: *5 r, {}; herh vanaf *.",
    }
    reading = read(texts[language].format(bobble), (72,), language)

    assert not reading.findings
    assert counts(reading) == [[72]]


@pytest.mark.parametrize(
    ("tag", "answer"), [("de", "de"), ("de-AT", "de-AT"), (None, "de"), ("en-GB", "en-GB")]
)
def test_the_answer_says_the_language(tag: str | None, answer: str) -> None:
    """As it is asked for, or as it was found."""
    request = ProofreadRequest(
        cast_on=(48,), text="1. Rd: * 4 M re, 2 M re zusstr; ab * stets wdh.", language=tag
    )

    assert proofread(request).language == answer


def test_a_language_that_is_not_read_is_a_warning() -> None:
    """Klingon is read as English, and the answer says so."""
    answer = proofread(ProofreadRequest(cast_on=(48,), text="Rnd 1: knit", language="tlh"))

    assert answer.language == "en"
    assert [notice.code for notice in answer.warnings] == ["language_not_read"]
    assert len(answer.rounds[0]) == 1


LABELS = [
    ("de", "{} Rd: *{} M re, 2 M re zusstr*, von * bis * wdh ({} M)", "2. Rd und alle geraden Rd: re", ".", "."),
    ("fr", "{} tr : *{} m. end., 2 m. ens. end.*, rép. de * à * ({} m.)", "2e tr et ts les tr pairs : end.", "er", "e"),
    ("es", "{} vta.: *{} p. der., 2 p. jun. der.*, rep. de * a * ({} p.)", "2ª vta. y las vtas. pares: der.", "ª", "ª"),
    ("nl", "{} toer: *{} r, 2 r samenbr*, herh van * tot * ({} st)", "2de toer en alle even toeren: r", "ste", "de"),
    ("da", "{} omg: *{} r, 2 r sm*, gentag fra * til * ({} m)", "2. omg og alle lige omg: r", ".", "."),
    ("nb", "{} omg: *{} r, 2 r sm*, gjenta fra * til * ({} m)", "2. omg og alle like omg: r", ".", "."),
]  # fmt: skip


@pytest.mark.parametrize(("language", "line", "even", "first", "ending"), LABELS)
def test_a_line_put_in_takes_the_ordinal_of_those_beside_it(
    language: str, line: str, even: str, first: str, ending: str
) -> None:
    """`7e tr` between `5e tr` and `9e tr`, not `7er tr` as in `1er tr`; 80 stitches in eight parts."""
    lines = {
        number: line.format(f"{number}{first if number == 1 else ending}", plain, 8 * plain + 8)
        for number, plain in zip(range(1, 11, 2), range(8, 3, -1), strict=True)
    }
    text = "\n".join((lines[1], even, lines[3], lines[5], lines[9]))

    assert lines[7] in [found.repair for found in read(text, (80,), language).findings]


def test_words_of_another_language_than_that_of_the_request_are_seen() -> None:
    """A text of others is found to be in its own language, whatever the request says; in its own nothing is seen."""
    for item in TEXTS:
        own, text = item["language"], item["text"]
        unsure = recognised(text).second is not None

        assert named("fr" if own == "de" else "de", text).in_words_of == (None if unsure else own), item["id"]
        assert named(own, text).in_words_of is None, item["id"]


def test_words_of_another_language_than_that_of_the_request_are_a_warning() -> None:
    text = "1. Rd: * 7 M re, 2 M re zusstr, ab * stets wdh = 64 M"

    assert ["language_differs"] == [notice.code for notice in read(text, (72,), "fr").notices]
    assert not read(text, (72,), "de").notices


def test_hardly_any_text_leaves_its_language_unsure() -> None:
    """At most one in fifty of the texts of others has words of two languages alike.

    Counted on 2026-11-27: 10 of 755, one in 75, all of them Danish or Norwegian.
    """
    unsure = [item["id"] for item in TEXTS if recognised(item["text"]).second is not None]
    assert 50 * len(unsure) <= len(TEXTS)


@pytest.mark.parametrize(
    ("language", "text", "word"),
    [
        ("de", "Runde 1: * 6 M re, 2 M re zustr; ab * wiederholen (= 56 M)", "zustr"),
        ("fr", "Tour 1: * 6 m end, 2 m esn end; rép de * (56 m)", "esn"),
        ("es", "V 1: * 6 p der, 2 p jutnos der; rep desde * (56 p)", "jutnos"),
        ("nb", "Omg 1: * 6 r, 2 r sma; gjenta fra * (56 m)", "sma"),
        ("da", "Omg 1: * 6 r, 2 r sma; gentag fra * (56 m)", "sma"),
    ],
)
def test_together_misspelt_is_no_prose(language: str, text: str, word: str) -> None:
    """A decrease whose word for together is misspelt is not read as plain stitches."""
    finding = read(text, (64,), language).findings[0]

    assert finding.code == "unknown_word"
    assert f"“{word}”" in finding.message


@pytest.mark.parametrize("item", sorted(TEXTS, key=itemgetter("language"))[::3], ids=lambda item: item["id"])
def test_an_edit_of_the_original_leaves_the_findings_it_names(item: Any) -> None:
    """An edit, made in the original and read again, leaves the findings in `leaves`; of every third text."""
    text, cast_on, language = item["text"], tuple(item["cast_on"]), item["language"]
    edits = {
        (edit, finding.code, str(finding.message))
        for finding in read(text, cast_on, language).findings
        for edit in finding.edits
    }
    for edit, code, message in edits:
        if edit.leaves is None:
            continue
        edited = text[: edit.start.offset] + edit.replacement + text[edit.end.offset :]
        stitches = cast_on
        if code == "cast_on_differs" and len(cast_on) == 1:
            stitches = (int(edit.replacement),)
        elif counts := re.match(r"With ([0-9, ()]+) stitches cast on", message):
            stitches = tuple(map(int, re.findall("[0-9]+", counts[1])))
        left = [
            (finding.line, finding.code, finding.size)
            for finding in read(edited, stitches, language).findings
        ]

        assert left == [(finding.line, finding.code, finding.size) for finding in edit.leaves]


def test_a_count_is_checked_against_a_pattern_in_another_language() -> None:
    """The count after a round of a German pattern is what its rounds leave."""
    lines = (
        "1. Rd: * 6 M re, 2 M re zusstr, ab * wdh.",
        "2. Rd: re.",
        "3. Rd: * 5 M re, 2 M re zusstr, ab * wdh.",
    )
    pattern = WrittenPattern(cast_on=(96,), text="\n".join(lines), language="de")

    answer = check(CountRequest(pattern=pattern, count=72, round=3), read, PlainLine)

    assert [(match.round, match.stitches) for match in answer.matches] == [(3, 72)]
