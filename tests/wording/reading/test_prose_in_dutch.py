"""Prose in Dutch: crowns told in full sentences, by teachers, in blogs and in old books.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round

TEXTS = [
    (
        (
            "*9 r, 2 r sam*. Brei 1 toer recht. *8 r, 2 r sam*.\n"
            "Verder minder je elke toer 8 steken, tot er 16 steken over zijn."
        ),
        88,
        [80, 80, 72, 64, 56, 48, 40, 32, 24, 16],
    ),
    (
        (
            "*9 r, 2 r sam*. Brei 1 toer recht. *8 r, 2 r sam*.\n"
            "Vanaf nu minder je in elke toer 8 steken, tot er nog 16 steken over zijn."
        ),
        88,
        [80, 80, 72, 64, 56, 48, 40, 32, 24, 16],
    ),
    (
        ("Toer 1: *2 r, 2 av; herhaal vanaf *, eindig met 2 r."),
        86,
        [86],
    ),
    (
        (
            "Je hebt 88 steken. Hang om de 11 steken een markeerder.\n"
            "Brei tot 2 steken voor de markeerder, brei 2 steken recht samen en haal de markeerder over. Doe "
            "hetzelfde bij alle 8 markeerders. Nu zijn er acht steken weg en heb je er nog 80.\n"
            "Brei een toer recht. Deze twee toeren brei je in totaal drie keer.\n"
            "Minder daarna in elke toer tot je 8 steken over hebt."
        ),
        88,
        [80, 80, 72, 72, 64, 64, 56, 48, 40, 32, 24, 16, 8],
    ),
    (
        (
            "Nu beginnen we aan de kroon. Er staan 96 steken op de naald. Verdeel ze met markeerders in acht "
            "vakken van 12 steken.\n"
            "In de eerste minderronde brei je in elk vak de laatste twee steken recht samen. Er zijn nu acht "
            "steken af en je houdt er 88 over.\n"
            "De ronde daarna brei je gewoon zonder te minderen.\n"
            "Deze twee rondes brei je in totaal vijf keer, tot je 56 steken hebt.\n"
            "De tussenronde laat je vanaf nu weg: je mindert dus elke ronde, tot er nog 8 steken op de naald "
            "staan."
        ),
        96,
        [88, 88, 80, 80, 72, 72, 64, 64, 56, 56, 48, 40, 32, 24, 16, 8],
    ),
    (
        (
            "Voor de bovenkant brei je steeds 8 steken recht en dan 2 steken recht samen, de hele toer rond. "
            "Dan heb je 72 steken.\n"
            "Brei nu een toer zonder minderingen.\n"
            "In de volgende toer brei je steeds 7 steken recht en 2 steken recht samen (64 steken). Weer een "
            "toer zonder minderingen.\n"
            "Zo ga je door, met telkens een steek minder tussen de minderingen, tot je 56 steken hebt, en "
            "brei nog een toer recht.\n"
            "Daarna minder je elke toer, tot je nog 8 steken over hebt."
        ),
        80,
        [72, 72, 64, 64, 56, 56, 48, 40, 32, 24, 16, 8],
    ),
    (
        (
            "Plaats om de 16 steken een markeerder.\n"
            "Mindertoer: brei tot 2 steken voor de markeerder, brei 2 steken recht samen. Doe dit bij elke "
            "markeerder. Zo verlies je 6 steken per toer.\n"
            "Brei afwisselend een toer met minderingen en een toer zonder, vier keer in totaal. Je hebt dan "
            "nog 72 steken."
        ),
        96,
        [90, 90, 84, 84, 78, 78, 72, 72],
    ),
    (
        (
            "Verdeel de steken in 9 groepjes van 10.\n"
            "Van elk groepje brei je de laatste twee steken samen: je hebt nu 81 steken.\n"
            "De volgende toer brei je recht.\n"
            "Wissel deze twee toeren af tot je 63 steken hebt, en eindig met een toer recht.\n"
            "Minder nu in elke toer negen steken tot er nog maar negen over zijn."
        ),
        90,
        [81, 81, 72, 72, 63, 63, 54, 45, 36, 27, 18, 9],
    ),
    (
        (
            "Brei de volgende ronde: 7 steken recht, 2 steken recht samen, en dat acht keer. Je hebt nu 64 "
            "steken.\n"
            "Minder nog een keer, zodat er 56 steken overblijven.\n"
            "Brei een ronde recht en minder dan opnieuw: 48 steken.\n"
            "Brei nog een ronde recht, minder nog een laatste keer en je hebt 40 steken."
        ),
        72,
        [64, 56, 56, 48, 48, 40],
    ),
    (
        (
            "Je werk is nu hoog genoeg en we gaan minderen. Tel je steken: het zijn er 96.\n"
            "Verdeel ze met acht markeerders in stukjes van 12 steken.\n"
            "Brei tot er nog twee steken voor de markeerder zijn, brei die twee samen en schuif de "
            "markeerder door. Dat doe je acht keer in deze ronde, dus aan het eind heb je 88 steken.\n"
            "Daarna brei je een ronde waarin niets gebeurt.\n"
            "Herhaal deze twee rondes tot er 72 steken over zijn en je net een gewone ronde gebreid hebt.\n"
            "Vanaf dan sla je de gewone ronde over en minder je elke ronde, tot je 48 steken hebt."
        ),
        96,
        [88, 88, 80, 80, 72, 72, 64, 56, 48],
    ),
    (
        (
            "Verdeel de 80 steken in tien gelijke delen en hang tussen elk deel een markeerder.\n"
            "Ronde 1: brei in elk deel de laatste 2 steken samen. Er gaan dus 10 steken af: 70 steken.\n"
            "Ronde 2: brei alle steken.\n"
            "Brei ronde 1 en 2 nog twee keer; je hebt dan 50 steken.\n"
            "Brei daarna alleen nog maar ronde 1, tot je 10 steken over hebt."
        ),
        80,
        [70, 70, 60, 60, 50, 50, 40, 30, 20, 10],
    ),
    (
        (
            "Eerste mindering: brei telkens 7 steken recht en 2 steken samen, de hele toer rond. Er blijven "
            "80 steken over. Brei dan twee toeren zonder minderen.\n"
            "Tweede mindering: brei telkens 6 steken recht en 2 steken samen (70 steken), gevolgd door twee "
            "toeren recht.\n"
            "Derde mindering: brei telkens 5 steken recht en 2 samen (60 steken), en weer twee toeren recht.\n"
            "Minder daarna om de toer op dezelfde manier, tot er 40 steken zijn en brei nog een toer recht.\n"
            "Ten slotte minder je iedere toer, tot er nog maar 10 steken op de naalden staan."
        ),
        90,
        [80, 80, 80, 70, 70, 70, 60, 60, 60, 50, 50, 40, 40, 30, 20, 10],
    ),
    (
        (
            "Men mindert nu als volgt: 4 steken recht, 2 steken samen, en zoo de geheele toer rond. Men "
            "houdt 60 steken over.\n"
            "De volgende toer breit men recht.\n"
            "Vervolgens 3 recht, 2 samen, den geheelen toer; de daarop volgende toer recht.\n"
            "Daarna 2 recht, 2 samen; weder een toer recht.\n"
            "Dan 1 recht, 2 samen, en ten slotte een toer waarin men alle steken twee aan twee samenbreit, "
            "zoodat er 12 steken overblijven."
        ),
        72,
        [60, 60, 48, 48, 36, 36, 24, 12],
    ),
    (
        (
            "De kroon: zet na elke tiende steek een markeerder. Je hebt tien vakken.\n"
            "Brei in de minderronde de twee steken voor elke markeerder samen; dat scheelt tien steken per "
            "ronde.\n"
            "Brei na elke minderronde een ronde zonder minderen.\n"
            "Doe dit vier keer, dan heb je nog 60 steken.\n"
            "Vanaf nu komt er geen gewone ronde meer tussen. Minder vijf rondes achter elkaar en je hebt 10 "
            "steken over."
        ),
        100,
        [90, 90, 80, 80, 70, 70, 60, 60, 50, 40, 30, 20, 10],
    ),
    (
        (
            "We beginnen met 64 steken en 8 vakjes van 8 steken.\n"
            "In de eerste ronde minder je in ieder vakje één steek door de laatste twee steken samen te "
            "breien.\n"
            "De tweede ronde brei je alle steken gewoon recht.\n"
            "Deze twee rondes doe je drie keer, zodat je 40 steken overhoudt.\n"
            "Hierna minder je in elke ronde, nog vier keer. Je hebt dan 8 steken over."
        ),
        64,
        [56, 56, 48, 48, 40, 40, 32, 24, 16, 8],
    ),
    (
        (
            "Mindertoer: *9 r, 2 r sam*, herhaal van * tot * = 80 st. Brei 1 toer r.\n"
            "Bij elke volgende mindertoer brei je een steek minder voor het samenbreien.\n"
            "Minder nog 3 keer, met steeds een toer recht ertussen = 56 st. Brei 1 toer r."
        ),
        88,
        [80, 80, 72, 72, 64, 64, 56, 56],
    ),
]


@pytest.mark.parametrize(("text", "cast_on", "after"), TEXTS)
def test_crowns_in_sentences(text: str, cast_on: int, after: list[int]) -> None:
    """The round, its repetition, its count and how it goes on stand in sentences of their own."""
    reading = read(text, (cast_on,), "nl")

    assert not [finding for finding in reading.findings if finding.severity == "error"]
    assert after_each_round(reading) == after
