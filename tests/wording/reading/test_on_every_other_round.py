"""On which rounds a crown is decreased, with which it ends, and lines for a span of sizes. The counts are by hand."""

import pytest

from roundwright.wording.proofreading.read import read
from tests.corpus.score import errors
from tests.support.readings import after_each_round, after_rounds_of_sizes, counts, number_of_rounds

MARKED = "Cast on 96 sts. Knit one round, placing a marker every 12 sts.\n"
DOWN_TO_32 = [96, 88, 80, 72, 64, 56, 48, 40, 32]


@pytest.mark.parametrize(
    "sentence",
    [
        "On every other round, k2tog before each marker until 32 sts are left.",
        "On the next and every alt round, k2tog before each marker until 32 sts are left.",
        "Next and every alt round: k2tog before each marker until 32 sts are left.",
        "Next round and every other round: *k to 2 sts before marker, k2tog; rep from * until 32 sts are left.",
        "On every second round, *k to 2 sts before marker, k2tog; rep from *, until 32 sts remain.",
        (
            "Beginning with the very next round, and then on every other round, knit two together just before each "
            "marker. Keep at it until a decrease round leaves you with 32 sts."
        ),
        "Starting on the next round, and on every second round after that, k2tog before each marker until 32 sts.",
    ],
)
def test_every_other_round_has_a_plain_one_before_it(sentence: str) -> None:
    """Eight decrease rounds, seven plain ones between, and the round of the markers."""
    reading = read(MARKED + sentence, (96,))
    assert counts(reading) == [DOWN_TO_32]
    assert number_of_rounds(reading) == [16]


BEGUN = "Rnd 1: *K10, k2tog; rep from * to end. 88 sts.\nRnd 2: Knit.\n"


@pytest.mark.parametrize(
    "sentence",
    [
        "Rep these 2 rnds, working one st fewer before each k2tog, until\n32 sts rem, ending after a dec rnd.",
        "Rep these 2 rnds, working one st fewer each time, until 32 sts rem. End after a dec rnd.",
        "Continue like this until 32 sts rem, ending having just worked a dec rnd.",
        "Rep Rnds 1 and 2, working one st fewer before each dec, until 32 sts rem, ending with Rnd 1.",
        "Rep last 2 rnds, working one less st before k2tog, to 32 sts, ending after Rnd 1.",
    ],
)
def test_rounds_worked_again_may_end_with_the_one_that_shapes(sentence: str) -> None:
    """No plain round then stands before the next decrease."""
    reading = read(
        f"{BEGUN}{sentence}\nThen dec on every rnd in the same way until 16 sts rem.\nK2tog around. 8 sts.",
        (96,),
    )
    assert counts(reading) == [[*DOWN_TO_32, 24, 16, 8]]
    assert number_of_rounds(reading) == [18]


@pytest.mark.parametrize(
    "sentence",
    [
        "Then decrease on every round until you have 16, k2tog eight times, and draw the end through the last 8.",
        "Continue decreasing every round to 16 sts, work k2tog all round, and fasten off the last 8 sts.",
        "Carry on decreasing every round until 16 remain, k2tog 8 times, break yarn and draw through the last 8.",
    ],
)
def test_a_last_round_may_follow_in_the_same_breath(sentence: str) -> None:
    """Behind the count to which the crown is gone on."""
    reading = read(BEGUN + sentence, (96,))
    assert counts(reading) == [[*DOWN_TO_32, 24, 16, 8]]
    assert number_of_rounds(reading) == [12]


def test_a_line_may_break_before_the_round_that_is_every_other() -> None:
    """As columns of old magazines do."""
    text = "Continue thus, with one stitch less between the decreasings on every alternate\nround, until 32 sts remain."
    reading = read(BEGUN + text, (96,))
    assert counts(reading) == [DOWN_TO_32]
    assert number_of_rounds(reading)[0] in (15, 16)


def test_a_decrease_on_each_needle_is_one_on_each() -> None:
    """Where the count says that it is."""
    lines = "Rnd 1: On each needle k2tog (60 sts)\nRnd 2: K2tog on each needle (56 sts)\nRnd 3: knit\n"
    assert counts(read(f"{lines}On each needle k2tog twice (48 sts).", (64,))) == [[64, 60, 56, 48]]


def test_a_count_stands_behind_the_markers_that_are_taken_out() -> None:
    """`m` is no stitch that is made twelve times."""
    line = "Next rnd *Ssk, k2tog; rep from * to end, removing m—12 sts rem.\n"
    reading = read(f"{line}Next rnd *K2tog; rep from * to end—6 sts rem.", (24,))
    assert counts(reading) == [[24, 12, 6]]
    assert not reading.findings


def test_stripes_may_be_told_with_how_their_rounds_are_worked() -> None:
    """And how many they are in all."""
    line = "Knitting every rnd, work stripes of 4 rnds B, 2 rnds C, 4 rnds A and 2 rnds C, twice - 24 rnds."
    assert number_of_rounds(read(f"{line}\nNext rnd: (k10, k2tog) 8 times. 88 sts.", (96,))) == [25]


def test_the_stitches_of_each_needle_may_be_listed_for_each_size() -> None:
    """They are no numbers for six sizes."""
    line = "Cast on 96 (104) sts. loosely (32, 32, 32 (34, 34, 36) sts. on needles). Knit 2 rounds."
    assert not errors(read(line, (96, 104)))


SPANS = [
    ("1 (2, 3, 4)", "Sizes 2 to 4 only:\n"),
    ("1 (2, 3, 4)", "Sizes 2-4 only:\n"),
    ("1 (2, 3, 4)", "For sizes 2, 3 and 4:\n"),
    ("1 (2, 3, 4)", "Size 2 (3, 4) only:\n"),
    ("1 (2, 3, 4)", "Last 3 sizes only:\n"),
    ("1 (2, 3, 4)", "All sizes except size 1:\n"),
    ("S (M, L, XL)", "Sizes M–XL only:\n"),
    ("S (M, L, XL)", "Sizes M to XL only: "),
    ("S (M, L, XL)", "Sizes M through XL:\n"),
]


@pytest.mark.parametrize(("sizes", "span"), SPANS)
def test_a_span_of_sizes_is_told_by_its_ends(sizes: str, span: str) -> None:
    """The numbers of the line are those of its sizes."""
    text = (
        f"Sizes: {sizes}\nCast on 56 (64, 72, 80) sts. Join.\n"
        f"{span}Rnd 1: *K6 (7, 8), k2tog; rep from * to end. 56 (64, 72) sts.\nRnd 2: Knit.\n"
        "All sizes:\nRnd 3: *K5 (5, 6, 7), k2tog; rep from * to end. 48 (48, 56, 64) sts."
    )
    reading = read(text, (56, 64, 72, 80))
    assert counts(reading) == [[56, 48], [64, 56, 48], [72, 64, 56], [80, 72, 64]]
    assert not reading.findings


JOINING = [
    ("Adult begins here:", "Child begins here:"),
    ("Adult only:", "Child joins in here:"),
    ("Adult size starts here:", "Child size starts here:"),
    ("Adult: start here.", "Child: start here."),
    ("For the adult hat begin here", "If you're making the child's, start from here"),
]


@pytest.mark.parametrize(("large", "small"), JOINING)
def test_a_smaller_size_joins_the_larger_where_it_begins(large: str, small: str) -> None:
    """The rounds below its heading are for both, and those above are not missing from it."""
    text = (
        f"Sizes: Child, Adult. Cast on 54 (60) sts. Join.\n{large}\nRnd 1: *k8, k2tog* 6 times. 54 sts\nRnd 2: knit.\n"
        f"{small}\nRnd 3: *k7, k2tog* 6 times. 48 sts"
    )
    reading = read(text, (54, 60))
    assert counts(reading) == [[54, 48], [60, 54, 48]]
    assert not reading.findings


@pytest.mark.parametrize(
    "begins",
    [
        "{size} starts here: ",
        "{size} size begins here: ",
        "Begin here for {size}: ",
        "{size}, start here: ",
        "{size}: start here. ",
        "{size} joins in here. ",
        "{size} – begin here – ",
        "If you are making {size}, start here: ",
    ],
)
def test_each_line_of_a_ladder_names_the_size_that_begins_with_it(begins: str) -> None:
    """A size works the rounds of its line and of all below; the largest is printed first."""
    lines = (("Adult", 10, 66), ("Child", 9, 60), ("Baby", 8, 54))
    ladder = "\n".join(
        f"{begins.format(size=size)}*k{plain}, k2tog* around ({left} sts), then knit 1 rnd."
        for size, plain, left in lines
    )
    text = (
        f"Sizes: Baby (Child, Adult)\nCast on 60 (66, 72) sts. Join.\nKnit 10 rnds.\n\n{ladder}\n\n"
        "All sizes:\n*k7, k2tog* around (48 sts)\nKnit 1 rnd."
    )
    assert counts(read(text, (60, 66, 72))) == [[60, 54, 48], [66, 60, 54, 48], [72, 66, 60, 54, 48]]


@pytest.mark.parametrize(
    "others",
    [
        "2nd and every alternate round to the 10th.—Knit.",
        "2nd and every alternate round up to the 10th.—Knit.",
        "2nd and every alt. round up to and including the 10th: Knit.",
        "2nd and all even rounds to 10th: knit.",
        "2nd and each following alternate round until the 10th.—Knit.",
        "2nd and every other round through the 10th: knit.",
        "2nd and every alternate round as far as the 10th.—Knit plain.",
    ],
)
def test_every_alternate_round_up_to_one(others: str) -> None:
    """The plain rounds between are worked, and none behind the last."""
    shaping = "".join(
        f"{2 * of + 1}th round.—* K. {9 - of}, k. 2 tog., rep. from * to end of round ({90 - 9 * of} sts.).\n"
        for of in range(1, 5)
    )
    text = (
        "Cast on 99 sts.\n1st round.—* K. 9, k. 2 tog., rep. from * to end of round (90 sts.).\n"
        f"{others}\n{shaping}11th round.—* K. 4, k. 2 tog., rep. from * to end of round (45 sts.)."
    )
    assert number_of_rounds(read(text, (99,))) == [11]


def test_two_sizes_may_be_called_by_whose_figures_are_in_brackets() -> None:
    """`his` is the second, and `mine` begins where it says so."""
    text = (
        "Mine is first, his is in brackets: 54 (60) sts.\nCast on 54 (60) stitches and join.\n"
        "round 1 (his only): *k8, k2tog* 6 times. 54 sts\nround 2 (his only): knit\n"
        "--- if you're making mine, you start from here ---\nround 3: *k7, k2tog* 6 times. 48 sts"
    )
    assert counts(read(text, (54, 60))) == [[54, 48], [60, 54, 48]]


def test_markers_that_are_counted_are_no_stitches() -> None:
    """Nor does a line of a typist end before its round."""
    text = (
        "Ready for the top? You have 96 stitches on your needle. Knit one\n"
        "round, dropping in a marker every 12 stitches (that makes 8 markers, counting\n"
        "the one at the start of the round). Next round, k2tog before each marker (88 sts)."
    )
    reading = read(text, (96,))
    assert counts(reading) == [[96, 88]]
    assert number_of_rounds(reading) == [2]


@pytest.mark.parametrize("phrase", ["worked 4 times in all", "done 3 times more", "repeated 3 times"])
def test_steps_are_told_to_be_worked_again(phrase: str) -> None:
    """The number of the step is not that of the steps it names."""
    text = (
        "Place 8 markers evenly.\nStep 5: *k to 2 sts before marker, k2tog; rep from * to end.\nStep 6: knit.\n"
        f"Step 7: Steps 5 and 6 are {phrase}. 40 sts."
    )
    reading = read(text, (72,))
    assert counts(reading) == [[72, 64, 56, 48, 40]]
    assert number_of_rounds(reading) == [8]


@pytest.mark.parametrize(
    "sentence",
    [
        "Cont to dec 8 sts every knit rnd 5 times more - 16 sts.",
        "Continue to decrease 8 sts on every knit round 5 more times. 16 sts.",
        "Cont to dec every knit rnd 5 times more.",
        "Cont to dec 8 sts on every RS rnd 5 times more.",
        "Continue in this way, decreasing on every knit round, until 16 sts remain.",
    ],
)
def test_knit_rounds_that_take_turns_with_purled_ones_are_every_other(sentence: str) -> None:
    """The number before `times` names no round; a purled round stands between two decrease rounds."""
    begun = (
        "Next rnd: (K7, k2tog) 8 times - 64 sts.\nNext rnd: Purl.\nNext rnd: (K6, k2tog) 8 times - 56 sts.\n"
    )
    reading = read(f"{begun}Next rnd: Purl.\n{sentence}\nNext rnd: (P2tog) 8 times - 8 sts.", (72,))
    assert counts(reading) == [[72, 64, 56, 48, 40, 32, 24, 16, 8]]
    assert number_of_rounds(reading) == [14]


SMALL = [72, 72, 72, 72, 64, 64, 64, 64, 56]
LARGE = [88, 88, 88, 88, 88, 80, 80, 80, 80, 80, 72]


@pytest.mark.parametrize(
    "cadence",
    [
        "Dec 8 sts every 4th (5th) rnd 3 times.",
        "Dec 8 sts every 4 (5) rnds 3 times.",
        "Decrease 8 sts evenly on every 4th (5th) round until 56 (72) sts remain.",
        "Dec 8 sts evenly on next and every foll 4th (5th) rnd 3 times.",
        "Dec rnd: decrease 8 sts evenly.\nRep dec rnd on every foll 4th (5th) rnd twice more.",
    ],
)
def test_each_size_is_shaped_every_so_many_rounds_as_its_own_number_says(cadence: str) -> None:
    """Three plain rounds stand between those of the first size, four between those of the second."""
    assert after_rounds_of_sizes(read(cadence, (80, 96))) == [SMALL, LARGE]


def test_a_number_of_rounds_for_all_sizes_is_that_of_each() -> None:
    """The times alone are told for each size."""
    reading = read("Dec 8 sts every 4th rnd 3 (2) times.", (80, 96))
    assert after_rounds_of_sizes(reading) == [SMALL, [88, 88, 88, 88, 80]]


TO_72 = "Rnd 1: *k8, k2tog; rep from * around. 72 sts\nRnd 2: knit.\n"
RHYTHMS = [
    (
        "Continue dec every 3rd rnd. When 48 sts remain, dec every other rnd. "
        "When 24 sts remain, dec every rnd until 8 sts remain."
    ),
    (
        "Continue dec every 3rd rnd.\nWhen only 48 sts remain, change to dpns and dec every other rnd.\n"
        "With 24 sts left, dec every rnd. Rep until 8 sts remain."
    ),
    (
        "Decrease on every 3rd round. As soon as 48 sts remain, decrease on every 2nd round. "
        "After 24 sts remain, decrease on every round until 8 sts remain."
    ),
    (
        "Dec at each marker every 3rd rnd. At 48 sts, dec at each marker every other rnd. "
        "At 24 sts, dec at each marker every rnd. Stop at 8 sts."
    ),
    (
        "Decrease at the same points every 3rd round. "
        "Once you have decreased to 48 sts, decrease every other round. Continue until 24 sts remain. "
        "Now dec every rnd. Do this until 8 sts remain."
    ),
]


@pytest.mark.parametrize("text", RHYTHMS)
def test_a_rhythm_ends_at_the_count_of_the_next_sentence(text: str) -> None:
    """Two plain rounds stand before each decrease down to 48, one down to 24, and then none."""
    every_third = [72, 72, 72, 64, 64, 64, 56, 56, 56, 48]
    assert after_each_round(read(TO_72 + text, (80,))) == [*every_third, 48, 40, 40, 32, 32, 24, 16, 8]


EVERY_ROUND = [
    "then dec every rnd. Rep until 8 sts remain.",
    "then dec every rnd. Continue until 2 sts remain on each needle (8 sts).",
    "then dec each time until 8 sts remain.",
    "then omit the rnds between and dec each time, until 8 sts remain.",
    "then leave out the rounds between until 8 sts remain.",
]


@pytest.mark.parametrize("text", EVERY_ROUND)
def test_plain_rounds_end_where_every_round_is_shaped(text: str) -> None:
    """How far it goes may stand in a sentence of its own."""
    reading = read(f"{TO_72}Continue like this until 48 sts remain, {text}", (80,))
    assert after_each_round(reading) == [72, 72, 64, 64, 56, 56, 48, 40, 32, 24, 16, 8]


OTHERS = [
    "Continue dec every other rnd. Then continue in this way until 48 sts remain.",
    "Continue until 48 sts remain, with 1 st fewer before the dec each time.",
    "Continue until 56 sts remain, then dec each time you come to a knit rnd until 48 sts remain.",
]


@pytest.mark.parametrize("text", OTHERS)
def test_each_time_is_not_every_round_where_it_says_when(text: str) -> None:
    """A plain round stands before each decrease."""
    assert after_each_round(read(TO_72 + text, (80,))) == [72, 72, 64, 64, 56, 56, 48]


def test_a_length_is_no_end_of_a_rhythm() -> None:
    """The decreases go on to a count alone."""
    reading = read(f"{TO_72}Continue dec every other rnd. Continue until hat measures 20 cm.", (80,))
    assert after_each_round(reading) == [72, 72]


IN_THIS_WAY = [
    "Work 6 rnds in this way: 48 sts",
    "Work 6 more rnds in this way (48 sts).",
    "Continue in this way for 6 rnds. 48 sts",
    "6 rnds as set: 48 sts",
    "Work 6 more rnds as established - 48 sts",
    "Dec in this way for 6 rnds: 48 sts",
]


@pytest.mark.parametrize("text", IN_THIS_WAY)
def test_the_last_of_so_many_rounds_may_be_plain(text: str) -> None:
    """Six rounds in turn are three that shape, each with its plain round."""
    assert after_each_round(read(TO_72 + text, (80,))) == [72, 72, 64, 64, 56, 56, 48, 48]


def test_so_many_rounds_as_set_are_plain_where_the_count_stays() -> None:
    """The count says that none of them shapes."""
    assert after_each_round(read(f"{TO_72}6 rnds as set: 72 sts", (80,))) == [72] * 8


@pytest.mark.parametrize(
    "text",
    ["Continue dec every 3rd rnd: 64, 56, 48 sts.", "Continue in this way with 2 rnds between, 48 sts."],
)
def test_rounds_between_are_told_beside_the_counts(text: str) -> None:
    """Two plain rounds stand between the decreases."""
    assert after_each_round(read(TO_72 + text, (80,))) == [72, 72, 72, 64, 64, 64, 56, 56, 56, 48]
