"""The work that a count belongs to: a crown, a hat or a pattern in words, and the round the knitter has finished."""

from collections.abc import Callable, Sequence
from typing import Annotated, Final, NamedTuple, Protocol

from msgspec import Meta, Struct

from roundwright.knitting.answers import Impossible, LanguageTag, Notice, only_one
from roundwright.knitting.counting.assumed_needles import NeedleRequest, OnNeedles, share
from roundwright.knitting.counting.causes import Counted
from roundwright.knitting.counting.progress import (
    LineWriter,
    Needles,
    PartName,
    Place,
    Progress,
    Stage,
    stages_of,
    straight_stages,
)
from roundwright.knitting.crown.crown import crown_rounds
from roundwright.knitting.crown.request import MOST_CROWN_STITCHES, CrownRequest
from roundwright.knitting.hat.plan import HatRounds, hat_rounds
from roundwright.knitting.hat.request import MOST_SIZES, HatRequest, require_size
from roundwright.knitting.needles.best_split import FEWEST_NEEDLES, MOST_NEEDLES, USUAL_TOLERANCE
from roundwright.knitting.rounds.round import LAST_ROUND, LONGEST_TEXT, MOST_STITCHES, Round
from roundwright.language import Language, say, say_count

SizeNumber = Annotated[int, Meta(ge=1, le=MOST_SIZES)]
StitchCount = Annotated[int, Meta(ge=1, le=MOST_STITCHES)]


class WrittenPattern(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A pattern in words, as `/v1/patterns/proofread` takes it."""

    cast_on: Annotated[
        tuple[StitchCount, ...],
        Meta(
            min_length=1,
            max_length=MOST_SIZES,
            description="Stitches cast on, a count for each size.",
            examples=[[64, 72, 80]],
        ),
    ]
    text: Annotated[
        str,
        Meta(
            max_length=LONGEST_TEXT,
            description="The pattern as printed, or the part with the rounds.",
            examples=["Rnd 1: *k6, k2tog; rep from * (56)"],
        ),
    ]
    language: LanguageTag = None


class CountRequest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A count just made, and the work it belongs to: exactly one of `crown`, `hat` and `pattern`."""

    crown: Annotated[
        CrownRequest | None, Meta(description="The crown being worked, as `/v1/crown` takes it.")
    ] = None
    hat: Annotated[
        HatRequest | None,
        Meta(
            description="The hat being worked, as `/v1/hats` takes it. With its `wording` for beginners the sentences "
            "of the answer tell rounds in words, too; `text` of a round is its line all the same."
        ),
    ] = None
    pattern: Annotated[WrittenPattern | None, Meta(description="The pattern being followed, in words.")] = (
        None
    )
    size: Annotated[
        SizeNumber | None,
        Meta(
            description="Which size of the hat or the pattern is worked, from 1. Left out: `only_size` of the hat, "
            "else 1."
        ),
    ] = None
    count: Annotated[
        StitchCount | None,
        Meta(description="Stitches counted on all needles together. Either this or `needles`."),
    ] = None
    needles: Annotated[
        Annotated[
            tuple[Annotated[int, Meta(ge=0, le=MOST_CROWN_STITCHES)], ...],
            Meta(min_length=1, max_length=MOST_NEEDLES),
        ]
        | None,
        Meta(
            description="Stitches counted on each needle, the first of the round first; 0 for an empty one. It tells "
            "more than `count`: on which needle a slip was made.",
            examples=[[16, 16, 16, 15]],
        ),
    ] = None
    round: Annotated[
        Annotated[int, Meta(ge=0, le=LAST_ROUND)] | None,
        Meta(
            description="Number of the round just finished, as the pattern numbers it; 0 where none is worked yet. Of "
            "a hat: of the crown, where `part` says nothing else; of a pattern in words: a round with this printed "
            "number before a round that is only counted. Left out where the place is lost."
        ),
    ] = None
    part: Annotated[
        PartName | None,
        Meta(
            description="Part of the hat being worked, where it is known. `round` counts from 1 in each part; in the "
            "crown of a size that joins in later, from the number with which the pattern begins it."
        ),
    ] = None
    split: Annotated[
        Annotated[
            tuple[Annotated[int, Meta(ge=1, le=MOST_CROWN_STITCHES)], ...],
            Meta(min_length=FEWEST_NEEDLES, max_length=MOST_NEEDLES),
        ]
        | None,
        Meta(
            description="Stitches on each needle before the first round, where the knitter shares them out in a way of "
            "their own. Left out: as the crown or hat asks for, else as the service would share them out; evenly, "
            "with the warning `split_assumed`, where `needles` lie near that and far from the other."
        ),
    ] = None
    language: Language = None

    @property
    def worked_size(self) -> int:
        """The size that is worked, from 1."""
        return self.size or (self.hat.only_size if self.hat else None) or 1


class Finding(Protocol):
    """What is wrong with a line of a pattern: as `wording` finds it."""

    @property
    def line(self) -> int:
        """Line of the text, from 1."""

    @property
    def severity(self) -> str:
        """`error` where the line does not come out."""

    @property
    def size(self) -> int | None:
        """The size, from 1; None where it holds for all."""

    @property
    def message(self) -> str:
        """What is wrong, in a sentence."""

    @property
    def repair(self) -> str | None:
        """The line as it would come out."""


class Reading(Protocol):
    """A pattern as read: the rounds of each size and what was found."""

    @property
    def language(self) -> str:
        """The language in which it was read."""

    @property
    def rounds(self) -> tuple[tuple[Round, ...], ...]:
        """The rounds of each size."""

    @property
    def findings(self) -> Sequence[Finding]:
        """What was found."""

    @property
    def printed(self) -> tuple[tuple[bool, ...], ...]:
        """Of the rounds of each size, whether the text numbers them."""


Reader = Callable[[str, tuple[int, ...], str | None], Reading]
"""Reads a text, given the stitches cast on for each size, and its language where that is known.

Words are of a storey above, so the reader is handed in."""


def count_of(request: CountRequest) -> Counted:
    """The count. Raises `Impossible` where there is none, or two."""
    only_one(request, "count", "needles", what=say("given.count"), missing_at="#/count")
    if request.needles is None:
        return Counted(request.count or 0, None)
    if not any(request.needles):
        raise Impossible(
            say("count.no_stitches"),
            code="out_of_range",
            pointer="#/needles",
            nearest=say_count("stitches", 1),
        )
    return Counted(sum(request.needles), request.needles)


def stated_places(request: CountRequest, progress: Progress) -> tuple[Place, ...]:
    """The places (index of a stage, round) that the request gives; none where it gives neither round nor part."""
    number, part = request.round, request.part
    if number is None and part is None:
        return ()
    if part is None and request.hat is not None:
        part = "crown"
    of_part = [(index, stage) for index, stage in enumerate(progress.stages) if part in (None, stage.part)]
    if part is not None and not of_part:
        raise Impossible(
            say(f"count.no_rounds.{part}"),
            code="not_there",
            pointer="#/part" if request.part else "#/round",
            nearest=say(f"count.nearest_part.{progress.stages[-1].part}"),
        )
    if number is None:
        return _begun(progress, of_part)
    if not number and of_part[0][0]:  # the part before is done
        before = of_part[0][0] - 1
        return ((before, progress.stages[before].last),)
    places = tuple((index, number) for index, stage in of_part if stage.first <= number <= stage.last)
    if not places and progress.unread is not None:
        raise progress.unread
    first = min(stage.first for _, stage in of_part)
    if not places and number < first:
        raise Impossible(
            say("count.joins_later", number=number, size=request.worked_size, first=first),
            code="not_there",
            pointer="#/round",
            nearest=say("count.named.round", number=first),
            suggested=first,
        )
    if not places:
        last = max(stage.last for _, stage in of_part)
        whose = f".{part}" if part else ""
        raise Impossible(
            say(f"count.no_such.{progress.word}{whose}", number=number, last=last),
            code="not_there",
            pointer="#/round",
            nearest=say("count.named.round", number=last),
            suggested=last,
        )
    return places


def printed_first(progress: Progress, places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Of the places of a number, those that a pattern prints with it, where it prints any: the others are counted."""
    return tuple(place for place in places if progress.is_printed(*place)) or places


def _begun(progress: Progress, of_part: Sequence[tuple[int, Stage]]) -> tuple[Place, ...]:
    """The first rounds of the stages of a part; of a crown also the last before it, which leaves as many stitches."""
    places = tuple((index, stage.first) for index, stage in of_part)
    before = of_part[0][0] - 1
    if of_part[0][1].part != "crown" or before < 0:
        return places
    return (*places, (before, progress.stages[before].last))


# --- the rounds ---------------------------------------------------------------------------------------------


def progress_of(request: CountRequest, read: Reader, in_sentences: LineWriter) -> Progress:
    """The rounds of the work in stages, told in sentences for a hat that is worded so.

    Raises `Impossible` for a request that names no work or more than one, and for work that cannot be knitted.
    """
    only_one(request, "crown", "hat", "pattern", what=say("given.counted_work"), missing_at="#/crown")
    if request.part is not None and request.hat is None:
        raise Impossible(
            say("count.parts_of_what"),
            code="needs_another",
            pointer="#/part",
            nearest=say("count.round_or_hat"),
            suggested=None,
        )
    if request.crown is not None:
        return _of_crown(request, request.crown)
    if request.hat is not None:
        return _of_hat(request, request.hat, in_sentences)
    assert request.pattern is not None
    return _of_pattern(request, request.pattern, read)


def _of_crown(request: CountRequest, crown: CrownRequest) -> Progress:
    planned = crown_rounds(
        crown.stitches, crown, crown.gauge, pointer="#/crown", gauge_pointer="#/crown/gauge"
    )
    flat = crown.worked == "flat"
    needles = NeedleRequest(
        request.split, crown.needles, crown.tolerance, request.needles, flat, "#/crown", crown.repeat
    )
    shared = share(planned.rounds, crown.stitches, needles)
    return Progress(
        tuple(stages_of(shared.rounds, crown.stitches, "crown", shared.needles)),
        shared.known,
        "row" if flat else "round",
        (*planned.warnings, *shared.notices),
    )


def _of_hat(request: CountRequest, hat: HatRequest, in_sentences: LineWriter) -> Progress:
    size_at = "#/hat/only_size" if request.size is None else "#/size"
    require_size(request.worked_size, len(hat.sizes), size_at)
    held = hat.needles_of(request.worked_size - 1)
    on_circular = request.split is None and held is not None and held.circular is not None
    planned = hat if on_circular else hat.without_needles()
    rounds = hat_rounds(planned, request.worked_size - 1, "#/hat", as_printed=True)
    crown, adjust = rounds.crown, rounds.adjust
    flat = crown.worked == "flat"
    on_needles = hat.needles_held(request.worked_size - 1)
    needles = NeedleRequest(
        request.split, on_needles, hat.tolerance, request.needles, flat, "#/hat", hat.brim.repeat
    )
    shaped = crown.rounds if adjust is None else (adjust, *crown.rounds)
    cast_on = rounds.brim.lines[0].before
    shared = _after_change(rounds, shaped, request.needles) or share(shaped, cast_on, needles)
    crown_rounds, before_crown = shared.rounds, shared.needles
    if adjust is not None:
        adjust, *rest = shared.rounds
        crown_rounds, before_crown = tuple(rest), adjust.needles
    above = stages_of(crown_rounds, crown.stitches, "crown", before_crown)
    start = above.pop(0)  # what is there before the crown is there after the body
    if start.last:
        above.insert(0, start._replace(first=1))
    return Progress(
        (
            *straight_stages(rounds.brim, 0, shared.needles, adjust),
            *straight_stages(rounds.body, 1, before_crown, adjust),
            *above,
        ),
        shared.known,
        "row" if flat else "round",
        (*crown.warnings, *shared.notices),
        loop=held is not None and held.magic_loop is not None and len(shared.needles or ()) == 2,
        in_sentences=in_sentences if hat.wording == "beginner" else None,
    )


def _after_change(hat: HatRounds, shaped: tuple[Round, ...], counted: Needles | None) -> OnNeedles | None:
    """The rounds of a hat on a short circular, as shared out over the double-pointed needles that take over.

    None where none take over, and for a count of more needles than those.
    """
    split = next((round.needles for round in hat.crown.rounds if round.needles), ())
    if not split or len(counted or ()) > len(split):
        return None
    return OnNeedles(shaped, hat.brim.lines[0].needles, known=True)


def _of_pattern(request: CountRequest, pattern: WrittenPattern, read: Reader) -> Progress:
    require_size(request.worked_size, len(pattern.cast_on), "#/size")
    followed = follow(pattern, request.worked_size, read)
    stitches = pattern.cast_on[request.worked_size - 1]
    shared = share(
        followed.rounds, stitches, NeedleRequest(request.split, None, USUAL_TOLERANCE, request.needles)
    )
    return Progress(
        tuple(stages_of(shared.rounds, stitches, None, shared.needles)),
        shared.known,
        "round",
        (*followed.notices, *shared.notices),
        followed.unread,
        printed=followed.printed,
        fragment=followed.unread is None
        and bool(followed.rounds)
        and followed.rounds[-1].after > MOST_DRAWN_TOGETHER,
    )


# --- a pattern in words -------------------------------------------------------------------------------------

MOST_DRAWN_TOGETHER: Final = 20
"""Stitches drawn together at the top: 6 to about 20 (common practice). A text that ends with more is a part."""
MOST_READINGS: Final = 3
"""Times a text is read: what stands before a line that does not come out may be wrong without that line, too."""


class Followed(NamedTuple):
    """The rounds of a pattern as far as they are sure, and why not farther."""

    rounds: tuple[Round, ...]
    unread: Impossible | None = None
    notices: tuple[Notice, ...] = ()
    printed: tuple[bool, ...] = ()


def follow(pattern: WrittenPattern, size: int, read: Reader) -> Followed:
    """The rounds of a size (from 1) up to the first line that does not come out.

    Raises `Impossible` where no round comes before that line.
    """
    text = pattern.text.replace("\r\n", "\n").replace("\r", "\n")
    language = pattern.language
    wrong: Finding | None = None
    for _ in range(MOST_READINGS):
        reading = read(text, pattern.cast_on, language)
        language = reading.language
        errors = [
            finding
            for finding in reading.findings
            if finding.severity == "error" and finding.size in (None, size)
        ]
        rounds = reading.rounds[size - 1]
        if not errors:
            followed = Followed(rounds) if wrong is None else _followed_until(rounds, wrong)
            return followed._replace(printed=reading.printed[size - 1])
        first = min(errors, key=lambda finding: finding.line)
        wrong = wrong if wrong is not None and wrong.line <= first.line else first
        text = "\n".join(text.split("\n")[: first.line - 1])
        if not text.strip():
            break
    assert wrong is not None  # every reading but the last found something
    raise _does_not_come_out(wrong)


def _does_not_come_out(finding: Finding) -> Impossible:
    return Impossible(
        say("count.line_of_pattern", line=finding.line, message=finding.message),
        code="does_not_come_out",
        pointer="#/pattern/text",
        nearest=finding.repair,
    )


def _followed_until(rounds: tuple[Round, ...], finding: Finding) -> Followed:
    if not rounds:
        raise _does_not_come_out(finding)
    last = rounds[-1].number
    beyond = Impossible(
        say("count.pattern.beyond", round=last, line=finding.line, why=finding.message),
        code="does_not_come_out",
        pointer="#/pattern/text",
        nearest=finding.repair or say("count.pattern.before", round=last),
    )
    notice = Notice(
        code="followed_in_part",
        message=say("count.pattern.followed_until", round=last, line=finding.line, why=finding.message),
        pointer="#/pattern/text",
    )
    return Followed(rounds, beyond, (notice,))
