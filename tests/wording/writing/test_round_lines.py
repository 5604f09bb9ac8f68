"""The rounds of a pattern, for all sizes together."""

import re

from tests.support.hats import BABIES, hats
from tests.support.patterns import lines


def test_a_line_alike_in_all_sizes_is_written_once_with_the_counts_in_brackets() -> None:
    """The first crown round by repeats of four is the same in all sizes."""
    crown = lines(hats(sizes=BABIES)["pattern"], "CROWN")
    assert crown[0] == "Rnd 1: *k2, k2tog; rep from * around — 39 (42, 48, 51) sts"


def test_a_size_that_ends_earlier_goes_on_to_the_finishing() -> None:
    """Eight wedges on 64 and on 96 stitches: the smaller closes first and is sent to the finishing."""
    answer = hats(
        gauge={"stitches": 20, "rows": 28},
        sizes=[{"head": {"value": cm, "unit": "cm"}} for cm in (35.5, 53)],
        crown={"style": "wedge", "sections": 8},
    )
    crown = "\n".join(lines(answer["pattern"], "CROWN"))
    assert "Size 1: the crown is done, 8 sts are left. Go on to Finishing." in crown
    assert "(size 2 only)" in crown


def test_a_beginner_reads_sentences() -> None:
    """Each abbreviation spelled out, one action a sentence, the count to check at the end."""
    pattern = hats(sizes=BABIES, wording="beginner", needles=3)["pattern"]
    crown = lines(pattern, "CROWN")
    assert crown[0] == (
        "Round 1: * Knit 2 stitches. Knit two together. Repeat from * to the end of the round. "
        "You have 39 (42, 48, 51) stitches."
    )
    assert not re.search(r"\bk\d|k2tog|\bsts?\b|\brnds?\b", "\n".join(lines(pattern, "CROWN")))


def test_garter_is_written_as_two_rounds_and_their_repeat() -> None:
    """`Rnds 3-6: rep rnds 1 and 2` (common practice)."""
    brim = lines(hats(sizes=[{"age_months": 12}], brim={"kind": "garter"})["pattern"], "BRIM")
    assert brim[0].startswith("Rnd 1: knit — ")
    assert brim[1].startswith("Rnd 2: purl — ")
    assert re.match(r"Rnds 3-\d+: rep rnds 1 and 2 — \d+ sts", brim[2])
