"""The written pattern, as a knitter reads it."""

import re

import pytest

from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from roundwright.knitting.quantities import Gauge
from roundwright.knitting.rounds.round import Repeat, Work, work_round
from roundwright.wording.writing import pattern as write
from roundwright.wording.writing import plain_language, size_lists
from tests.knitting.hat.test_plan import BABIES, hats


def lines(pattern: str, heading: str) -> list[str]:
    """The lines of one section."""
    sections = dict(block.split("\n", 1) for block in pattern.strip().split("\n\n")[1:])
    return sections[heading].split("\n")


def test_sizes_are_listed_the_trades_way() -> None:
    """`Cast on 52 (56, 64, 68) sts.`: the first size before the bracket (common practice)."""
    assert lines(hats(sizes=BABIES)["pattern"], "CAST ON")[0] == "Cast on 52 (56, 64, 68) sts."


def test_one_number_stands_where_all_sizes_agree() -> None:
    """A number that is the same in every size is printed once (common practice)."""
    assert size_lists.size_list([4, 4, 4]) == "4"
    assert size_lists.size_list([52, 56]) == "52 (56)"


def test_a_line_alike_in_all_sizes_is_written_once_with_the_counts_in_brackets() -> None:
    """The first crown round by repeats of four is the same in all sizes."""
    crown = lines(hats(sizes=BABIES)["pattern"], "CROWN")
    assert crown[0] == "Rnd 1: *k2, k2tog; rep from * around — 39 (42, 48, 51) sts"


def test_a_size_that_ends_earlier_is_told_so() -> None:
    """Eight wedges on 64 and on 96 stitches: the smaller closes first and is sent to the finishing."""
    answer = hats(
        gauge={"stitches": 20, "rows": 28},
        sizes=[{"head": {"value": cm, "unit": "cm"}} for cm in (35.5, 53)],
        crown={"style": "wedge", "sections": 8},
    )
    crown = "\n".join(lines(answer["pattern"], "CROWN"))
    assert "Size 1: the crown is done, 8 sts are left. Go on to Finishing." in crown
    assert "(size 2 only)" in crown


def test_only_the_abbreviations_used_are_explained() -> None:
    """A hat without purling does not explain purl."""
    told = lines(hats(sizes=BABIES)["pattern"], "ABBREVIATIONS")[0]
    assert "k2tog: knit two together" in told
    assert "purl" not in told
    assert "purl" in lines(hats(sizes=BABIES, brim={"kind": "ribbed"})["pattern"], "ABBREVIATIONS")[0]


@pytest.mark.parametrize(
    ("terms", "gauge", "fabric"), [("us", "GAUGE", "stockinette"), ("uk", "TENSION", "stocking stitch")]
)
def test_us_and_uk_say_it_their_way(terms: str, gauge: str, fabric: str) -> None:
    """Gauge and stockinette in the US are tension and stocking stitch in the UK (Craft Yarn Council; common lists)."""
    assert fabric in lines(hats(sizes=BABIES, terms=terms)["pattern"], gauge)[0]


def test_a_beginner_reads_sentences() -> None:
    """Each abbreviation spelled out, one action a sentence, the count to check at the end."""
    pattern = hats(sizes=BABIES, wording="beginner", needles=3)["pattern"]
    crown = lines(pattern, "CROWN")
    assert crown[0] == (
        "Round 1: * Knit 2 stitches. Knit two together. Repeat from * to the end of the round. "
        "You have 39 (42, 48, 51) stitches."
    )
    assert not re.search(r"\bk\d|k2tog|\bsts?\b|\brnds?\b", "\n".join(lines(pattern, "CROWN")))


def test_inches_are_printed_in_quarters() -> None:
    """A tape in inches is read in quarters, one in centimetres in halves (common practice)."""
    assert (
        "in, unstretched"
        in lines(hats(sizes=BABIES, units="imperial")["pattern"], "FINISHED MEASUREMENTS")[1]
    )
    measures = lines(hats(sizes=BABIES, units="imperial")["pattern"], "FINISHED MEASUREMENTS")[1]
    assert re.fullmatch(r"Circumference: [\d /(),]+ in, unstretched", measures)
    assert "." not in measures


def test_garter_is_written_as_two_rounds_and_their_repeat() -> None:
    """`Rnds 3-6: rep rnds 1 and 2` (common practice)."""
    brim = lines(hats(sizes=[{"age_months": 12}], brim={"kind": "garter"})["pattern"], "BRIM")
    assert brim[0].startswith("Rnd 1: knit — ")
    assert brim[1].startswith("Rnd 2: purl — ")
    assert re.match(r"Rnds 3-\d+: rep rnds 1 and 2 — \d+ sts", brim[2])


def test_a_round_with_a_tail_is_spoken_to_the_last_stitches() -> None:
    """k2tog around on an odd count: the last stitch is knitted (common practice)."""
    one = work_round(1, 7, (Repeat(3, (Work("k2tog"),)), Work("k")))
    assert (
        plain_language.plain_sentences(one.steps)
        == "* Knit two together. Repeat from * to the last stitch. Knit 1 stitch."
    )


def test_the_sections_stand_in_the_order_of_a_pattern() -> None:
    """Sizes first, cautions last (common practice)."""
    request = hat_request.HatRequest(
        gauge=Gauge(stitches=18, rows=24), sizes=(hat_request.HatSize(age_months=0),)
    )
    answer = hat.hats(request, write.pattern)
    written = [section.heading for section in write.sections(request, answer.sizes, answer.cautions)]
    assert written == [
        "Sizes", "Finished measurements", "Materials", "Gauge", "Abbreviations", "Notes", "Cast on", "Brim", "Body",
        "Crown", "Finishing", "Cautions",
    ]  # fmt: skip
