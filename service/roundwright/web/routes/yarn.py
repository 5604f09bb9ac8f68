"""Yarn: how much work takes, what to buy, and whether what is left will do."""

from roundwright.knitting.work import yarn_estimate as buying
from roundwright.knitting.work import yarn_remaining as remaining
from roundwright.knitting.yarn import estimate as yarn
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/yarn/estimate",
    id="estimateYarn",
    tag="Yarn",
    summary="Yarn that stitches, rounds or hats take, and apart from it what to buy for one or for a class",
    example="yarn-estimate",
    by_query="yarn-estimate-stitches",
)
def estimate_yarn(request: buying.EstimateRequest) -> yarn.YarnEstimate:
    """A stitch holds l = sqrt(ks / S) of yarn, S being stitches x rows in an area of the gauge.

    The area constant ks is 21.6 in wet-relaxed plain knit (`expected`), from 19.0 dry-relaxed to 23.1 fully relaxed:
    Doyle 1953; Munden, J. Text. Inst. 50 (1959) T448. `low` and `high` combine these constants with a ball as long as
    its label says ± 5 % and a knitter's gauge ± 3 % (common practice), as the root of the sum of their squares. Rib
    widens `high` by a tenth, common
    practice, since print says that it takes more but not how much. With a weighed swatch a stitch holds mass /
    (stitches x rows) instead, half a step of the scale either way. To buy is `high` with a margin, in whole balls:
    for each hat, for every knitter balls of their own, or one basket for all, in which no hat is knitted from two balls
    unless it needs more than one. How few balls that takes is bin packing: solved exactly for a class, by
    first-fit-decreasing where there are too many hats to try every way, and `one_basket` says which. `other_yarn` adds
    the same in balls of another yarn, by its length.
    """
    return buying.yarn_estimate(request)


@calculation(
    "/v1/yarn/remaining",
    id="checkRemainingYarn",
    tag="Yarn",
    summary="How long the yarn that is left is, whether it will do, and after how many rounds it runs out",
    example="yarn-remaining",
    by_query="yarn-remaining-stitches",
)
def check_remaining_yarn(request: remaining.RemainingRequest) -> remaining.RemainingAnswer:
    """What is left is mass / fineness, or circumference x strands of a hank, and full balls beside it.

    It is compared with what the work still takes, estimated as `/v1/yarn/estimate` does: `enough` when the least that
    may be left covers the highest estimate and a tail to fasten off: of a hat the longest that its pattern leaves, of
    other work 20 cm (8 in). `not_enough` when the most that may be left does not cover the lowest; else `too_close`.
    Common practice; a reading of the scale is half a step off at most.
    """
    return remaining.remaining(request)
