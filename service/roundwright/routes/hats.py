"""The whole hat, in one size or in many."""

from roundwright.knitting import hat
from roundwright.routes.operations import calculation
from roundwright.wording import write


@calculation(
    "/v1/hats",
    id="planHats",
    tag="Hats",
    summary="The whole hat in 1 to 12 sizes: cast-on, needles, brim, body, crown, yarn and the written pattern",
    example="class-hats",
)
def plan_hats(request: hat.HatRequest) -> hat.HatsAnswer:
    """Cast-on = head x (1 + ease) x gauge, to the nearest multiple of the crown's repeat and the rib's.

    Depth, edge to top along the fabric, is a third of the head and 1.5 cm (rules in print disagree; `body.length`
    overrides it); what the crown does not take is brim and body. The crown is worked as `/v1/crown` says, the needles
    are split as `/v1/needles/split` says, the yarn is estimated as `/v1/yarn/estimate` says. Heads by age: WHO Child
    Growth Standards; by gestation: INTERGROWTH-21st; adults: ANSUR II. Every round is executed, and none is given
    that does not use exactly the stitches the one before left.
    """
    return hat.hats(request, write.pattern)
