"""Every sentence of the answer to a count, by its key, in the words a teacher uses beside a beginner.

Only refusals of a request stand elsewhere. A key ends in `one` for a single thing, and in `other` for several.
"""

from typing import Final


def text(key: str, **fields: object) -> str:
    """The sentence of a key, with its fields filled in."""
    return TEXTS[key].format_map(fields)


def counted_text(key: str, count: int, **fields: object) -> str:
    """The sentence of a key for one thing, or for several; `count` is one of its fields."""
    return text(f"{key}.{'one' if count == 1 else 'other'}", count=count, **fields)


def stitches(count: int) -> str:
    """So many stitches: `1 stitch`, `2 stitches`."""
    return counted_text("stitches", count)


def listed(words: list[str]) -> str:
    """Words as a list in a sentence: `1`, `1 and 3`, `1, 2 and 4`."""
    return " and ".join(", ".join(words).rsplit(", ", 1))


_COUNT_ON_NEEDLE: Final = (
    "To tell the two apart, count the decreases on that needle: with none at all, it was worked plain."
)

TEXTS: Final[dict[str, str]] = {
    "stitches.one": "1 stitch",
    "stitches.other": "{count} stitches",
    # a count that is right
    "right.one": "1 stitch is right {rounds}.",
    "right.other": "{count} stitches are right {rounds}.",
    "right.which": (
        "To see which of these rounds you have finished, look just below the needles: if the decreases are right "
        "there, the decrease round was the last; otherwise count the rounds from the decreases up."
    ),
    "right.next": "Next is {line}: {text}.",
    # what to work next
    "go_on.next": "Then work {line}: {text}.",
    "go_on.done": "That was the last {word}: go on to the finish.",
    "go_on.unread": "The line after that is not followed here: the warning says why.",
    # counting again
    "count_again.message": (
        "You counted {counted}, and {place} there should be {due}. It is easier to miscount a stitch than to knit one "
        "wrong, so count again before you change anything."
    ),
    "count_again.message.needle": (
        "You counted {counted} on needle {needle}, and there should be {due}. It is easier to miscount a stitch than "
        "to knit one wrong, so count that needle again before you change anything."
    ),
    "count_again.message.pair": (
        "You counted {counted}, and {place} there should be {due}. When you count in twos, it is easy to skip a pair "
        "or to count it twice, so count again before you change anything."
    ),
    "count_again.where": (
        "Start at the {start} and hang a scrap of yarn on the needle after every ten stitches."
    ),
    "count_again.where.needle": "Count needle {needle} by itself, pushing each stitch along with a finger.",
    "count_again.fix": "If it comes to {due} this time, nothing is wrong. {go_on}",
    "count_again.otherwise": "If the count stays the same, the likeliest cause is this. {cause}",
    "far.message": (
        "No {word} leaves {stitches}, and no small mistake does. The nearest count is {due}, {place}."
    ),
    "far.where": (
        "Count again, from the {start} and needle by needle. Then see that this is the pattern and the size you knit."
    ),
    "far.fix": (
        "Take nothing back yet. If the count stays the same, find the last {word} you are sure of and count the "
        "{word}s from there up. If it is {due} after all, that is right {place}. {go_on}"
    ),
    # a stitch too many or too few
    "off.many.one": "{what}. You have 1 stitch too many.",
    "off.many.other": "{what}. You have {count} stitches too many.",
    "off.few.one": "{what}. You have 1 stitch too few.",
    "off.few.other": "{what}. You have {count} stitches too few.",
    "off.on_needle": " on needle {needle}",
    "off.or_since": "{round} or since",
    "off.needle.many": "needle {needle} has {count} too many",
    "off.needle.few": "needle {needle} has {count} too few",
    "missed_decrease.happened.one": "A decrease of {round} was forgotten{on}",
    "missed_decrease.happened.other": "Decreases of {round} were forgotten{on}",
    "missed_decrease.where": (
        "Follow the line of that round along the needles: where it decreases and no stitch leans over its neighbour, "
        "you have found it."
    ),
    "extra_decrease.happened.one": "Two stitches were worked together by mistake{on}, in {round}",
    "extra_decrease.happened.other": "Stitches were worked together by mistake{on}, in {round}",
    "extra_decrease.where": "Look for a stitch that leans over its neighbour where the line has no decrease.",
    "missed_increase.happened.one": "An increase of {round} was forgotten{on}",
    "missed_increase.happened.other": "Increases of {round} were forgotten{on}",
    "missed_increase.where": (
        "Follow the line of that round along the needles: where it increases and there is no new stitch, you have "
        "found it."
    ),
    "dropped_stitch.happened.one": "A stitch has slipped off{on}",
    "dropped_stitch.happened.other": "{count} stitches have slipped off{on}",
    "dropped_stitch.where": (
        "Pull the fabric gently sideways just below the needles, a little at a time: where a stitch has dropped, a "
        "ladder opens, with a loose loop at its foot."
    ),
    "extra_stitch.happened.one": (
        "A stitch was added by accident{on}: the yarn went over the needle, or one stitch was split into two"
    ),
    "extra_stitch.happened.other": (
        "{count} stitches were added by accident{on}: the yarn went over the needle, or stitches were split"
    ),
    "extra_stitch.where": (
        "Look for a loop that lies slantwise over the needle with a hole below it, or for two thin loops that come "
        "out of one stitch."
    ),
    "cast_on.extra_stitch": "More stitches were cast on than planned",
    "cast_on.dropped_stitch": "Fewer stitches were cast on than planned, or one has slipped off",
    "where.only_decrease.needle": "The only decrease there comes about {stitches} after the start of the needle.",
    "where.only_decrease.round": "The only decrease there comes about {stitches} after the start of the round.",
    "where.between_decreases": (
        "Count from one decrease to the next. There should be {wide} each time; where there are {wrong}, "
        "there it is."
    ),
    "where.rib.one_by_one": "In the rib you can see it: two knits, or two purls, stand side by side.",
    "where.rib.many": "In the rib you can see it: one column is wider than {knit} or {purl}.",
    "where.rib.few": "In the rib you can see it: one column is narrower than {knit} or {purl}.",
    # putting it right
    "dropped_stitch.fix.one": (
        "Catch the loop with a crochet hook. Draw the strands of the ladder through it one after the other, the lowest "
        "first, and put it back on the needle: the count is right again. {go_on}"
    ),
    "dropped_stitch.fix.other": (
        "Catch each loop with a crochet hook. Draw the strands of the ladder through it one after the other, the "
        "lowest first, and put it back on the needle: the count is right again. {go_on}"
    ),
    "dropped_stitch.fix.rib": "Catch a knit from the front of the fabric, and a purl from the back.",
    "cast_on.fix.few": "If no round is knitted yet, just cast on what is missing.",
    "cast_on.fix.many": "If no round is knitted yet, just undo what is too many.",
    "fix.dropped_first": "First make sure that no stitch has dropped: a dropped one is caught, not made anew.",
    "fix.let_drop": (
        "If it is only a strand over the needle, let it drop off when you come to it, and work on as written: the "
        "yarn goes into the stitches beside it. If it has been knitted already, do this."
    ),
    "fix.mend": "Knit on to {line} and mend it there. {how}: {text}. That leaves {after}, as it should.",
    "fix.together.one": "Work the stitch that is too many together with its neighbour",
    "fix.together.other": "Work each stitch that is too many together with its neighbour",
    "fix.take_in.one": "Let a decrease take in the stitch that is too many",
    "fix.take_in.other": "Let a decrease take in each stitch that is too many",
    "fix.make.one": "Make a stitch out of the strand between two stitches",
    "fix.make.other": "Make each missing stitch out of the strand between two stitches",
    "fix.leave_out.one": "Leave out a decrease",
    "fix.leave_out.other": "Leave out a decrease for each missing stitch",
    "fix.there": "If you have found the place, do it there.",
    "fix.there.rib.many": (
        "In rib do it just where the columns go wrong: work two knits together (k2tog) or two purls (p2tog). Before "
        "and after it knit the knits and purl the purls, and the columns go on."
    ),
    "fix.there.rib.few": (
        "In rib do it just where the columns go wrong: make a knit (m1) or a purl (m1p), whichever is missing. Before "
        "and after it knit the knits and purl the purls, and the columns go on."
    ),
    "fix.last_resort": "Taking the work back to the place is the last resort.",
    "fix.harmless": (
        "There is no round left to mend it in, and it does no harm: draw the yarn through all the stitches."
    ),
    "fix.unread": (
        "Mend it in the next line of the pattern, which is not followed here: the warning says why."
    ),
    "fix.cast_on_anew": "Count again. If it is so, cast on anew: nothing is lost yet.",
    "fix.take_back": (
        "So many cannot be put right in one {word}. Count again. If it is so, take the work back until {before} are "
        "on the needles, and work {line} again: {text}."
    ),
    # telling two causes apart: by one of their kinds, or by their codes in the order of the alphabet
    "apart.elsewhere": (
        "To tell the two apart, lay the work flat and count the decreases above one another: they say how many "
        "decrease rounds you have done."
    ),
    "apart.line": (
        "To tell the two apart, compare the stitches from one decrease to the next with the line that was due: if they "
        "differ all around, the wrong line was worked."
    ),
    "apart.midway": (
        "To tell the two apart, see where the working yarn hangs. If it hangs in the middle of the round, the round is "
        "half done; if it hangs at the marker, the round is finished and something is amiss in it."
    ),
    "apart.extra_stitch+missed_decrease": (
        "To tell a forgotten decrease from an added stitch, look at the decreases one by one. If none is missing, a "
        "stitch was added somewhere between them, mostly with a small hole below it."
    ),
    "apart.dropped_stitch+extra_decrease": (
        "To tell a dropped stitch from two worked together, pull the fabric gently sideways below the needles. A "
        "dropped stitch opens into a ladder; two worked together hold fast, and one leans over the other."
    ),
    "apart.dropped_stitch+missed_increase": (
        "To tell a dropped stitch from a forgotten increase, pull the fabric gently sideways below the needles. A "
        "dropped stitch opens into a ladder. If nothing opens, look at the increases one by one."
    ),
    "apart.missed_decrease+worked_plain": _COUNT_ON_NEEDLE,
    "apart.extra_stitch+worked_plain": _COUNT_ON_NEEDLE,
    # needles
    "worked_plain.needles.one": "needle {needles}",
    "worked_plain.needles.other": "needles {needles}",
    "worked_plain.message.one": (
        "In {round} {needles} was worked plain: its decreases were forgotten. You have {stitches} too many."
    ),
    "worked_plain.message.other": (
        "In {round} {needles} were worked plain: their decreases were forgotten. You have {stitches} too many."
    ),
    "worked_plain.where": (
        "Look just below {needles}: no stitch leans over its neighbour there, as they do on the others."
    ),
    "worked_plain.fix": (
        "Make up for it in {line}: decrease on {needles} as {round} says, and work the others as they come: {text}. "
        "That leaves {after}, as it should, and nobody will see it. {last_resort}"
    ),
    "worked_plain.fix.first": (
        "Before you go on, work around once more: decrease on {needles} as {round} says, and knit the others: {text}. "
        "That leaves {after}, as it should, and a round more on the others does no harm. {go_on} {last_resort}"
    ),
    "merged.message": "All stitches of needles {full} and {empty} are on one needle. The count itself is right.",
    "merged.where": "The stitches of needle {empty} begin after the first {share} on it.",
    "merged.fix.one": "Slide the other stitch to an empty needle. Nothing has to be taken back. {go_on}",
    "merged.fix.other": (
        "Slide the other {count} stitches to an empty needle. Nothing has to be taken back. {go_on}"
    ),
    "strayed.message.one": "Needle {more} has a stitch that belongs on needle {less}. The count itself is right.",
    "strayed.message.other": (
        "Needle {more} has {count} stitches that belong on needle {less}. The count itself is right."
    ),
    "strayed.where.last.one": "It is the last on needle {more}.",
    "strayed.where.last.other": "They are the last {count} on needle {more}.",
    "strayed.where.first.one": "It is the first on needle {more}.",
    "strayed.where.first.other": "They are the first {count} on needle {more}.",
    "strayed.fix.one": "Slide it over before you go on. Nothing has to be taken back. {go_on}",
    "strayed.fix.other": "Slide them over before you go on. Nothing has to be taken back. {go_on}",
    "spread.message": "The count is right, but the stitches do not lie on the needles as planned.",
    "spread.where": "The needles should hold {shares} {place}.",
    "spread.fix": (
        "Slide stitches from needle to needle until they do. If you share them out in a way of your own, send it as "
        "`split`. {go_on}"
    ),
    # another round
    "elsewhere.message": (
        "Your stitches are just right {rounds}: you may be in another {word} than you think."
    ),
    "elsewhere.since": "{rounds}, as ever since {first}",
    "elsewhere.up_to": "{rounds}, and up to {last}",
    "elsewhere.where": (
        "Look at the work: count the decreases above one another, and the plain {word}s above the last of them."
    ),
    "elsewhere.fix": "If it is so, nothing has to be taken back. {go_on}",
    "elsewhere.fix.needles": (
        "If it is so, nothing has to be taken back. Slide stitches until the needles hold {shares}. {go_on}"
    ),
    "wrong_line.message": (
        "In {place} the line of another {word} was worked: by the line of {other}, {before} make {counted}."
    ),
    "wrong_line.where": "Look all the way around, and compare with the line that was due: {text}.",
    "wrong_line.fix": (
        "The count comes out all the same; only the decreases do not lie above one another. Slide stitches until the "
        "needles hold what they should. {go_on} {last_resort}"
    ),
    "midway.message.one": "{place} is only half done: needle 1 is worked, the rest not yet.",
    "midway.message.other": "{place} is only half done: needles {needles} are worked, the rest not yet.",
    "midway.where": "The {word} goes on at the start of needle {needle}.",
    "midway.fix": "Nothing has to be taken back: work on from there to the end of the {word}.",
    # a pattern in words
    "pattern.followed_until": (
        "The pattern is followed up to round {round}. After that, line {line} does not come out: {why} Up to there it "
        "makes no difference."
    ),
    "pattern.beyond": (
        "The pattern is followed up to round {round} only, because line {line} does not come out. {why}"
    ),
}
