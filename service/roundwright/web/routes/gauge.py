"""Gauge, said in every way the trade says it."""

from roundwright.knitting.gauge import convert as gauge
from roundwright.knitting.gauge import substitute
from roundwright.web.routes.operation import calculation


@calculation(
    "/v1/gauge/convert",
    id="convertGauge",
    tag="Gauge",
    summary="Say a gauge in 10 cm, 4 in and 1 in, with its yarn classes and needles",
    example="gauge-convert",
    by_query="gauge-convert",
)
def convert_gauge(request: gauge.ConvertRequest) -> gauge.ConvertAnswer:
    """Stitches in a length L are L / w, where w = over / stitches is the width of one stitch; rows alike.

    4 in is 10.16 cm, 1.6 % more than the 10 cm that the trade prints beside it; the answer keeps them apart. Yarn
    classes and needle numbers come from the published tables at `/v1/standards/yarn-weights` and
    `/v1/standards/needle-sizes`.
    """
    return gauge.convert(request)


@calculation(
    "/v1/gauge/substitute",
    id="substituteGauge",
    tag="Gauge",
    summary="Set your gauge against a pattern's: what size comes out, and the counts that keep the size",
    example="gauge-substitute",
    by_query="gauge-substitute",
)
def substitute_gauge(request: substitute.SubstituteRequest) -> substitute.SubstituteAnswer:
    """N stitches of the pattern are N w wide; with stitches of the width v, N w / v of them are as wide. Rows alike.

    Followed as written, the piece comes out v / w times as wide. Each count is fitted to its multiple. A yarn held
    double is reckoned at 0.73 of the stitch gauge of one strand (in print); which way and how far to change the needle
    is a rule of thumb, common practice.
    """
    return substitute.substitute(request)
