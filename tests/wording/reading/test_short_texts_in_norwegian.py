"""What short texts in Norwegian print: crowns of one screen, in notes, leaflets and old books."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.support.readings import after_each_round, after_rounds_of_sizes, told_crowns

CROWNS = told_crowns(
    """
    # the stitches that are gone, and those that are left
    80: 72
    Sett 4 merker med 20 m mellom hvert.
    Strikk til 2 m før merket, 2 r sm, flytt merket, 2 vridd r sm. Gjør det samme ved alle fire merkene. Da er
      åtte masker borte, og du har 72 igjen.

    60: 54 54
    *8 r, 2 r sm* omg rundt. Nå er seks masker borte.
    Strikk 1 omg r = 54 m.

    # so many times in all, and on both of the next rounds
    72: 64 64 56 56 48 48 40 32
    På hver pinne strikkes 1 r, 1 overtrekk, r til det er 3 m igjen på pinnen, 2 r sm, 1 r (64 m). 1 omg glatt.
    Disse 2 omg strikkes ialt 3 ganger, og det er 48 m igjen.
    De 2 neste omg felles på samme måte begge to (32 m).

    # the double decrease told behind its name, and the ordinals of old books
    96: 80 80 80 64 64 64 48
    1ste felling: 9 rett, 1 dobbel felling (1 maske tas løs av, 2 strikkes rett sammen, den løse trekkes over).
      Gjentas omgangen rundt, 8 ganger. 80 masker.
    Mellom fellingene strikkes 2 omganger rett.
    2nen felling: 7 rett, 1 dobbel felling. 64 masker.
    3dje felling: 5 rett, 1 dobbel felling. 48 masker.

    # on which rounds it is decreased, ahead of the round that does
    112: 105 105 105 98 98 98 91
    Del arbeidet i 7 deler, 16 m i hver.
    Fellinger gjøres i slutten av hver del på hver tredje omg, altså 2 omg uten felling mellom hver felleomg.
    Felleomg: strikk til 2 m før merket, 2 r sm ved hvert merke (7 m mindre).
    Fell i alt 3 ganger på hver 3. omg = 91 m.

    # the same on every needle
    80: 72 72 64 64 56
    Felleomg: Ta 1 m løs av, strikk 1 r, trekk den løse m over. Strikk til det er 2 m igjen på p, strikk disse r
      sm. Likt på alle 4 p (72 m).
    Strikk 1 omg r mellom felleomgangene. Fell i alt 3 ganger på denne måten (56 m).

    # a double decrease by its letters, in rib
    80: 70 70 60
    FELLING I VRANGBORD (1 r, 1 vr)
    80 m
    Dobbel felling (DF): Løft 2 m sammen rett av p, strikk 1 r, trekk de 2 løftede m over.
    Omg 1: *DF, 13 m vrangbord (beg og slutt med 1 vr)* ut omg. 70 m
    Omg 2: 1 r, 1 vr ut omg.
    Omg 3: *DF, 11 m vrangbord* ut omg. 60 m

    # stripes in colours by number
    60: 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60 60
    Legg opp 60 m og strikk 12 omg vrangbord.
    Strikk striper: * 4 omg fg 2, 4 omg fg 1 *, gjenta *–* 2 ganger.

    # the last decrease round with no plain round behind it
    64: 56 56 48 48 40
    Del arb i 8 like deler med merker, 8 m i hver.
    Strikk de 2 siste m før hvert merke r sm = 56 m.
    Strikk 1 omg uten felling.
    Gjenta disse 2 omg til det er 5 m igjen i hver del = 40 m (ingen mellomomg etter siste felling).

    # the end of every needle with what is done there; the same stitches as before
    80: 76 76 76 76 72 72
    Fordel m på 4 strømpep, 20 m på hver p.
    Fell 1 m på slutten av hver p: strikk r til det gjenstår 2 m, 2 r sm (= 76 m).
    3 omg r. Fell 4 m som før (72 m). 1 omg r.

    # an increase in the strand, worked twisted, is no stitch more
    76: 95
    Øk: *4 r, ta opp tråden mellom 2 m og strikk den vridd rett* omg ut = 95 m

    # plain rounds between dashes, behind the count of a round
    80: 80 80 80 80 80 80 72 72 72
    3 omg r – 1 omg vr (brettekant) – 2 omg r.
    *8 r, 2 r sm* omg rundt (72 m), strikk 2 omg til.

    # rounds of the rib before them are not worked plain behind it
    84: 84 84 84 84
    Vrangbord (2 r, 2 vr), strikk 4 omg.

    # markers in short, in a heading
    96: 88 88 88
    Felling med 4 MM, 24 m mellom hver
    Felleomg: *1 r, 2 vridd r sm, r til 3 m før MM, 2 r sm, 1 r, flytt MM* x 4 (–8 m)
    Omg 1: felleomg (88 m)
    Omg 2–3: r

    # stripes told by their colours
    80: 80 80 80 80 80 80 80 70
    Så kommer stripene: 2 omg hvitt, 2 omg rødt, 2 omg hvitt og 1 omg rødt, alt i glattstrikk.
    *6 r, 2 r sm* omg rundt

    # what the rounds between the decreases are is no round more
    96: 88 88 80 80 72
    Sett 4 merker i arb med 24 m mellom hvert merke.
    1. omg: * 2 vridd r sm, strikk r til det gjenstår 2 m før neste merke, 2 r sm *, gjenta fra * til * 3 ganger
      til = 88 m.
    Gjenta fellingene på hver 2. omg 2 ganger (= 72 m). Omg mellom fellingene strikkes r.

    # decreases of old books, and a third time
    80: 72 72 72 36
    Avtagningen: Strikk 8 rette, tag 2 sammen, hele omgangen rundt (72 masker). Strikk 2 omganger uten
      avtagning.
    Tag så maskene sammen to og to (36 masker).

    112: 104 96 96 88
    Hver pinne felles i begge ender: Strikk 1 rett, ta 1 maske løs av, strikk 1 rett og trekk den løse masken
      over. Strikk rett til det er 3 masker igjen på pinnen, og avslutt med 2 rett sammen og 1 rett.
    Når alle fire pinnene er strikket, er det 104 masker igjen.
    Fell en gang til (96 masker). 1 omg rett.
    Fell en tredje gang (88 masker).

    # the first time is no other round
    108: 99 99
    9 merker, 12 m mellom hvert.
    Felleomg = 2 r sm før hvert merke.
    Fell 1. gang = 99 m.
    1 omg r.

    # how many are gone at the markers, and the rounds until so many have been worked
    90: 80 80 70 70 60 60 50 40
    Sett inn fem markører, én for hver 18. maske.
    Foran hver markør strikker du tre masker rett sammen. Da felles det to masker fem ganger, og du har 80
      masker.
    Strikk en omgang rett.
    Gjenta dette til du har felt til sammen tre ganger, med en rett omgang etter hver felling. Nå skal du ha 60
      masker.
    Fell på samme måte to omganger til, uten noen vanlig omgang imellom.

    # rounds that go by, and decreases in three rounds that follow each other
    80: 70 70 70 60 50
    Fell: 6 r, 2 r sm, omg rundt (70 m). La det gå 2 omg.
    Så feller du på samme måte i 2 omg på rad.

    # two stitches in the fourth
    96: 120
    Strikk 3 m, og strikk så 2 m i den fjerde. Fortsett slik omg rundt, så det blir 120 m.

    # the words behind how many less there are each time
    80: 70 70 60 60 50 25
    6 r og 2 r sm omg rundt (70 m).
    Fra nå av feller du på annenhver omg, alltid med én maske mindre mellom fellingene enn gangen før, til det
      er 50 m igjen.
    På den siste omgangen strikkes alle m sammen to og to, slik at du sitter igjen med 25 m.

    # a double decrease told behind its name, and what is done between all markers
    80: 70
    STJERNE. Dobbel felling: Løft 2 m r sm løst av p, strikk 1 r, trekk de 2 løftede m over.
    Omg 1: * 13 r, 1 dobbel felling * x 5 = 70 m

    88: 80
    Sett 4 merker.
    Fell på begge sider av hvert merke: Ta 1 m løs av, 1 r, trekk den løse m over, strikk r til det er 2 m igjen
      før neste merke, 2 r sammen. Gjør det likt mellom alle merkene, det felles altså 8 m på omg.

    # decrease rounds by their numbers in a sentence
    64: 56 48 40 32
    1. felling: 6 r, 2 r sm, åtte ganger (56 m).
    Herfra kommer fellingene på hver omg: 2. felling med 5 r imellom (48 m), 3. felling med 4 r (40 m) og 4.
      felling med 3 r (32 m).

    # rounds with and without decreases in turn until so many are counted
    80: 72 72 64 64 56 48 40
    Sett en markør etter hver tiende m.
    Strikk rett helt til det er to masker igjen før markøren. De to strikker du rett sammen, og så flytter du
      markøren over på høyre pinne. Gjør det samme i alle de åtte feltene.
    Neste omgang er en hvileomgang: rett på alle masker.
    Slik veksler du mellom en omgang med felling og en hvileomgang helt til du teller 56 masker på pinnen.
    Da er det slutt på hvilen. Du feller på hver omgang.
    Stopp når du har 40 masker igjen.

    # plain rounds after every decrease round, the last too; none are told, and the last has none
    80: 72 72 72 64 64 64 56 56 56 48 48 40 40
    *8 r, 2 r sm* (72 m). 2 omg r.
    Fell slik 2 ganger til, med 2 rette omganger etter hver felling (56 m).
    Fell så 2 ganger med bare én rett omgang etter hver felling (40 m).

    80: 72 72 72 64 64 56
    *8 r, 2 r sm* (72 m). 2 omg r.
    Fell på annenhver omg 2 ganger (56 m).

    80: 72 72 72 64 64 64 56 56 56
    Sett 8 merker.
    Etter hvert merke strikkes de 2 første m r sm (72 m). 2 omg r.
    Gjør dette to ganger til, hver gang med to glatte omganger etterpå. Da teller du 56 masker.

    # decrease rounds by their numbers, up to the count of the last
    72: 64 64 64 56 56 48 48 40 32 24
    1. felleomg: 7 r, 2 r sm, x 8 (64 m)
    2 omg r
    2.–3. felleomg: 1 r mindre mellom fellingene hver gang, 1 omg r etter hver = 48 m
    4.-6. felleomg uten omg imellom, 1 r mindre hver gang (24 m)

    # stitches of a needle but for the last; both sides of the markers; rounds above
    112: 104 104 104 96
    Hver p felles i begge ender: 1 r, 2 vridd r sm, strikk til 3 m gjenstår, 2 r sm, 1 r (104 m). 2 omg uten
      felling.
    Fell på nytt (96 m).

    100: 92
    Sett et merke etter hver 25. m. Strikk 2 r sm på begge sider av merkene (92 m).

    72: 63 63 63 63 54
    Fell 9 m på 1. felleomg: *6 r, 2 r sm*. 3 omg over. Fell igjen: *5 r, 2 r sm* (54 m).

    # a plain round in short on its own line is no part of the stitches before it
    78: 72 72 66 66 60 60
    fell 6 m: 11r 2sm
    r
    fell 6 m: 10r 2sm
    r
    fell 6 m: 9r 2sm
    r

    80: 72 72 64 64 56
    8 r, 2 sm - 72
    r
    7 r, 2 sm - 64
    r
    6 r, 2 sm - 56

    80: 72
    Strikk 8 r, 2
    r sm omg rundt (72 m).

    # how many stitches are before each decrease, in a list up to a count
    108: 99 99 90 90 81 81 72 72 63 63
    *10 r, 2 r sm* omg ut (99 m). 1 omg r. Gjenta med 9, 8, 7 og 6 r før fellingen, 1 omg r etter hver = 63 m.

    # decreases right before and right after the markers; the last two of every needle
    88: 80 80 72 64 56
    Sett merker med 22 m imellom. Hver 2. omg: 2 r sm rett før merket og 2 vr r sm rett etter merket (80 m) til
      det er 72 m, så hver omg til 56 m.

    72: 68 64 60
    Luen strikkes på 4 pinner med 18 m på hver.
    Strikk rett til det er to masker igjen på hver pinne, og strikk disse to sammen. Gjør dette på hver omgang
      til det er 15 m på hver pinne.

    96: 88 88 88 80 80 80
    Del m i åtte deler med 12 m i hver. I hver del strikker du de to siste maskene sammen (88 m).
    Strikk to omganger uten felling, fell på nytt (80 masker) og strikk to omganger til.

    # a plain round behind every decrease, told of what goes on; two rhythms with their rounds
    72: 63 63 54 54 45
    *6 r, 2 r sm*, gjenta *-* omg rundt: 63 m. Fortsett med 1 m mindre mellom hver felling og 1 omg r mellom
      fellingene til det er 45 m igjen.

    96: 88 88 88 80 72 72 64
    Fell på hver tredje omgang: 10 r, 2 r sm (88 m), så 9 r, 2 r sm (80 m). Deretter på annenhver omgang: 8 r, 2
      r sm (72 m), 7 r, 2 r sm (64 m).

    # stitches before the marker that are told as where you are
    80: 72 72
    Sett 4 merker.
    Fell på hver side av de 4 merkene: strikk til det er 2 m før merket, 2 r sm, flytt merket, 1 r, ta 1 m løs
      av, strikk 1 r og trekk den løse m over.
    Strikk 1 omg r.

    # a plain round after every decrease round is after the last as well
    72: 63 63 54 54 45 45 36 27
    *6 r, 2 r sm* omg rundt (63 m). 1 omg r.
    Fortsett slik, med 1 m mindre mellom fellingene og 1 omg r etter hver felling, til det er 45 m igjen.
    Fell på hver omg til det er 27 m.
    """
)


PROSE = told_crowns(
    """
    80: 72 72 64 64 56 56 48 48 40 40 32 24 16 8
    Nå skal vi felle. Du har 80 masker på pinnen, og du har satt ett merke for hver tiende maske. Først strikker
      du en omgang der du strikker to masker rett sammen foran hvert merke. Da blir du kvitt åtte masker, så det
      skal stå 72 masker igjen på pinnen. Deretter strikker du en vanlig omgang uten felling. Disse to omgangene
      gjør du fem ganger til sammen. Etter det har du 40 masker. Nå dropper du omgangen imellom og feller på
      hver omgang helt til du bare har 8 masker.

    80: 72 72 64 64 56 56 48
    Fell slik: strikk til det er tre masker igjen før merket, strikk to rett sammen, strikk to rett, ta en maske
      løst av, strikk en rett og dra den løse over. Slik gjør du ved alle fire merkene, og for hver felleomgang
      blir det åtte masker færre. Fell på annenhver omgang fire ganger i alt, så du har 48 masker igjen.

    80: 72 72 72 64 64 64 56 56 56 48
    Sett åtte merker med ti masker mellom. På den første fellingsomgangen strikkes de to siste maskene før hvert
      merke sammen. Strikk to omganger vanlig. Gjør det samme tre ganger til, slik at det er 48 masker igjen.

    60: 54 54 48 48 42 42 36 36 30 30 24
    Nu begynder Indtagningen. Der strikkes 8 ret og 2 sammen Omgangen rundt, derefter 1 Omgang ret. Derpaa
      strikkes 7 ret og 2 sammen, og atter 1 Omgang ret. Saaledes fortsættes, idet der for hver Gang bliver 1
      Maske mindre mellem Indtagningerne, til der er 24 Masker tilbage.

    60: 52 52 44 44 36 36 28 28 20
    Man feller hver anden omgang 1 maske ved begyndelsen og 1 maske ved slutten av hver pinde, indtil der er 5
      masker tilbage paa hver av de 4 pinder.

    72: 64 64 56 56 48 48 40
    Der fælles paa hver Pind: 1 ret, 2 ret sammen, strik til 3 Masker fra Enden, 2 ret sammen, 1 ret. Der
      strikkes 1 Omgang imellem hver Fælling. Dette gjentages, til der paa hver af de fire Pinde kun er 10
      Masker, 40 i alt.

    60: 54 54 54 54 54 48 48 48 48
    Når arbeidet er 18 cm høyt, felles det til toppen på denne måte: Hver 9de og 10de maske strikkes sammen hele
      omgangen. Derefter strikkes 4 omganger. Så strikkes hver 8de og 9de maske sammen, og man strikker 3
      omganger.

    80: 70 70 60 60 50
    Til Toppen fældes der paa følgende Maade. 1ste Omgang: 6 ret, 2 ret sammen, hvilket gjentages Omgangen ud.
      2den Omgang: ret. 3die Omgang: 5 ret, 2 ret sammen. 4de Omgang: ret. 5te Omgang: 4 ret, 2 ret sammen.

    60: 54 54 48 48 42 42 36 36 30 24 18 12 6
    Masketallet deles i 6 like deler. I slutten av hver del strikkes to masker sammen. Dette gjøres hver annen
      omgang, inntil der er 30 masker igjen. Derefter felles hver omgang, til der kun er 6 masker igjen.

    60: 54 54 48 48 42
    Fell 6 masker jevnt fordelt på omgangen ved å strikke 2 og 2 sammen. Strikk 1 omgang. Fell igjen 6 masker,
      rett over de forrige. Strikk 1 omgang. Fell en siste gang 6 masker.

    80: 72 72 64 64 56 56 48 40 32 24 16 8
    Felleomgang: strikk 2 sammen etter hvert merke (8 merker). Strikk felleomgangen annenhver gang, med en glatt
      omgang mellom, til du har felt 4 ganger. Da er 32 masker borte og det er 48 igjen på pinnen. Nå strikker
      du felleomgangen uten omgang imellom 5 ganger.
    """
)
"""A teacher's blog, an old book and a grandmother's note: the round, its repetition and its count in sentences."""

NEIGHBOURS = [
    # `then` and `again` are other words here: stitches on every round, and two works joined
    (
        "1. omg: *8 r, 2 r sm* = 54 m.\n2. omg: r.\nFell så 6 m på hver omgang til det er 36 m igjen.",
        [54, 54, 48, 42, 36],
    ),
    ("1. omg: *8 r, 2 r sm* = 54 m.\n2. omg: r.\nFell 6 m og strikk 1 omg.", [54, 54, 48, 48]),
    # a decrease round once more, with no plain rounds told behind it
    ("1. omg: *8 r, 2 r sm* = 54 m.\n2. omg: r.\nFell igjen. Strikk 1 omg.", [54, 54, 48, 48]),
    ("1. omg: *8 r, 2 r sm* = 54 m.\n2. omg: r.\nFell en gang til (48 m).", [54, 54, 48]),
]


@pytest.mark.parametrize(("text", "cast_on", "counts"), [*CROWNS, *PROSE])
def test_a_crown_is_worked_as_it_is_told(text: str, cast_on: int, counts: list[int]) -> None:
    assert after_each_round(read(text, (cast_on,), "nb")) == counts


def test_every_other_round_is_worked_until_so_many_are_left() -> None:
    text = (
        "Str. S, M, L (60, 66, 72 m)\n6 merker settes ut, ett for hver 10., 11., 12. m.\n"
        "Annenhver omg: strikk de 2 m før hvert merke r sammen. Omg uten felling strikkes glatt.\n"
        "Etter 2, 3, 4 felleomg er det 48, 48, 48 m på p.\nStrikk 1 omg glatt."
    )

    assert after_rounds_of_sizes(read(text, (60, 66, 72), "nb")) == [
        [54, 54, 48, 48],
        [60, 60, 54, 54, 48, 48],
        [66, 66, 60, 60, 54, 54, 48, 48],
    ]


@pytest.mark.parametrize(("text", "counts"), NEIGHBOURS)
def test_again_and_then_stand_for_no_more_than_they_tell(text: str, counts: list[int]) -> None:
    assert after_each_round(read(text, (60,), "nb")) == counts


FIRST = "Strikk *6 r, 2 r sm* omgangen rundt (63 m). Strikk 1 omg rett.\n"
"""A round that shapes seventy-two stitches, and a plain one."""


def test_plain_rounds_are_between_until_they_are_dropped() -> None:
    """A plain round between decrease rounds goes on until the text drops it; the last round of all ends the crown."""
    text = (
        FIRST
        + "Slik fortsetter du, med én maske mindre mellom fellingene hver gang og en rett omgang imellom, helt "
        "til du har 45 masker igjen.\nNå dropper vi den rette omgangen: strikk 3 rett, 2 rett sammen omgangen rundt "
        "(36 masker), og på den aller siste omgangen strikker du bare 2 og 2 masker rett sammen (18 masker)."
    )
    assert after_each_round(read(text, (72,), "nb")) == [63, 63, 54, 54, 45, 36, 18]


def test_two_plain_rounds_between_are_not_read_as_a_single_plain_round() -> None:
    text = (
        FIRST + "Slik fortsetter du, med én maske mindre mellom fellingene hver gang og 2 rette omg imellom, "
        "til du har 45 masker igjen."
    )
    assert [finding.code for finding in read(text, (72,), "nb").findings] == ["left_over"]


def test_to_finish_with_work_behind_it_is_a_round_of_its_own() -> None:
    text = (
        "*8 r, 2 r sm* = 54 m.\nStrikk til slutt 2 r sm hele omg (= 27 m), og tre en dobbel tråd gjennom m."
    )
    assert after_each_round(read(text, (60,), "nb")) == [54, 27]


def test_sizes_may_stand_in_a_list_with_or() -> None:
    text = "Strikk 10, 11 eller 12 rett, så 2 rett sammen, og gjør dette åtte ganger. Det står 88, 96 eller 104 masker."
    counts = [[88], [96], [104]]

    assert after_rounds_of_sizes(read(text, (96, 104, 112), "nb")) == counts


@pytest.mark.parametrize(
    ("line", "counts"),
    [
        ("Gjenta så bare 1. omg 4 ganger = 56 m.", [68, 64, 60, 56]),
        ("Strikk deretter 1. omg 4 ganger til = 56 m.", [68, 64, 60, 56]),
        ("Strikk nå bare 1. omg 4 ganger.", [68, 64, 60, 56]),
        ("Deretter bare 1. omg 3 ganger.", [68, 64, 60]),
        ("Strikk til slutt 1. omg 2 ganger.", [68, 64]),
        ("Gjenta så bare første omg 2 ganger.", [68, 64]),
        ("Strikk 1. omg 4 ganger uten 2. omg imellom.", [68, 64, 60, 56]),
        ("Strikk så 1 omg.", [72]),
    ],
)
def test_the_first_round_is_worked_on_alone(line: str, counts: list[int]) -> None:
    text = (
        "Sett 4 merker med 20 m mellom.\n1. omg: *Strikk r til 3 m før merket, 2 r sm, 1 r*, gjenta ved hvert "
        f"merke = 76 m.\n2. omg: r.\nGjenta 1. og 2. omg = 72 m.\n{line}"
    )
    assert after_each_round(read(text, (80,), "nb")) == [76, 76, 72, 72, *counts]


def test_rib_behind_rounds_and_their_full_stop_is_their_stitch() -> None:
    text = "Legg opp 80 m (20 m på hver p.) og strikk 4 omg. 2 r., 2 vr.\nOmg 1: *2 r, 2 vr sm* omg rundt = 60 m."
    assert after_each_round(read(text, (80,), "nb")) == [80, 80, 80, 80, 60]


@pytest.mark.parametrize(
    "line",
    [
        "Del maskene inn i 6 felt à 16 m og sett merke mellom feltene.",
        "Del maskene i 6 felt, sett merke mellom feltene.",
        "Del m inn i 6 deler.",
    ],
)
@pytest.mark.parametrize("place", ["2 m gjenstår i feltet", "det er 2 m igjen i delen"])
def test_fields_into_which_a_crown_is_parted_are_no_decreases(line: str, place: str) -> None:
    text = f"{line}\n1. omg: *Strikk til {place}, 2 r sm*, gjenta i alle felt = 90 m."
    assert after_each_round(read(text, (96,), "nb")) == [90]


def test_so_many_stitches_between_markers_that_are_shared_out_are_no_decrease() -> None:
    text = "Fordel 8 merker i arbeidet med 10 m imellom.\nStrikk 2 r sm etter hvert merke = 72 m."
    assert after_each_round(read(text, (80,), "nb")) == [72]
