"""The hat for a head: what to cast on, and which of the sizes offered fits."""

from roundwright.knitting.sizing import cast_on as sizing
from roundwright.knitting.sizing import recommend as fitting
from roundwright.knitting.work import size_check
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/cast-on",
    id="castOn",
    tag="Sizes",
    summary="Find the stitches to cast on for a head",
    example="cast-on",
    by_query="cast-on",
)
def cast_on(request: sizing.CastOnRequest) -> sizing.CastOnAnswer:
    """Stitches = head × (1 + ease) / width of a stitch, to the nearest count that fits the multiple; half-way between
    two, the larger (common practice). One repeat down and one up come with the ease they give.

    A head that was not measured is a median: WHO Child Growth Standards from birth to 60 months, Netherlands 1997 from
    there to 21 years (at five years 0.7 cm above WHO: the two are not blended), INTERGROWTH-21st from 24 to 42 weeks of
    gestation (at 22 its ultrasound, at 23 Olsen et al. 2010), ANSUR II for grown-ups, or a size of the Craft Yarn
    Council's chart; the answer names the one it used. The default ease is -10 % (common practice). Rules in print for
    the tail of a long-tail cast-on disagree: three times the width and 10 %, or and 6 in; with `needle`, one wrap of it
    for each stitch.
    """
    return sizing.cast_on(request)


@calculation(
    "/v1/sizing/recommend",
    id="recommendSize",
    tag="Sizes",
    summary="Choose among the sizes offered, for now or for later",
    example="sizing-recommend",
)
def recommend_size(request: fitting.RecommendRequest) -> fitting.RecommendAnswer:
    """The head today and when the hat is worn, with its 3rd and 97th centile, and the share of heads each size fits.

    A hat of circumference H fits heads from H × (1 + snug) to H × (1 + stretch); heads are distributed as their
    standard says: centile z at M (1 + z S) in the WHO Child Growth Standards (0 to 60 months) and in Netherlands 1997
    (to 21 years; at five years 0.7 cm above WHO, never blended), the printed 3rd, 50th and 97th centiles of
    INTERGROWTH-21st (size at birth by gestation, its two models never blended at 33 weeks), mean and standard deviation
    of ANSUR II for grown-ups. A baby born at 27 to 36 weeks is followed by the postnatal standard of INTERGROWTH-21st
    to 64 weeks of postmenstrual age, then by WHO at its age from term; one born earlier by size at birth to term. A
    measured head keeps its own centile. Without a sex, girls and boys count in equal numbers.

    This is an aid to fitting a hat, not an assessment of growth.
    """
    return fitting.recommend(request)


@calculation(
    "/v1/sizing/check",
    id="checkSize",
    tag="Sizes",
    summary="Tell what a hat on the needles comes to, and whether to go on, block it, change the counts or rip back",
    example="size-check",
)
def check_size(request: size_check.SizeCheckRequest) -> size_check.SizeCheckAnswer:
    """The gauge as knitted is the plan's times planned / measured; the hat comes to its counts at that gauge.

    A hat of circumference H fits heads from H to 1.2 H, unstretched to stretched in comfort (common practice). An edge
    that the head can wear may stay: the hat is knitted on as it is, or with the counts of the gauge as knitted, led to
    by one round, from here or from the end of the brim. An edge that it cannot wear is taken back, unless washing or
    blocking brings it there: by print wool and cotton shrink by 1 to 2 cm, acrylic and viscose grow by 1 to 2.5 cm;
    wool keeps up to 5 % when it is blocked (common practice). Without a `length` the rows are taken to be off as the
    stitches are, since both are as large as the loop is long (Munden 1959). Before 3 cm of the body are done the answer
    is to knit on and measure there, whatever is measured: rib draws in, by about a third, and a rolled edge curls
    (common practice). Where too much is knitted for the depth as planned, the answer says how deep the hat becomes, and
    how many rounds to rip back for it; that comes first only where the hat would not reach the ears. Less than 3 %
    smaller than the head sits loosely (common practice). Blocking comes before ripping back only where it all but
    reaches the plan, half of the hat is knitted and the fibre is given (common practice). A width or circumference of
    twice or half the plan is asked for again (422): one was given as the other.
    """
    return size_check.check_size(request)
