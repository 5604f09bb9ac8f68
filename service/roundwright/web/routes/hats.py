"""The whole hat, in one size or in many."""

from contextlib import suppress
from typing import Final

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from roundwright.knitting.hat.defaults import with_defaults
from roundwright.language import words_of
from roundwright.web.routes.operation import calculation
from roundwright.wording.handout.content import Handout, HandoutPicture, HandoutRequest, handout
from roundwright.wording.handout.html import STYLES, html, policy
from roundwright.wording.handout.pdf import typst_data
from roundwright.wording.handout.text import markdown, plain_text
from roundwright.wording.writing import pattern as write
from roundwright.wording.writing.printed_quantities import one_line

CHART_WIDTH: Final = 400.0
"""Width of that chart in its own units: on 64 mm of paper its text is 5.7 points high."""
MAX_CHART_ROUNDS: Final = 24
"""Rounds of a crown whose chart is legible in half the width of a page and a third of its height."""


@calculation(
    "/v1/hats",
    id="planHats",
    tag="Hats",
    summary="The whole hat in 1 to 12 sizes: cast-on, needles, brim, body, crown, yarn and the written pattern",
    example="class-hats",
)
def plan_hats(request: hat_request.HatRequest) -> hat.HatsAnswer:
    """Cast-on = head x (1 + ease) x gauge, to the nearest multiple of the crown's repeat and the rib's.

    Depth, edge to top along the fabric, is 0.375 of the head, to the lower end of the ears; a baby's a third of the
    head and 1.5 cm (rules in print disagree; `silhouette`, `depth` and `body.length` override it). What the crown does
    not take is brim and body. The crown is worked as `/v1/crown` says, the needles
    are split as `/v1/needles/split` says (or are a magic loop, two circulars, or a short circular until the stitches no
    longer reach around it), the yarn is estimated as `/v1/yarn/estimate` says. Heads by age: WHO Child
    Growth Standards; by gestation: INTERGROWTH-21st; adults: ANSUR II. Every round is executed, and none is given
    that does not use exactly the stitches the one before left.
    """
    return hat.hats(request, write.pattern)


@calculation(
    "/v1/hats/handout",
    id="writeHandout",
    tag="Hats",
    summary="The pattern to hand out, as Markdown, plain text, a page to print or a PDF",
    example="class-handout",
    renderers={
        "text/markdown; charset=utf-8": markdown,
        "text/plain; charset=utf-8": plain_text,
        "text/html; charset=utf-8": html,
        "application/pdf": typst_data,
    },
    typeset="application/pdf",
    files={
        "md": "text/markdown; charset=utf-8",
        "txt": "text/plain; charset=utf-8",
        "html": "text/html; charset=utf-8",
        "pdf": "application/pdf",
    },
    file_name=write.hat_name,
    headers={"content-security-policy": policy(*STYLES)},
)
def write_handout(request: HandoutRequest) -> Handout:
    """What a class is handed: the pattern of `/v1/hats`, the yarn to buy, and a sheet to tick off for every size.

    It takes what `/v1/hats` takes, and `paper`. `Accept` chooses the form: `text/markdown` if nothing is said,
    `text/plain`, `text/html` or `application/pdf`. A sheet has a box for each round, and for each round of the crown
    the count after it, the stitches on each needle and what to slide before it (common practice: count after every
    round that changes the count). The HTML is one file without a script that loads nothing; its boxes can be ticked on
    a screen, and it prints on A4 or Letter as the PDF is set. Both begin with pictures of the first size, worn and
    laid flat, and have a chart of the longest crown where that is legible. Warnings of `/v1/hats` that are for whoever
    plans the hat stand at the end, on a page of their own.
    """
    answer = hat.hats(request, lambda *_: "")  # the pattern is written in its sections
    request = with_defaults(request, "#")  # the brim of a silhouette, for its words and its picture
    return handout(request, answer, lambda: _pictures(request, answer.sizes))


def _pictures(request: HandoutRequest, plans: tuple[hat.HatPlan, ...]) -> tuple[HandoutPicture, ...]:
    """The first size worn and laid flat, and a chart of a crown section if the reader can read it and it is legible.

    The chart is that of the longest crown: the pattern numbers its rounds, and shorter crowns join in.
    """
    # With the first handout, as the pictures of `routes/drawings.py`.
    from roundwright.drawing.hat_profile import hat_figures
    from roundwright.drawing.section_chart import section_chart

    words = words_of(request.language)
    pictures = [
        HandoutPicture("hat", str(figure.picture), figure.caption, figure.caption)
        for figure in hat_figures(plans[0], request.brim, words=words)
    ]
    plan = max(plans, key=lambda plan: len(plan.crown.rounds))
    if request.wording != "beginner" and len(plan.crown.rounds) <= MAX_CHART_ROUNDS:
        label = one_line(words.render(plan.label))
        with suppress(Impossible):  # the crown has no equal sections
            title = words.say("handout.crown", label=label)
            drawn = section_chart(plan.crown, title=title, theme="light", width=CHART_WIDTH, words=words)
            alt = words.say("handout.crown_chart", label=label)
            pictures.append(HandoutPicture("crown", str(drawn), alt))
    return tuple(pictures)
