"""Plain rounds before a decrease round, decrease rounds listed on every other round, counts of sizes and needles."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import counts


def _read(language: str, text: str, *cast_on: int) -> tuple[list[list[int]], list[int], list[str]]:
    """The counts and the number of rounds of each size, and the codes of the errors."""
    got = read(text, cast_on, "en-US" if language == "en" else language)
    errors = [finding.code for finding in got.findings if finding.severity == "error"]
    return (
        [counts(rounds, stitches) for rounds, stitches in zip(got.rounds, cast_on, strict=True)],
        [len(rounds) for rounds in got.rounds],
        errors,
    )


@pytest.mark.parametrize(
    ("language", "line", "rounds"),
    [
        ("en", "After another 2 rounds without decreases knit every 5th and 6th st together (40 sts).", 8),
        ("en", "After 2 plain rounds: *k4, k2tog; repeat from * (40 sts).", 8),
        ("en", "After a plain round, *k4, k2tog; repeat from * (40 sts).", 7),
        ("en", "After knitting 4 rounds *k4, k2tog; repeat from * (40 sts).", 10),
        ("de", "Nach weiteren 2 Rd ohne Abnahmen jede 5. und 6. M re zusstr = 40 M.", 8),
        ("de", "Nach 3 weiteren glatten Runden: *4 M re, 2 M re zusstr*, stets wdh (40 M).", 9),
        ("de", "Nach einer Zwischenrunde strickt ihr jede 5. und 6. M zusammen (40 M).", 7),
    ],
)
def test_plain_rounds_before_a_decrease_are_worked(language: str, line: str, rounds: int) -> None:
    head = {
        "en": "Cast on 56 sts.\nKnit 4 rounds.\n*K5, k2tog; repeat from * (48 sts).\n",
        "de": "56 M anschlagen.\n4 Rd re.\n*5 M re, 2 M re zusstr*, stets wdh (48 M).\n",
    }
    assert _read(language, head[language] + line, 56) == ([[56, 48, 40]], [rounds], [])


def test_plain_rounds_that_are_worked_already_are_not_worked_again() -> None:
    text = "Cast on 48 sts.\nKnit 4 rounds.\nAfter {} plain rounds *k4, k2tog; repeat from * (40 sts)."
    assert _read("en", text.format("4"), 48) == ([[48, 40]], [5], [])
    assert _read("en", text.format("4 more"), 48) == ([[48, 40]], [9], [])


@pytest.mark.parametrize(
    ("language", "line", "rounds"),
    [
        ("en", "On every other round *k5, k2tog*, *k4, k2tog* and *k3, k2tog* (32 sts).", 10),
        ("en", "On every 3rd round: *k5, k2tog*; *k4, k2tog*; *k3, k2tog* (32 sts).", 13),
        (
            "de",
            "Dann in jeder 2. Rd *5 M re, 2 M re zusstr*, *4 M re, 2 M re zusstr* und *3 M re, 2 M re zusstr*.",
            10,
        ),
    ],
)
def test_listed_decrease_rounds_have_plain_rounds_between(language: str, line: str, rounds: int) -> None:
    head = {
        "en": "Cast on 64 sts.\nKnit 3 rounds.\n*K6, k2tog; repeat from * (56 sts).\n",
        "de": "64 M anschlagen.\n3 Rd re.\n*6 M re, 2 M re zusstr*, stets wdh (56 M).\n",
    }
    assert _read(language, head[language] + line, 64) == ([[64, 56, 48, 40, 32]], [rounds], [])


@pytest.mark.parametrize(
    "line",
    [
        "Nun in jeder 2. Rd jede 5. und 6. M, jede 4. und 5. M und jede 3. und 4. M re zusstr = 24 M.",
        "In jeder 2. Runde erst jede 5. und 6., dann jede 4. und 5., dann jede 3. und 4. Masche zusstr (24 M).",
    ],
)
def test_every_so_many_listed_in_german(line: str) -> None:
    got, _, errors = _read("de", f"48 M anschlagen.\n3 Rd re.\n{line}", 48)
    assert (got, errors) == ([[48, 40, 32, 24]], [])


def test_a_wrong_count_behind_a_list_is_found() -> None:
    text = "Cast on 56 sts.\nKnit 3 rounds.\nOn every other round *k5, k2tog*, *k4, k2tog*, *k3, k2tog* (40 sts)."
    assert "count_differs" in _read("en", text, 56)[2]


@pytest.mark.parametrize(
    "line",
    [
        "Die Runde in 6 Abschnitte zu je 8 Maschen teilen.",
        "Teilt die Runde in 6 gleiche Teile zu 8 M ein.",
        "Die Runde wird in 6 gleich große Abschnitte geteilt.",
    ],
)
def test_a_round_in_sections_is_no_label(line: str) -> None:
    text = f"48 M anschlagen.\n8 Rd re.\n{line}\n*6 M re, 2 M re zusstr*, stets wdh (42 M)."
    assert _read("de", text, 48) == ([[48, 42]], [9], [])


@pytest.mark.parametrize(
    "line",
    [
        "Maschenanschlag: Größe S 70 M, Größe M 80 M, Größe L 90 M.",
        "Anschlag für Gr. S 70 M, für Gr. M 80 M, für Gr. L 90 M.",
        "70 M (Größe S), 80 M (Größe M) oder 90 M (Größe L) anschlagen.",
    ],
)
def test_sizes_by_letters_that_are_short_for_stitches_too(line: str) -> None:
    assert _read("de", f"{line}\n4 Rd re.", 70, 80, 90) == ([[70], [80], [90]], [4, 4, 4], [])


@pytest.mark.parametrize(
    "told", ["dann liegen auf jeder Nadel {} M", "nun habt ihr auf jeder Nadel noch {} M"]
)
def test_a_count_on_each_needle_with_the_total_behind(told: str) -> None:
    head = "64 M anschlagen, 16 M auf jeder Nadel.\n2 Rd re.\nAuf jeder Nadel die letzten 2 M re zusstr.\n1 Rd re.\n"
    text = f"{head}Diese 2 Rd noch 3x wdh, {told} ({{}} M)."
    assert _read("de", text.format(12, 48), 64)[2] == []
    assert "count_differs" in _read("de", text.format(13, 52), 64)[2]


@pytest.mark.parametrize(
    "line",
    [
        "Nun wird in jeder 2. Rd abgenommen, dabei immer 1 M weniger dazwischen. Das macht ihr, bis ihr 24 M habt.",
        "Es wird jetzt in jeder 2. Rd abgenommen, mit jeweils 1 M weniger dazwischen. Das machst du, bis du 24 M hast.",
    ],
)
def test_a_decrease_told_as_done(line: str) -> None:
    text = f"56 M anschlagen.\n3 Rd re.\n*5 M re, 2 M re zusstr*, stets wdh (48 M).\n1 Rd re.\n{line}"
    got, _, errors = _read("de", text, 56)
    assert (got, errors) == ([[56, 48, 40, 32, 24]], [])


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("en", "Cast on 70 sts for size S, 80 sts for size M and 90 sts for size L."),
        ("en", "Cast on 90 sts for size L, 80 sts for size M, or 70 sts for size S."),
        ("de", "Schlage 70 M für Größe S, 80 M für Größe M und 90 M für Größe L an."),
        ("de", "70 M für Größe S, 80 M für Größe M, 90 M für Größe L anschlagen."),
        ("de", "Größe S 70 M, Größe M 80 M und Größe L 90 M anschlagen."),
        ("fr", "Monter 70 m pour la taille S, 80 m pour la taille M, 90 m pour la taille L."),
        ("nl", "Zet 70 st op voor maat S, 80 st voor maat M en 90 st voor maat L."),
    ],
)
def test_cast_on_by_the_names_of_sizes(language: str, line: str) -> None:
    knit = {
        "en": "Knit 6 rounds.",
        "de": "6 Rd re.",
        "fr": "Tricoter 6 tours endroit.",
        "nl": "Brei 6 nld recht.",
    }
    text = f"{line}\n{knit[language]}"
    assert _read(language, text, 70, 80, 90)[2] == []
    assert _read(language, text, 70, 80, 92)[2] == ["cast_on_differs"]


@pytest.mark.parametrize(
    "line",
    [
        "Every other round: *k5, k2tog*; *k4, k2tog*; *k3, k2tog*; 32 sts.",
        "Dec on every 3rd round: (k5, k2tog), (k4, k2tog) and (k3, k2tog) (32 sts).",
    ],
)
def test_the_count_behind_a_list_is_none_of_its_rounds(line: str) -> None:
    got, _, errors = _read("en", f"Cast on 56 sts.\nKnit 3 rounds.\n{line}", 56)
    assert (got, errors) == ([[56, 48, 40, 32]], [])


def test_ordinals_after_then_are_rounds_of_a_list() -> None:
    line = "Nun strickt man in jeder 2. Tour die 6. und 7. Masche, dann die 5. und 6., dann die 4. und 5. zusammen."
    assert _read("de", f"Man schlägt 56 Maschen auf.\n3 Touren rechts.\n{line}", 56)[0] == [[56, 48, 40, 32]]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "de",
            "56 M anschlagen.\n9 Rd re.\n*5 M re, 2 M re zusstr* = 48 M.\nNach 3 Rd: *4 M re, 2 M re zusstr*.",
        ),
        (
            "nl",
            "Zet 56 st op.\nBrei 9 nld recht.\n*5 r, 2 r samen* (48 st).\nNa 3 nld recht *4 r, 2 r samen* (40 st).",
        ),
        (
            "nb",
            "Legg opp 56 m.\n9 omg rett.\n*5 r, 2 r sm* (48 m).\nEtter 3 omg uten felling *4 r, 2 r sm* (40 m).",
        ),
        (
            "da",
            "Slå 56 m op.\n9 omg ret.\n*5 r, 2 r sm* (48 m).\nEfter 3 omg uden indtagning *4 r, 2 r sm* (40 m).",
        ),
    ],
)
def test_plain_rounds_before_a_decrease_in_other_languages(language: str, text: str) -> None:
    assert _read(language, text, 56) == ([[56, 48, 40]], [14], [])
