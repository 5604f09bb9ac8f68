"""Prose in Dutch: crowns told in full sentences, by teachers, in blogs and in old books.

The counts are worked by hand.
"""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, faults, told_crowns

TEXTS = told_crowns(
    """
    88: 80 80 72 64 56 48 40 32 24 16
    *9 r, 2 r sam*. Brei 1 toer recht. *8 r, 2 r sam*.
    Verder minder je elke toer 8 steken, tot er 16 steken over zijn.

    88: 80 80 72 64 56 48 40 32 24 16
    *9 r, 2 r sam*. Brei 1 toer recht. *8 r, 2 r sam*.
    Vanaf nu minder je in elke toer 8 steken, tot er nog 16 steken over zijn.

    86: 86
    Toer 1: *2 r, 2 av; herhaal vanaf *, eindig met 2 r.

    88: 80 80 72 72 64 64 56 48 40 32 24 16 8
    Je hebt 88 steken. Hang om de 11 steken een markeerder.
    Brei tot 2 steken voor de markeerder, brei 2 steken recht samen en haal de markeerder over. Doe hetzelfde
      bij alle 8 markeerders. Nu zijn er acht steken weg en heb je er nog 80.
    Brei een toer recht. Deze twee toeren brei je in totaal drie keer.
    Minder daarna in elke toer tot je 8 steken over hebt.

    96: 88 88 80 80 72 72 64 64 56 56 48 40 32 24 16 8
    Nu beginnen we aan de kroon. Er staan 96 steken op de naald. Verdeel ze met markeerders in acht vakken van
      12 steken.
    In de eerste minderronde brei je in elk vak de laatste twee steken recht samen. Er zijn nu acht steken af en
      je houdt er 88 over.
    De ronde daarna brei je gewoon zonder te minderen.
    Deze twee rondes brei je in totaal vijf keer, tot je 56 steken hebt.
    De tussenronde laat je vanaf nu weg: je mindert dus elke ronde, tot er nog 8 steken op de naald staan.

    80: 72 72 64 64 56 56 48 40 32 24 16 8
    Voor de bovenkant brei je steeds 8 steken recht en dan 2 steken recht samen, de hele toer rond. Dan heb je
      72 steken.
    Brei nu een toer zonder minderingen.
    In de volgende toer brei je steeds 7 steken recht en 2 steken recht samen (64 steken). Weer een toer zonder
      minderingen.
    Zo ga je door, met telkens een steek minder tussen de minderingen, tot je 56 steken hebt, en brei nog een
      toer recht.
    Daarna minder je elke toer, tot je nog 8 steken over hebt.

    96: 90 90 84 84 78 78 72 72
    Plaats om de 16 steken een markeerder.
    Mindertoer: brei tot 2 steken voor de markeerder, brei 2 steken recht samen. Doe dit bij elke markeerder. Zo
      verlies je 6 steken per toer.
    Brei afwisselend een toer met minderingen en een toer zonder, vier keer in totaal. Je hebt dan nog 72
      steken.

    90: 81 81 72 72 63 63 54 45 36 27 18 9
    Verdeel de steken in 9 groepjes van 10.
    Van elk groepje brei je de laatste twee steken samen: je hebt nu 81 steken.
    De volgende toer brei je recht.
    Wissel deze twee toeren af tot je 63 steken hebt, en eindig met een toer recht.
    Minder nu in elke toer negen steken tot er nog maar negen over zijn.

    72: 64 56 56 48 48 40
    Brei de volgende ronde: 7 steken recht, 2 steken recht samen, en dat acht keer. Je hebt nu 64 steken.
    Minder nog een keer, zodat er 56 steken overblijven.
    Brei een ronde recht en minder dan opnieuw: 48 steken.
    Brei nog een ronde recht, minder nog een laatste keer en je hebt 40 steken.

    96: 88 88 80 80 72 72 64 56 48
    Je werk is nu hoog genoeg en we gaan minderen. Tel je steken: het zijn er 96.
    Verdeel ze met acht markeerders in stukjes van 12 steken.
    Brei tot er nog twee steken voor de markeerder zijn, brei die twee samen en schuif de markeerder door. Dat
      doe je acht keer in deze ronde, dus aan het eind heb je 88 steken.
    Daarna brei je een ronde waarin niets gebeurt.
    Herhaal deze twee rondes tot er 72 steken over zijn en je net een gewone ronde gebreid hebt.
    Vanaf dan sla je de gewone ronde over en minder je elke ronde, tot je 48 steken hebt.

    80: 70 70 60 60 50 50 40 30 20 10
    Verdeel de 80 steken in tien gelijke delen en hang tussen elk deel een markeerder.
    Ronde 1: brei in elk deel de laatste 2 steken samen. Er gaan dus 10 steken af: 70 steken.
    Ronde 2: brei alle steken.
    Brei ronde 1 en 2 nog twee keer; je hebt dan 50 steken.
    Brei daarna alleen nog maar ronde 1, tot je 10 steken over hebt.

    90: 80 80 80 70 70 70 60 60 60 50 50 40 40 30 20 10
    Eerste mindering: brei telkens 7 steken recht en 2 steken samen, de hele toer rond. Er blijven 80 steken
      over. Brei dan twee toeren zonder minderen.
    Tweede mindering: brei telkens 6 steken recht en 2 steken samen (70 steken), gevolgd door twee toeren recht.
    Derde mindering: brei telkens 5 steken recht en 2 samen (60 steken), en weer twee toeren recht.
    Minder daarna om de toer op dezelfde manier, tot er 40 steken zijn en brei nog een toer recht.
    Ten slotte minder je iedere toer, tot er nog maar 10 steken op de naalden staan.

    72: 60 60 48 48 36 36 24 12
    Men mindert nu als volgt: 4 steken recht, 2 steken samen, en zoo de geheele toer rond. Men houdt 60 steken
      over.
    De volgende toer breit men recht.
    Vervolgens 3 recht, 2 samen, den geheelen toer; de daarop volgende toer recht.
    Daarna 2 recht, 2 samen; weder een toer recht.
    Dan 1 recht, 2 samen, en ten slotte een toer waarin men alle steken twee aan twee samenbreit, zoodat er 12
      steken overblijven.

    100: 90 90 80 80 70 70 60 60 50 40 30 20 10
    De kroon: zet na elke tiende steek een markeerder. Je hebt tien vakken.
    Brei in de minderronde de twee steken voor elke markeerder samen; dat scheelt tien steken per ronde.
    Brei na elke minderronde een ronde zonder minderen.
    Doe dit vier keer, dan heb je nog 60 steken.
    Vanaf nu komt er geen gewone ronde meer tussen. Minder vijf rondes achter elkaar en je hebt 10 steken over.

    64: 56 56 48 48 40 40 32 24 16 8
    We beginnen met 64 steken en 8 vakjes van 8 steken.
    In de eerste ronde minder je in ieder vakje één steek door de laatste twee steken samen te breien.
    De tweede ronde brei je alle steken gewoon recht.
    Deze twee rondes doe je drie keer, zodat je 40 steken overhoudt.
    Hierna minder je in elke ronde, nog vier keer. Je hebt dan 8 steken over.

    88: 80 80 72 72 64 64 56 56
    Mindertoer: *9 r, 2 r sam*, herhaal van * tot * = 80 st. Brei 1 toer r.
    Bij elke volgende mindertoer brei je een steek minder voor het samenbreien.
    Minder nog 3 keer, met steeds een toer recht ertussen = 56 st. Brei 1 toer r.

    96: 88 88 88 80 80 80 72 64 56
    We gaan het mutsje nu dichtmaken. Er zitten 96 steken op de naald, dat zijn acht groepjes van twaalf.
    Van ieder groepje brei je de eerste tien steken gewoon recht en de laatste twee samen. Zo ben je in één
      ronde acht steken kwijt en heb je er nog 88.
    Daarna mag je twee rondes uitrusten: gewoon recht breien dus.
    Dan brei je negen steken recht en twee samen (80 steken) en weer twee rondes recht.
    Vanaf hier minder je in iedere ronde, steeds met een steek minder ertussen, tot er 56 steken zijn.

    80: 72 72 64 64 56 56 48 48 40 32 24 16 8
    De minderronde gaat zo: brei tot twee steken voor de markeerder, brei twee steken samen, zet de markeerder
      over. Doe bij de andere zeven markeerders hetzelfde. Er staan nu nog 72 steken op de naald.
    Brei een gewone ronde.
    Deze twee rondes samen doe je vier keer in totaal (48 steken).
    De gewone ronde laat je daarna achterwege: brei nog vijf minderrondes.

    72: 66 66 60 60 54 54 48 48 42 36 30 24 18 12 6
    Het breiwerk verdeelt men in zes gelijke deelen van 12 steken.
    In den eersten toer breit men aan het einde van elk deel 2 steken samen; er blijven dan 66 steken over.
    De tweede toer wordt zonder minderen gebreid.
    Deze twee toeren herhaalt men, tot er 48 steken over zijn; na de laatste mindering breit men nog een toer
      zonder minderen.
    Voortaan mindert men in elken toer, totdat er nog 6 steken resten.

    84: 77 77 77 70 70 63 63 56 49 42 35 28 21 14 7
    Stap 1: *10 recht, 2 samen*, zeven keer (77 steken).
    Stap 2: brei twee rondes recht.
    Stap 3: *9 recht, 2 samen*, zeven keer (70 steken), en één ronde recht.
    Stap 4: *8 recht, 2 samen*, zeven keer (63 steken), en één ronde recht.
    Stap 5: nu elke ronde minderen, telkens een steek minder voor het samenbreien, tot er zeven steken
      overblijven.

    90: 80 80 70 70 60 60 50 40 30 20 10
    Zet om de negen steken een markeerder; in totaal tien markeerders.
    Bij elke markeerder brei je de twee steken ervoor samen. Je raakt zo tien steken per ronde kwijt (80 over).
    De volgende ronde doe je niets bijzonders: alles recht.
    Herhaal deze twee rondes nog twee keer: 60 steken.
    Daarna sla je de rechte ronde over en minder je in elke ronde tot er tien steken over zijn.

    60: 54 54 48 48 42 42 36 30 24 18 12 6
    Brei 8 steken, brei de volgende 2 steken samen, en ga zo door tot het einde van de ronde: er zijn nu 54
      steken.
    Brei een ronde zonder te minderen.
    Brei 7 steken, brei de volgende 2 steken samen, en ga zo door tot het einde van de ronde: 48 steken.
    Brei weer een ronde zonder te minderen.
    Minder in de volgende ronde op dezelfde manier, met 6 steken ertussen (42 steken), en brei nog één ronde
      zonder te minderen.
    Minder vanaf nu elke ronde, met steeds één steek minder ertussen, tot er 6 steken over zijn.

    100: 90 90 80 80 70 70 60 50 40 30 20 10
    Deel de steken door tien: je krijgt vakken van tien steken.
    Minder in elk vak één steek, door de laatste twee steken recht samen te breien (90 steken).
    Brei een ronde zonder minderingen. Doe dit nog twee keer, dan heb je 70 steken.
    Minder nu zesmaal achter elkaar zonder tussenronde, tot er tien steken overblijven.

    72: 63 63 54 54 45 45 36 27 18 9
    Plaats negen markeerders, steeds na acht steken.
    Brei in elk vakje tot er nog 2 steken over zijn en brei die samen: er vallen negen steken af en er blijven
      er 63.
    Brei hierna een toer recht.
    Zo ga je verder: een toer met minderingen, een toer zonder, tot je 45 steken hebt.
    Brei nog een toer zonder en minder daarna in elke toer, tot je 9 steken hebt.

    96: 84 84 72 72 60 60 48 36 24 12
    Er wordt op zes plaatsen aan weerszijden geminderd, dus per minderronde verdwijnen er twaalf steken.
    Hang hiervoor na elke 16 steken een markeerder.
    Minderronde: *1 recht, overhaling, recht tot 3 steken voor de markeerder, 2 recht samen, 1 recht*, dit in
      totaal zes keer (84 steken).
    De ronde erna brei je recht.
    Brei beide rondes nog tweemaal, dan resten er 60 steken.
    Brei ten slotte vier minderrondes achtereen: 12 steken.

    # the double decrease explained before the rounds, and a round of plain stitches but for some
    96: 84 84 72
    Minder 6 x per toer met een dubbele overhaling (1 st r afhalen, 2 st r samenbreien, afgehaalde st
      overhalen):
    Toer 1: (13 r, dubbele overhaling) x 6 = 84 st
    Toer 2: recht
    Toer 3: (11 r, dubbele overhaling) x 6 = 72 st

    96: 90
    Minder in elke toer 6 x door een overhaling:
    Toer 1: (14 r, overhaling) x 6 = 90 st

    25: 24 12
    1e toer: recht, minder daarbij 1 st; 24 steken.
    2e toer: steeds 2 r samenbreien; 12 steken.

    26: 24
    1e toer: recht, waarbij je 2 st mindert (24 steken).

    25: 24
    1e toer: alles recht, daarbij 1 st minderen: 24 steken.

    25: 24
    1e toer: 12 r, minder daarbij 1 st, 11 r; 24 steken.

    # decreases as labels of rounds, the needle by its number, and short forms of two together
    54: 54 54 48 48 42 36
    Zet 54 steken op naald 9 en sluit tot een rondje.
    Brei 2 toeren recht.
    Minderen 1: 7 recht, 2 samen, herhalen (48 steken)
    1 toer recht
    Minderen 2: 6 recht, 2 samen, herhalen (42 steken)
    Minderen 3: 5 recht, 2 samen, herhalen (36 steken)

    54: 48 48 48 42
    Mindering 1: 7 recht, 2 samen, herhalen (48 steken)
    2 toeren recht
    Mindering 2: 6 recht, 2 samen, herhalen (42 steken)

    81: 72 72 63
    Toer 1: *7r, 2rsm* herhaal tot eind (72 st)
    Toer 2: r
    Toer 3: *6r, 2 rsam* herhaal tot eind (63 st)

    # from star to star so many times, and a pair of rounds that ends in its middle
    80: 70 60 50
    *6 st r, 2 st r samenbreien*, * tot * in totaal 10 x = 70 st.
    *5 st r, 2 st r samenbreien*, * tot * nog 9 x = 60 st.
    *4 st r, 2 st r samenbreien*, van * tot * 10 x breien = 50 st.

    88: 80 80 72 72 64 56 48
    Mindertoer: brei recht tot 2 st voor de markeerder, 2 r samen, herhaal bij alle 8 markeerders.
    Brei 1 toer recht.
    Herhaal deze 2 toeren tot er na een mindertoer 64 st over zijn.
    Brei de mindertoer elke toer tot er 48 st over zijn.

    88: 80 80 72 72 64 64
    Mindertoer: brei recht tot 2 st voor de markeerder, 2 r samen, herhaal bij alle 8 markeerders.
    Brei 1 toer recht.
    Herhaal deze 2 toeren tot je 64 st hebt.

    # markers placed and slipped are `pm` and `vm`, rounds `T`; a single round of decreases is so many rounds on
    64: 64 56 56 48 48
    Toer 1: *8 r, pm; herh vanaf * tot einde toer.
    Toer 2: *r tot 2 st voor de markeerder, 2rs, vm; herh vanaf * tot einde toer. 56 st
    Toer 3: r
    Herh toer 2 en 3 nog 1 keer. 48 st

    64: 64 56 56 48 40 32
    *8 r, pm; herh vanaf * tot einde toer.
    Mindertoer: *r tot 2 st voor m, 2rs, vm; herh vanaf * tot einde toer.
    Volgende toer: r.
    Brei de mindertoer nu nog 3 keer zonder tussentoer. Er staan nu 32 st op de naald.

    64: 56 56 48 48 40
    T1: *6 r, 2rs; herhaal vanaf * tot einde toer
    T2 en alle even toeren: alle st r
    T3: *5 r, 2rs; herhaal vanaf * tot einde toer
    T5: *4 r, 2rs; herhaal vanaf * tot einde toer

    84: 72 72 72 72 60 60 48 48 36 36 24
    Brei in de volg. toer * 11 st r, 1 dubb. mind., vanaf * nog 5x herh. = 72 st.
    Herhaal deze minderingen boven elkaar, met telkens 2 st minder ertussen: 1x in de 4e toer hierna (= 60 st)
      en dan nog 3x in elke 2e toer (= 24 st).

    90: 81 81 72 72 63 63 54
    Toer 1: *8 r, 2 r sam* (81 st).
    Brei 1 toer recht.
    Zo ga je door: om de andere toer minder je 9 steken, en elke keer zit er één steek minder tussen de
      minderingen. Ga door tot je 54 steken over hebt.

    # rounds that follow in one sentence, and the decrease round worked again with a plain round behind it
    64: 64 64 64 56 56 56 48
    1e t/m 3e nld: r.
    4e nld: *6 r, 2 samenbr.*
    5e t/m 6e trn.: r.
    7e trn.: *5 r, 2 samenbr.* = 48 st.

    80: 72 72 54 36 18
    Brei 8 steken recht, dan 2 samen, en ga zo door tot je rond bent (72 steken), en de laatste gewone toer.
    Vanaf nu minder je in iedere toer: eerst met 2 steken ertussen, dan met 1 steek ertussen, en dan brei je
      alles twee aan twee samen. Nu nog 18 steken.

    72: 64 56 56 56 48 48
    Men breit 7 steken, mindert 1 steek door er twee samen te breien, en vervolgt aldus de gehele toer; er
      blijven 64 steken.
    Men breit 6 steken, mindert 1, en zo voort, waarna men 2 toeren zonder minderen breit.
    Dan 5 steken, 1 mindering, gevolgd door een enkele toer. Elke naald telt nu 12 steken.

    78: 72 66 66 60 60 54
    De 78 st zijn zes punten van 13. Zo krijg je een mooie ster.
    Minderingstoer – brei bij elke punt recht tot de laatste 2 st en maak daar 1 overhaling.
    Brei de minderingstoer [72 st]. Brei vervolgens 2 keer de minderingstoer met 1 toer recht erachteraan [60
      st].
    Nog een laatste minderingstoer en je houdt 54 st over.

    84: 84 84 84 84 72
    Brei 4 toeren recht. Ik gebruikte 2 bollen, zo valt een kleurverschil niet op.
    Toer 5: *5 r, 2 samen*

    # what is worked in every rib or on every needle, and where a crown goes on by another rhythm
    96: 80 64
    Er zijn 96 st, dat zijn 16 ribbels. De toer begint met 4 recht.
    1e mindertoer: in iedere ribbel 3 recht, de laatste rechte st met de eerste averechte recht samen, 1
      averecht. Nog 80 st, vanaf hier alles recht.
    2e mindertoer: 3 recht, 2 samen. Nog 64 st.

    90: 81 81 72 72 63 54 45
    Toer 1: Brei 8 steken recht en steek daarna je naald door twee steken tegelijk, die je als één steek breit.
      Dat doe je de hele toer door.
    Toer 2: r.
    Minder zo in elke 2e toer 9 steken, met steeds 1 steek minder tussen de minderingen. Zodra je nog 63 steken
      hebt, minder je in elke toer. Na twee van die toeren zijn er nog 45 steken over.

    40: 32 32 32 24 24 24 16 8
    Men zet 40 steken op en verdeelt ze over vier naalden, zodat op iedere naald 10 steken komen.
    Voor het minderen breit men van iedere naald de eerste twee steken en de laatste twee steken recht samen;
      per toer vervallen dus 8 steken.
    Na de eerste mindertoer (32 steken) volgen 2 toeren zonder minderen, na de tweede (24 steken) wederom 2.
    Vervolgens mindert men in elke toer, tot op iedere naald nog slechts 2 steken staan.

    56: 48
    5e toer: brei op elk van de 4 naalden de eerste 2 st. r. samen en de laatste 2 st. r. samen.

    70: 64 56 56 48 48 40 40 32
    Toer 1: recht, maar brei ergens in de toer 6 keer 2 steken samen, netjes verdeeld. Dan heb je 64 steken, en
      dat deelt mooi door 8.
    Toer 2: steeds 6 recht en 2 samen, er blijven 56 steken.
    Toer 3: recht.
    Brei zo verder, met in elke even toer 8 minderingen en in elke oneven toer alleen recht. Na toer 8 staan er
      32 steken op de naalden.

    # where markers and decreases go, and where a crown or a part of it ends, in the order of Dutch words
    80: 80 72
    Plaats in de volgende toer na elke 10 steken een markeerder.
    Mindertoer: *brei r tot 2 st voor de markeerder, 2 r sm; herhaal vanaf * tot het eind. (72 st)

    48: 40 40 32 32 24 24 12
    1e toer: brei van elke naald 1 st r, 1 enkele overhaling, brei r tot er nog 3 st over zijn, 2 st r samenbr.,
      1 st r (40 st over).
    2e toer: brei alle st r.
    Herhaal deze 2 toeren tot je na een 1e toer nog 6 st per naald overhoudt (24 st).
    Brei 1 toer r.
    Brei 1 toer waarin steeds 2 st r samengebreid worden (12 st).

    70: 60 50 40 30 20
    Brei 5 steken recht en brei dan 2 steken tegelijk recht. Dat herhaal je tot het einde van de ronde, en dan
      heb je nog 60 steken.
    Brei 4 steken recht en dan 2 steken tegelijk recht. Dat herhaal je tot het eind van de ronde, zodat je 50
      steken overhoudt.
    Daarna minder je elke ronde op dezelfde manier door: 40 steken, 30 steken en tot slot 20 steken.

    80: 72 72 64 64 56
    Op elke naald breit men 1 recht, 1 overhaling, recht tot er nog 3 steken op de naald staan, 2 samen, 1
      recht. Men mindert dus 8 steken en houdt er 72.
    Men mindert aldus om de andere toer, tot er 56 steken over zijn.

    60: 54 48 42 36 30 24
    Verdeel de st in 6 delen van 10 st.
    Minder in de volg nld aan het eind van elk deel 1 st door de laatste 2 st r samen te breien. Er blijven 54
      st over.
    Minder daarna 3 x in elke nld 6 st = 36 st.
    Minder dan nog 2 x in elke toer 6 st = 24 st.

    48: 40 40 32 32 24 16 8
    Verdeel de 48 st in vier vakken van 12 st en hang een markeerder aan de 6e st van elk vak.
    CDD: haal 2 st samen recht af, 1 r, haal de 2 afgehaalde st over (2 st geminderd)
    Ronde 1: *brei in boordsteek tot 1 st voor de gemarkeerde st, CDD, brei in boordsteek tot het einde van het
      vak; herhaal vanaf * – 40 st
    Ronde 2: brei alle steken zoals ze zich voordoen
    Brei ronde 1 en 2 nog 1 keer.
    Brei daarna nog drie keer alleen ronde 1: 24, 16 en 8 st.

    # rhythms, sections and both sides of markers, in full sentences
    # odd and even rounds, and a pair of rounds so many times
    80: 72 72 64 64 56
    *8 st r, 2 st r samenbr*, herhaal van * tot * = 72 st. 1 toer r.
    Ga zo door: minder in elke oneven rnd 8 st en brei de even rnds recht, tot er nog 56 st zijn.

    80: 72 72 64 64 56 56
    *8 r, 2 samen* = 72 st.
    Brei 1 toer recht.
    Brei nu 2x: 1 minderrnd en 1 rnd r. Er zijn nog 56 st.

    80: 72 72 64 64 56 56 48 40
    * 8 st r, 2 st r samenbr *, van * tot * 8 x = 72 st. Brei 1 toer zonder minderen.
    Herhaal deze minderingen boven elkaar nog 2 x in elke 2e toer = 56 st, en na 1 toer zonder minderen nog 2 x
      in elke toer = 40 st.

    # sections
    80: 72 72 64 64
    In de eerste toer brei je van ieder partje 8 steken gewoon recht en de laatste 2 steken recht samen. Aan het
      eind van de toer heb je dus 8 steken minder: 72.
    In de tweede toer hoef je niets te minderen, je breit alles recht.
    Deze twee toeren doe je daarna nog een keer. Denk erom dat er in ieder partje telkens een steek minder zit
      vóór het samenbreien. Je hebt nu 64 steken.

    # the stitches before a decrease, told in short
    80: 72 64 56 48 40 32 24 16
    Minderronde: brei 8 steken, brei er 2 samen, en herhaal dit tot je rond bent. Je houdt 72 steken over.
    Minderronde: nu met 7 steken voor de mindering (64 steken).
    Minderronde: met 6 steken (56 steken).
    Daarna brei je alleen nog minderrondes, zonder rechte rondes ertussen: met 5, 4, 3, 2 en 1 steek voor de
      mindering.

    80: 72
    Brei steeds 8 steken en dan 2 samen. Dat zijn 8 minderingen, je hebt nog 72 steken.

    # every needle, and both sides of every marker
    80: 72
    Men heeft 80 steken, verdeeld over 4 naalden van 20 steken. Men breit nu 8 steken recht, 2 steken samen,
      nogmaals 8 recht, 2 samen, en doet dit op iedere naald; er zijn dan 72 steken.

    80: 72 72 64 64 56 48 40
    Verdeel de steken in 4 gelijke delen en plaats bij elke overgang een markeerring.
    Minder in de volgende toer aan weerszijden van elke ring als volgt: na de ring 1 overhaling (1 st recht
      afhalen, 1 st r, de afgehaalde st overhalen), recht breien tot 2 st voor de volgende ring, 2 st recht
      samenbreien. Na deze toer zijn er 72 steken.
    Brei de toer erna zonder minderingen.
    Herhaal deze 2 toeren nog 1x, tot er 64 steken zijn.
    Minder nu op dezelfde wijze in 3 opeenvolgende toeren. Er zijn nog 40 steken.

    # in the abbreviations of printed patterns
    80: 72 72 64 64 56 48 40
    Plaats na elke 10 st een mrk (8 mrks). * Brei r tot 2 st voor de mrk, 2 r sam *, herh. van * tot * (= 72
      st). Herh. deze mind. elke 2e nld nog 2 x (= 56 st), daarna elke nld 2 x (= 40 st).

    80: 72 72 64 64 56
    Verdeel 8 SM over de toer met 10 st ertussen. Minder bij elke SM: brei de laatste 2 st voor de SM r samen.
      Herh. dit elke 2e toer tot er 56 st zijn.

    80: 72 72 64 64 56
    Verdeel het werk in 8 delen van 10 steken.
    Minder in de volgende toer in elk deel de laatste 2 steken: 2 steken recht samenbreien. Er blijven 72 steken
      over.
    Herhaal dit in elke 2e toer nog 2x: 56 steken.

    # what is worked in the passive voice, and at the end of every section and before every marker
    80: 72 72 64 64 56 56
    Hang een markeerder na elke tiende steek, acht in totaal. In de volgende toer worden de twee steken vlak
      voor elke markeerder samengebreid (72 steken). De volgende toer wordt zonder minderingen gebreid. Deze
      twee toeren worden herhaald tot er 56 steken zijn.

    80: 72 72 64 64 56 48 40
    Verdeel de steken in 8 gelijke porties. In elke portie worden de laatste twee steken samengebreid, om de
      andere toer, tot er 7 steken in elke portie zijn (56 steken), en daarna in elke toer, tot er 5 steken in
      elke portie zijn (40 steken).

    80: 72 72 64
    In de eerste mindertoer brei je elke 9e en 10e steek recht samen. Brei 1 toer recht. In de tweede mindertoer
      brei je elke 8e en 9e steek recht samen. Nu zijn er 64 steken.

    80: 72 72 64 64 56 48 40
    Minder 8 steken gelijkmatig verdeeld in de volgende toer, daarna 8 steken in elke tweede toer tot er 56
      steken zijn, en ten slotte 8 steken in elke toer tot er 40 steken zijn.

    80: 72 72 64 64 56 48 40
    Laat 8 steken staan en brei de twee volgende samen. Doe dat acht keer, dan zijn er 72 steken. Wissel een
      toer met minderingen af met een rechte toer, tot er 56 steken zijn. Daarna sla je de rechte toer over. Je
      eindigt met 40 steken.

    80: 72 72 72 64
    Brei 8 recht en dan twee samen, en herhaal dit rondom. De volgende twee toeren brei je recht. Daarna 7 recht
      en twee samen, rondom (64 steken).

    # the needle that is worked with is no round
    80: 80 80
    Zet 80 steken op: 20 steken op elke naald. De vijfde naald is om mee te breien.
    Ronde 1 tot en met 2: recht.

    # sections, markers and purl ribs in which stitches are decreased; `boord` is the brim in rib
    40: 36 36 32
    Verdeel het werk in 4 delen van 10 st met 1 markeerder ertussen. Brei aan het eind van elk deel 2 st r samen
      in elke 2e toer 2 x.

    40: 32 32 24
    Hang 4 markeerders in het werk met 10 st ertussen.
    Minder aan weerszijden van elke markeerder in elke 2e toer 2 x.

    40: 40 40 40 40 40 40
    Boord: 2 nld. Brei 3 toeren boord. Brei 1 toer r.

    40: 40 32
    Brei 1 toer boordst: *3 r, 2 av*.
    1e mindering: brei in elke av-ribbel 2 av samen (32 st).
    """
)


@pytest.mark.parametrize(("text", "cast_on", "after"), TEXTS)
def test_crowns_in_sentences(text: str, cast_on: int, after: list[int]) -> None:
    """The round, its repetition, its count and how it goes on stand in sentences of their own."""
    reading = read(text, (cast_on,), "nl")

    assert not faults(reading)
    assert after_each_round(reading) == after


@pytest.mark.parametrize(("times", "errors"), [(3, 0), (4, 1)])
def test_times_are_compared_with_the_count_they_come_to(times: int, errors: int) -> None:
    """Decreases so many times until so many stitches are left: both are asked to come out."""
    reading = read(
        (
            "1e toer: op elke nld 2x 10 st r, 2 st r samenbr. (88 st)\n2e toer: r.\n"
            f"Deze minderingen elke 2e toer nog {times}x herhalen, telkens met 1 st minder ertussen, tot er 64 st over "
            "zijn."
        ),
        (96,),
        "nl",
    )

    assert len(faults(reading)) == errors


def test_one_count_told_wrong_makes_no_others_wrong() -> None:
    """A repeat begun by `steeds` is worked around behind a round whose count does not come out."""
    reading = read(
        (
            "Zet 78 st op.\nBrei 1 toer recht en minder daarin 6 st, verdeeld over de toer = 84 st.\n"
            "Mindertoer: steeds 5 st r, 2 st r samen = 72 st. Brei 2 toeren recht.\n"
            "Mindertoer: steeds 4 st r, 2 st r samen = 60 st."
        ),
        (78,),
        "nl",
    )

    assert [finding.line for finding in reading.findings if finding.severity == "error"] == [2]


def test_sizes_with_a_dash_before_their_bracket() -> None:
    """The numbers of the other sizes stand in a bracket behind a dash."""
    text = "* 8–(9–10) st r, 2 st r samenbr *, van * tot * 8 x = 72–(80–88) st.\nBrei 2–(3-4) toeren recht."
    reading = read(text, (80, 88, 96), "nl")
    assert not reading.findings
    assert [rounds[0].after for rounds in reading.rounds] == [72, 80, 88]
    assert [len(rounds) for rounds in reading.rounds] == [3, 4, 5]


def test_numbers_of_three_sizes_joined_by_or() -> None:
    """The last of all is behind `of`."""
    text = (
        "Zet 80, 88 of 96 steken op. Brei 2, 3 of 4 toeren recht.\n8, 9 of 10 recht, 2 samen, herhaal rondom."
    )
    reading = read(text, (80, 88, 96), "nl")
    assert not faults(reading)
    assert [len(rounds) for rounds in reading.rounds] == [3, 4, 5]
    assert [rounds[-1].after for rounds in reading.rounds] == [72, 80, 88]


def test_numbers_of_two_sizes_told_one_after_the_other() -> None:
    """The cast-on and the rounds are told for each size by its name."""
    text = "Zet 80 st op voor de kleine en 90 voor de grote maat. Brei 2 toeren voor de kleine en 4 voor de grote maat."
    reading = read(text, (80, 90), "nl")
    assert not reading.findings
    assert [len(rounds) for rounds in reading.rounds] == [2, 4]


def test_rounds_of_the_brim_before_those_of_the_body() -> None:
    """A full stop behind the short form of rounds ends what is told of the brim."""
    assert after_each_round(read("Boord: 2 trn. 3 trn tricotst.", (80,), "nl")) == [80] * 5


THREE_ROUNDS = "Toer 1: *2 r, 2 r sbr*.\nToer 2 en 3: r.\n"


@pytest.mark.parametrize(
    "last",
    [
        "Vervolgens de 1e toer 2 x achter elkaar breien.",
        "Brei dan 2 x alleen toer 1.",
        "Brei nu nog 2 x alleen de 1e toer.",
        "Herhaal alleen de eerste toer nog 2 x.",
        "Alleen toer 1 nog 2 x herhalen.",
    ],
)
def test_a_round_by_itself_some_times(last: str) -> None:
    """A fourth of the stitches goes with every round that is worked alone."""
    assert after_each_round(read(THREE_ROUNDS + last, (64,), "nl")) == [48, 48, 48, 36, 27]


def test_rounds_some_times_more() -> None:
    """`2 x extra` comes on top of what is worked."""
    text = "Toer 1: *2 r, 2 r sbr*.\nToer 2: r.\nBrei deze 2 toeren 1 x extra."
    assert after_each_round(read(text, (64,), "nl")) == [48, 48, 36, 36]
