"""Rounds that are worked again: `rnds 1 and 2`, `the last 2 rnds`, `Dec round`, `steps 5 and 6`."""

from typing import Final

from msgspec.structs import replace

from roundwright.wording.reading.parsing.looking import CRAFTS, REPEATS, TOGETHER
from roundwright.wording.reading.parsing.sequences import SequenceReader
from roundwright.wording.reading.phrases import (
    FIRST_ROUND,
    FROM_THERE,
    OF_ALL,
    Again,
    Continue,
    Extent,
    Needlewise,
    Phrase,
    Rep,
    Rounds,
    Said,
    Star,
    Stitches,
    Times,
)
from roundwright.wording.reading.tokens import (
    COLON,
    COMMA,
    DASH,
    EQUALS,
    LINE,
    SEMI,
    SPACE,
    STOP,
    Token,
)
from roundwright.wording.reading.tree import NAMED_KINDS, NOTHING, ONE, PLAIN_ROUND, Number, Stitch, named


class AgainReader(SequenceReader):
    """Reads what is worked again."""

    def again_from(self, ahead: int) -> Again | None:
        """Rounds that are worked again, from this word on: `rnds 1 and 2`, `last 2 rnds`, `these 6 rnds`."""
        while self.kind(ahead) in ("from", "work") and self.kind(ahead + 1) in (
            "round",
            "last",
            "these",
            "each",
        ):
            ahead = self.skip(ahead + 1)
        kind = self.kind(ahead)
        if sequence := self.sequence(ahead):
            return sequence
        if kind == "step":
            return self.steps(ahead)
        if kind == "round":
            return self.named(ahead)
        if kind in ("ordinal", "number", "range") and self.named_first(ahead):
            return self.named(ahead)
        if kind == "each" and self.token(ahead).text == "both" and self.kind(ahead + 1) == "round":
            return Again(*self.take(ahead + 2), last=2)
        if kind in ("last", "these") and (last := self.last_rounds(ahead)):
            return last
        if (
            kind in ("rib", "moss", "pattern", "decrease", "increase", "garter")
            and self.kind(ahead + 1) == "round"
            and not self.flags(ahead + 1) & STOP
            and (
                self.kind(ahead + 2) != "number" or self.ends_at(ahead + 2) or self.kind(ahead + 3) in _OFTEN
            )
        ):
            plural = self.token(ahead + 1).text.endswith("s") and kind != "decrease"
            names = (named(kind),) if kind in NAMED_KINDS else ()
            return Again(*self.take(ahead + 2), names, last=2 if plural else 1)
        if self.letter(ahead) and self.is_lettered(ahead + 1):
            return self.lettered(ahead)
        return None

    def from_there(self, ahead: int) -> Phrase | None:
        """`repeat from round 1 twice more`, `rep from rnd 1 until 30 rnds are done`: all rounds from that on."""
        number = self.token(ahead + 1).number
        ends = self.ends_at(ahead + 2) or self.kind(ahead + 2) in _BEHIND_LAST
        if self.kind(ahead) != "round" or self.kind(ahead + 1) != "number" or not ends or number is None:
            return None
        if self.flags(ahead + 2) & DASH or not self.joined(ahead + 1):
            return None
        return Again(*self.take(ahead + 2), (number.of(0) or 1,), segments=FROM_THERE)

    def pattern_again(self, *, work: bool = False) -> Phrase | None:
        """`repeat this pattern twice more`, `work the pattern 3 times`, `work two more repeats`: all its rounds.

        It is so only at the beginning of a line, or where it was said how many rounds form the pattern.
        """
        last = self.told_before() if self.is_pattern_told() else 0
        if not (last or self.flags(0) & LINE or not self.place):
            return None
        ahead = self.skip(1)
        noun = ahead + 1 + (self.kind(ahead + 1) == "more")
        if self.kind(ahead) == "number" and self.text_of(noun) in REPEATS and self.joined(noun):
            return self.pattern_from(ahead, last, work=work)
        ahead += self.kind(ahead) == "these"
        named = self.kind(ahead) == "pattern" or self.text_of(ahead) in _PATTERNS
        often = self.kind(ahead + 1) == "often" or self.kind(ahead + 2) in ("times", "more")
        if not named or not often or not self.joined(ahead) or not self.joined(ahead + 1):
            return None
        return self.pattern_from(ahead + 1, last, work=work)

    def pattern_until(self, ahead: int) -> Phrase | None:
        """`Cont in patt until 5 patts have been worked`, where its rounds were told to be the pattern; else None."""
        last = self.told_before() if self.is_pattern_told() else 0
        while self.kind(ahead) in ("in", "pattern", "manner", "") and self.joined(ahead):
            ahead += 1
        if not last or self.kind(ahead) not in ("to", "until") or not self.joined(ahead):
            return None
        place = self.place
        self.place += ahead
        far = self.next_phrase()
        self.place = place
        return self.pattern_from(ahead, last, work=False) if type(far) is Times else None

    def pattern_from(self, ahead: int, last: int, *, work: bool) -> Phrase:
        """So many rounds told before as the pattern, or all of this part."""
        if last:
            return Again(*self.take(ahead), last=last, work=work)
        return Again(*self.take(ahead), (1,), work=work, segments=FROM_THERE)

    def is_lettered(self, ahead: int) -> bool:
        """Whether what stands behind a letter shows that it names a round: `work A and B`, `work A only`."""
        if self.kind(ahead) in _JOINTS and self.letter(ahead + 1):
            return True
        counted = self.kind(ahead) == "number" and self.kind(ahead + 1) in ("times", "more")
        return counted or self.kind(ahead) in _BEHIND_LETTER or self.ends_at(ahead)

    def last_rounds(self, ahead: int) -> Again | None:
        """`last 2 rnds`, `these 6 rnds`."""
        count = begun = self.skip(ahead + 1)
        last = 1
        if self.kind(count) == "last":
            count = self.skip(count + 1)
        if self.kind(count) == "number" and self.kind(count + 1) not in ("more", "times"):
            last = (self.token(count).number or ONE).of(0) or 1
            count += 1
        while (self.kind(count) in _SORTS or self.text_of(count) == "crown") and self.kind(
            count + 1
        ) == "round":
            count += 1
        if self.kind(count) != "round":
            numbered = self.kind(count - 1) == "number" and count > begun
            if not numbered or self.kind(self.in_turn(count)) not in _BEHIND_LAST:
                return None
            return Again(*self.take(self.in_turn(count)), last=last)
        plural = self.token(count).text.endswith("s") and count == begun
        return Again(*self.take(self.told_singly(count + 1)), last=2 if plural else last)

    def told_singly(self, ahead: int) -> int:
        """Behind rounds told one by one: `those two rounds, one decrease and one plain, over and over`."""
        behind, alone = ahead, 0
        while self.text_of(behind) in ("one", "a", "an", "the") or (alone and self.kind(behind) == "and"):
            if self.kind(behind) == "and":
                behind += 1
                continue
            if self.kind(behind + 1) not in _TOLD_SINGLY:
                return ahead
            pronoun = self.text_of(behind + 2) == "one" and self.kind(behind + 3) not in _TOLD_SINGLY
            behind += 2 + (self.kind(behind + 2) == "round" or pronoun)  # a decrease one and a plain one
            alone += 1
        ends = self.ends_at(behind) or self.kind(behind) in _BEHIND_LAST
        return behind if alone > 1 and self.flags(ahead) & (COMMA | DASH) and ends else ahead

    def in_turn(self, ahead: int) -> int:
        """Behind words that say that rounds are worked one after the other: `these two by turns until`."""
        behind = ahead
        while (
            self.text_of(behind) in _IN_TURN and self.joined(behind) and behind < ahead + MOST_IN_TURN_WORDS
        ):
            behind += 1
        return behind

    def numbers_alone(self, ahead: int) -> Phrase | None:
        """`repeat 1 & 2 until 16 sts rem`, `rep 2nd`: the rounds of these numbers; else None."""
        if self.kind(ahead) not in ("number", "ordinal"):
            return None
        place, numbers = self.round_numbers(ahead)
        joined = len(numbers) > 1 and self.kind(ahead + 1) in ("and", "to")
        ordinal = self.kind(ahead) == "ordinal" and self.joined(ahead)
        alone = self.is_line_alone(place)  # Rnds 12-16: (repeat 5)
        ends = self.kind(place) in _BEHIND_THEM or (ordinal and self.ends_at(place)) or alone
        return Again(*self.take(place), tuple(numbers)) if (joined or ordinal or alone) and ends else None

    def is_line_alone(self, stop: int) -> bool:
        """Whether no more than these words stands behind the label of a line, in a bracket or not."""
        before = self.tokens[self.place - 1] if self.place else None
        bracket = before is not None and before.kind == "(" and self.kind(stop) == ")"
        labelled = before.flags if before is not None and bracket else self.flags(0)
        behind = stop + bracket
        ended = self.place + behind >= len(self.tokens) or self.tokens[self.place + behind].flags & LINE
        return bool(labelled & COLON and ended)

    def steps(self, ahead: int) -> Again | None:
        """`steps 5 and 6`."""
        names: list[int] = []
        ahead += 1
        while self.kind(ahead) == "number" and self.joined(ahead) and len(names) < 20:
            value = (self.token(ahead).number or ONE).of(0) or 0
            joint = (self.flags(ahead) & DASH or self.kind(ahead - 1) == "and") and names
            if joint:
                names.append(named(f"step {value}"))
            elif self.kind(ahead + 1) in ("times", "more") and names:
                break
            else:
                names.append(named(f"step {value}"))
            ahead += 1
            if self.kind(ahead) == "and" and self.kind(ahead + 1) == "number":
                ahead += 1
        return Again(*self.take(ahead), tuple(names), work=True) if names else None

    def lettered(self, ahead: int) -> Again | None:
        """`rounds A and B`, `A then B`."""
        names: list[int] = []
        while text := self.letter(ahead):
            names.append(named(text))
            ahead += 1
            if self.kind(ahead) in _JOINTS and self.letter(ahead + 1):
                ahead += 1
            elif not self.flags(ahead) & COMMA:
                break
        return Again(*self.take(ahead), tuple(names), work=True) if names else None

    def named_first(self, ahead: int) -> bool:
        """Whether `1st and 2nd rows` or `7-8 rows` stands there."""
        limit = ahead + 8
        if self.kind(ahead) == "number" and self.kind(ahead + 1) == "round":
            return False
        while ahead < limit and self.kind(ahead) in ("ordinal", "number", "range", "and", "to"):
            ahead += 1
        ends = self.kind(ahead - 1) in ("ordinal", "range")
        return ends and self.kind(self.of_pattern(ahead)) == "round"

    def of_pattern(self, ahead: int) -> int:
        """Behind the word for the pattern whose rounds these are: `1st and 2nd patt rnds`."""
        return ahead + (self.kind(ahead) == "pattern" and self.kind(ahead + 1) == "round")

    def named(self, ahead: int) -> Again | None:
        """The numbers of the rounds: `rnds 1 and 2`, `1st and 2nd rows`, `rnds 1-4`."""
        first = self.kind(ahead) == "round"
        place, numbers = self.round_numbers(ahead + first)
        if not numbers:
            return self.lettered(place) if first and self.joined(place) else None
        if first and self.kind(place) == "round" and self.kind(place + 1) != "number" and self.joined(place):
            return None  # knit in the round 20 rds
        if not first:
            place = self.of_pattern(place)
            if self.kind(place) != "round":
                return None
            place += 1
        return Again(*self.take(place), named=tuple(numbers[:400]))

    def round_numbers(self, begun: int) -> tuple[int, list[int]]:
        """The word behind the numbers of rounds, and the numbers."""
        numbers: list[int] = []
        to = False
        place = begun
        while self.place + place < self.stop:
            token = self.token(place)
            if token.flags & (STOP | SEMI | COLON) and place > begun:
                break
            if token.kind in ("number", "ordinal") and token.number:
                if self.is_no_round(place, first=place == begun):
                    break
                value = token.number.of(0) or 0
                up_to = numbers and (to or token.flags & DASH)
                low = numbers[-1] + 1 if up_to else value
                numbers.extend(range(low, min(value, low + 399) + 1))
                to = False
            elif token.kind == "range" and token.number:
                low, high = int(token.means), token.number.of(0) or 0
                numbers.extend(range(low, min(high, low + 400) + 1))
            elif token.kind == "to" and self.kind(self.skip(place + 1)) in ("number", "ordinal"):
                to = True
                place = self.skip(place + 1) - 1
            elif numbers and (up := self.to_last_round(place)):
                to = True
                place += up - 1
            elif not self.joins_rounds(place):
                break
            place += 1
        return place, numbers

    def is_no_round(self, place: int, *, first: bool) -> bool:
        """Whether a number behind those of rounds counts times or stitches: `rnds 1-4 3 times`, `rnd 2 - 48 sts`."""
        token, before, behind = self.token(place), self.kind(place - 1), self.kind(place + 1)
        if token.flags & (DASH | EQUALS) and behind in ("stitch_noun", "remain"):
            return True
        if not first and token.flags & COMMA and behind in ("stitch_noun", "fewer"):
            return True  # as rnds 1 and 2, one st fewer each time
        if (
            not first
            and before == "number"
            and not token.flags & ~SPACE
            and behind in ("stitch_noun", "remain")
        ):
            return True  # as rnd 10 6 (9) sts
        plural = before == "round" and self.token(place - 1).text.endswith("s")
        if first and behind == "times" and plural and token.kind == "number":
            return True  # `that pair of rounds 5 times`
        apart = token.flags == SPACE and token.start == self.token(place - 1).end + 1
        if not first and before == "range" and apart:
            return True  # `rnds 1-4 five times`
        if first or behind not in ("times", "more"):
            return False
        if before in ("number", "range") and not token.flags & (COMMA | SEMI):
            return True
        return token.kind == "number" and before != "and"

    def to_last_round(self, place: int) -> int:
        """How many words stand before the last of `R1 to R6`, `R1-R6`; 0 where none does."""
        words = 2 if self.kind(place) == "to" else 1
        ranged = words == 2 or bool(self.flags(place) & DASH)
        rounds = self.kind(place + words - 1) == "round" and self.kind(place + words) == "number"
        return words if ranged and rounds and self.joined(place + words) else 0

    def joins_rounds(self, place: int) -> bool:
        """Whether a word stands between the numbers of rounds: `rnds 1 and 2`, `rnd 1 and rnd 2`."""
        kind, behind = self.kind(place), self.kind(place + 1)
        if kind == "and":
            return behind in ("number", "ordinal", "range", "round")
        added = self.token(place).start == self.token(place - 1).end + 3 and self.flags(place) == SPACE
        listed = bool(self.flags(place) & COMMA) and self.kind(place - 1) == "number"
        joined = added or listed or self.kind(place - 1) in ("and", "to")
        return kind == "round" and behind == "number" and joined

    def star(self) -> Phrase:
        """`*`, `**`; `(k6, k2tog)*10` says how often."""
        if self.multiplies():
            start, _, flags = self.take(1)
            return Times(start, self.token().end, flags, *self.number_taken())
        level = self.token().text.count("*")
        return Star(*self.take(1), level)

    def multiplies(self) -> bool:
        """Whether a star is a sign of multiplication: it stands at what it repeats, or at a number and no work."""
        before = self.tokens[self.place - 1].kind if self.place else ""
        glued = self.token(1).start == self.token().end and self.kind(1) == "number"
        if not glued or before not in (")", "stitch", "together"):
            return False
        ends = self.place + 2 >= self.stop or bool(self.flags(2) & (STOP | EQUALS | COMMA | DASH))
        return self.flags(0) == 0 or ends or self.kind(2) in ("(", ")")

    def number_taken(self) -> tuple[Number]:
        """The number here, which is taken."""
        number = self.token().number or ONE
        self.place += 1
        return (number,)

    def repeat(self) -> Phrase:
        """`rep from *`, `rep rnds 1 and 2`, `rep last 2 rnds`, `rep`."""
        if words := self.across(self.skip(1)) or 2 * (self.text_of(1) in _NOT_REPEATED) or self.each_time():
            return self.only_words(words)
        given_up = self.is_given_up()
        ahead = 1 if self.letter(1) and self.is_lettered(2) else self.skip(1)
        onward = self.from_there(ahead + 1) if self.kind(ahead) == "from" else None
        named = self.skip(ahead + 1) if self.kind(ahead) == "only" else ahead  # repeat only the 1st round
        again = onward or self.them_again(ahead) or self.again_from(named) or self.numbers_alone(ahead)
        again = again or self.all_rounds() or self.pattern_again() or self.again_for_rounds()
        if type(again) is Again and given_up:
            return Said(again.start, again.end, again.flags)
        if again or (again := self.over_chart(ahead)):
            return again
        copy = False
        while self.kind(ahead) in _BEFORE_STAR and self.joined(ahead):
            copy = copy or self.kind(ahead) == "between"
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) == "stars":
            return self.from_star(ahead, copy=copy)
        if self.kind(ahead) == "begin":
            return Rep(*self.take(ahead + 1))
        if self.kind(ahead) == "(" and self.kind() == "repeat":
            return Rep(*self.take(ahead))
        if ahead > 1 and self.kind(ahead - 1) == "and":
            ahead -= 1
        return Rep(*self.take(ahead if self.kind(ahead) in _BEHIND_REPEAT else 1))

    def from_star(self, ahead: int, *, copy: bool) -> Rep:
        """`rep from *`, `rep from * to **`, `repeat *-*`; with `copy` `rep between * and *`."""
        level = self.token(ahead).text.count("*")
        to = level if copy else 0
        behind = ahead + 1
        if self.kind(behind) in ("to", "and") and self.kind(behind + 1) == "stars":
            to = self.token(behind + 1).text.count("*") or to
            behind += 2
        elif self.kind(behind) == "stars" and self.flags(behind) & DASH:  # `repeat *-*`
            behind += 1
        return Rep(*self.take(behind), level, to)

    def each_time(self) -> int:
        """The word `repeat` of `with 1 st fewer on every repeat`, which works nothing; 0 where it is another."""
        return int(self.place > 0 and self.tokens[self.place - 1].text in _EACH_TIME and self.joined(0))

    def again_for_rounds(self) -> Phrase | None:
        """`Do this for 3 inches`, `Repeat for 12 rounds`: the round before, which has come to its end; else None."""
        ended = self.place > 0 and bool(self.flags(0) & STOP) and self.text_of(1) == "for"
        if not ended or self.tokens[self.place - 1].kind not in ("around", "end", "round", "stars", ")"):
            return None
        behind = self.kind(3)
        counted = behind in ("round", "unit", "in") or (
            behind in ("number", "decimal", "(") and self.joined(3)
        )
        if self.kind(2) not in ("number", "decimal", "range") or not counted:
            return None
        return Again(*self.take(1), last=1, work=True)

    def them_again(self, ahead: int) -> Phrase | None:
        """`repeat them 3 more times`: the rounds told shortly before, or the last two; else None."""
        counted = self.kind(ahead + 1) == "number" and self.kind(ahead + 2) in ("more", "times")
        often = counted or self.kind(ahead + 1) == "often"
        these = often and self.text_of(ahead) in ("these", "those", "both")
        if not these and (self.text_of(ahead) != "them" or self.kind(ahead + 1) not in _BEHIND_THEM):
            return None
        last = self.told_before() or self.numbered_above() or 2
        last = 0 if self.text_of(ahead) == "both" and last > 2 else last  # which two is not clear
        return Again(*self.take(ahead + 1), last=last)

    def numbered_above(self) -> int:
        """How many lines with the number of a round stand above, one number after the other; 0 where none do."""
        far = range(self.place, max(self.place - MOST_IN_RUN, -1), -1)
        begins = [at for at in far if at == 0 or self.tokens[at].flags & LINE]
        numbers: list[int] = []
        for begin in begins:
            sort, number = self.tokens[begin], self.tokens[begin + 1].number
            if sort.kind != "round" and begin == begins[0]:
                continue
            value = number.of(0) if sort.kind == "round" and number is not None else None
            if value is None or (numbers and value != numbers[-1] - 1):
                break
            numbers.append(value)
        return len(numbers)

    def all_rounds(self, *, counted: bool = False) -> Phrase | None:
        """`repeat the four rounds until`, `repeat all 6 rounds twice more`: as many as were told; else None.

        `counted`: only where it is said how often, `work the 4 rounds 5 times`.
        """
        ahead = 2 if self.text_of(1) in ("the", "all") else 1
        number = self.token(ahead).number
        if ahead == 1 or self.kind(ahead) != "number" or number is None or not self.joined(ahead):
            return None
        stop = ahead + 1 + (self.kind(ahead + 1) in _SORTS)
        behind = self.behind_total(stop + 1)
        often = self.kind(behind) == "often" or self.kind(behind + 1) in ("times", "more")
        ends = often if counted else self.ends_at(stop + 1) or self.kind(stop + 1) in _BEHIND_LAST
        if self.kind(stop) != "round" or not self.joined(stop) or not ends:
            return None
        return Again(*self.take(stop + 1), last=number.of(0) or 1, work=counted)

    def across(self, ahead: int) -> int:
        """Where `repeat the 8-st motif 13 times around` ends, which works nothing itself; 0 where it does not begin."""
        if self.kind(ahead) != "number" or self.kind(ahead + 1) != "stitch_noun":
            return 0
        noun = self.text_of(ahead + 2) in ("motif", "motifs") or self.kind(ahead + 2) in ("pattern", "repeat")
        often = self.kind(ahead + 3) == "number" and self.kind(ahead + 4) == "times"
        if not noun or not (often or self.kind(ahead + 3) in ("around", "across")):
            return 0
        stop = ahead + (5 if often else 4)
        return stop + (self.kind(stop) == "around" or self.text_of(stop) == "across")

    def behind_total(self, ahead: int) -> int:
        """Behind `a total of` or `in total`, where that stands there, before how often rounds are worked."""
        begun = ahead + (self.text_of(ahead) == "a")
        return begun + 1 if self.text_of(begun) in OF_ALL else ahead

    def over_chart(self, ahead: int) -> Phrase | None:
        """How often so many stitches of a chart are worked: `repeating the 12 sts ten times`; else None."""
        kinds = [self.kind(ahead + place) for place in range(4)]
        before = self.tokens[max(0, self.place - MOST_BEHIND_CHART) : self.place]
        if kinds != ["number", "stitch_noun", "number", "times"]:
            return None
        if all(token.kind != "chart" for token in before):
            return None
        ahead += 4
        while self.place + ahead < self.stop and not self.flags(ahead) & (STOP | COMMA | SEMI):
            ahead += 1
        return Said(*self.take(ahead))

    def work(self) -> Phrase:
        """`work those 4 rounds`, `do rounds 5-6 again`; `as you work the first round` works nothing."""
        if words := self.across(self.skip(1)):
            return self.only_words(words)
        return self.told_while() or self.worked()

    def told_while(self) -> Phrase | None:
        """`as you work the first round`, which says when something is done; else None."""
        before = [token.text for token in self.tokens[max(0, self.place - 2) : self.place]]
        if len(before) < 2 or before[1] != "you" or before[0] not in _WHILE:
            return None
        ahead = self.skip(1)
        return self.only_words(ahead + 2 if self.kind(ahead + 1) == "round" else 1)

    def worked(self) -> Phrase:
        """`work those 4 rounds`, `do rounds 5-6 again`, `work these 4 more times`."""
        counted = self.kind(2) == "number" and "times" in (self.kind(3), self.kind(4))
        if (counted or self.kind(2) == "often") and (again := self.them_again(1)):
            return replace(again, work=True)
        given_up = self.is_given_up()
        only = 1 + (self.kind(1) == "only")  # do only A
        lettered = self.letter(only) and self.is_lettered(only + 1)
        ahead = only if lettered else self.skip(1)
        ahead += self.is_single_by_name(ahead)
        if self.is_of_rounds(ahead) and (again := self.again_from(ahead)):
            if self.text_is("on") and self.token(1).text == "this" and self.kind(2) == "round":
                self.place += 3  # it is the round that was told before
                return Said(again.start, self.at_end(), again.flags)
            if given_up:
                return Said(again.start, again.end, again.flags)
            return replace(again, work=True)
        pointed = (
            self.worked_together(ahead)
            or self.pointed_at()
            or self.all_rounds(counted=True)
            or self.pattern_again(work=True)
            or self.pattern_until(1)
        )
        if pointed:
            return pointed
        if self.token(1).text == "it" and self.kind(2) in ("per", "each", "until", "around"):
            return Continue(*self.take(2), manner=True)
        return self.worked_stitches(ahead) or self.only_words(1)

    def is_single_by_name(self, ahead: int) -> bool:
        """Whether `1 dec rnd` stands there: the round of this name, once."""
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        named_round = self.kind(ahead + 1) in ("decrease", "increase") and self.kind(ahead + 2) == "round"
        return number is not None and number.values == (1,) and named_round and self.ends_at(ahead + 3)

    def is_given_up(self) -> bool:
        """Whether rounds are worked no more: `stop working round B`, `do not repeat round 2`; not `If not, work`."""
        before = [token.text for token in self.tokens[max(0, self.place - 2) : self.place]]
        return before[-1:] != [] and (before[-1] in _UNWORKED or before in _NOT_DONE)

    def is_of_rounds(self, ahead: int) -> bool:
        """Whether rounds may be named there that are worked: `those 4 rounds`, `A and B`, `the last 2 rounds`."""
        kind, behind = self.kind(ahead), self.kind(ahead + 1)
        return (
            kind in ("these", "round", "ordinal", "each", "decrease", "increase", "step")
            or bool(self.letter(ahead))
            or (kind == "last" and behind == "number")
            or (kind in ("plain", "number") and self.sequence_begins(ahead))
            or self.is_fabric_round(ahead)
        )

    def worked_stitches(self, ahead: int) -> Phrase | None:
        """`work 8 sts in rib`, `work next 8 sts even`, `*work 8, k2tog`: so many plain stitches; else None."""
        if self.kind(ahead) == "next":
            ahead = self.skip(ahead + 1)
        counted = self.kind(ahead) == "number" and self.kind(ahead + 1) == "stitch_noun"
        before = self.tokens[self.place - 1].kind if self.place else ""
        spelled = self.kind(ahead + 2) == "in" and self.kind(ahead + 3) in ("knit", "purl")
        if counted and spelled and not self.kind(ahead - 1) and before not in ("stars", "("):
            return self.only_words(ahead)  # work the 96 sts in k2, p2 rib
        if counted and self.joined(ahead) and self.kind(ahead + 2) not in ("remain", "fewer", "more"):
            stop = self.end_of_fabric(ahead + 2)
        elif before in ("stars", "(") and self.kind(1) == "number" and self.flags(2) & COMMA:
            ahead, stop = 1, 2
        else:
            return None
        number = self.token(ahead).number or ONE
        start, end, flags = self.take(stop)
        return Stitches(start, end, flags, Stitch("k", number, start, end))

    def end_of_fabric(self, ahead: int) -> int:
        """Behind the fabric that stands there, if any does: `in rib`, `even`."""
        if self.kind(ahead) in ("in", "even", "plain") and self.kind(ahead + 1) in _FABRICS:
            return ahead + 2
        return ahead + (self.kind(ahead) in ("even", "plain", "pattern"))

    def worked_together(self, ahead: int) -> Phrase | None:
        """`work two stitches together all round`, `work next 3 sts tog`; None where stitches are only worked."""
        if self.kind(ahead) == "next":
            ahead = self.skip(ahead + 1)
        noun = self.kind(ahead) == "number" and self.kind(ahead + 1) == "stitch_noun"
        if not noun or self.kind(ahead + 2) != "together" or not self.joined(ahead + 2):
            return None
        name = TOGETHER.get(("knit", (self.token(ahead).number or ONE).of(0) or 0))
        if name is None:
            return None
        start, end, flags = self.take(ahead + 3)
        return Stitches(start, end, flags, Stitch(name, ONE, start, end))

    def is_fabric_round(self, ahead: int) -> bool:
        """Whether a round that is called by its fabric is worked so often: `work Rib round 10 times`."""
        if self.kind(ahead) not in ("rib", "moss", "garter", "pattern") or self.kind(ahead + 1) != "round":
            return False
        behind = ahead + 2
        while self.text_of(behind) in _BEFORE_TOTAL and self.joined(behind):
            behind += 1
        counted = self.kind(behind) == "number" and self.kind(behind + 1) in ("times", "more")
        single = not self.token(ahead + 1).text.endswith("s") and self.joined(ahead + 1)
        return single and (counted or self.kind(ahead + 2) == "often")

    def pointed_at(self) -> Phrase | None:
        """`work them 5 times`, `do the same at every marker`, `work each needle to the last 2 sts`; else None."""
        if sections := self.same_in_sections():
            return sections
        if (
            (self.text_of(1) == "them" or (self.text_of(1) == "it" and self.is_pattern_told()))
            and (last := self.told_before())
            and self.kind(2) in ("number", "often")
        ):
            return Again(*self.take(2), last=last, work=True)
        same = self.skip(1) if self.token(self.skip(1)).text == "same" else 0
        pointing = same or int(self.text_of(1) in _POINTING)
        behind = pointing + 1
        often = self.kind(behind) == "often" or (self.kind(behind), self.kind(behind + 1)) == (
            "number",
            "times",
        )
        if often and pointing and self.joined(behind):
            if last := self.plain_before():
                return Again(*self.take(behind), last=last + 1, work=True)
            if not same:
                return Rep(*self.take(behind))  # do it 8 times
        part = self.skip(2) if self.kind(1) in ("per", "each") else 0
        part = part + 1 if part and self.kind(part) in ("needle", "section") and self.joined(part) else 1
        if self.kind(part) in ("to", "until") and self.joined(part) and self.goes_to_marker(part):
            start, end, flags = self.take(1)
            return Stitches(start, end, flags, Stitch("k", ONE, start, end, bare=True))
        return None

    def same_in_sections(self) -> Phrase | None:
        """`do the same at every marker`: what was told is worked in every section; else None."""
        ahead = self.skip(1)
        if self.text_of(1) in _POINTING:
            return self.at_all_markers(self.skip(2))
        if self.token(ahead).text != "same" or not self.joined(ahead):
            return None
        ahead = self.skip(ahead + 1)
        while self.kind(ahead) in ("in", "on", "before", "for", "per") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) != "each" or self.kind(ahead + 1) not in ("marker", "section", "needle"):
            return None
        return Needlewise(*self.take(ahead + 2))

    def at_all_markers(self, ahead: int) -> Phrase | None:
        """`do it at all 8 markers`, `do this before every marker`; else None."""
        while self.kind(ahead) in ("in", "on", "before") and self.joined(ahead):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) not in ("each", "all") or not self.joined(ahead):
            return None
        number = self.token(ahead + 1).number if self.kind(ahead + 1) == "number" else None
        ahead += 1 if number is None else 2
        return Needlewise(*self.take(ahead + 1), number) if self.kind(ahead) in _PARTS else None

    def is_pattern_told(self) -> bool:
        """Whether it was just said which rounds are the pattern: `These 8 rounds form the pattern;`."""
        before = self.tokens[max(0, self.place - MOST_BEFORE_THEM) : self.place]
        return any(token.text in _FORMING for token in before)

    def plain_before(self) -> int:
        """How many plain rounds end right before a sentence: `Knit 1 rnd. Do the same 3 times`; 0 where none do."""
        if self.place < FEWEST_PLAIN or not self.tokens[self.place].flags & (STOP | LINE):
            return 0
        work, number, rounds = self.tokens[self.place - FEWEST_PLAIN : self.place]
        plain = work.kind == "knit" and rounds.kind == "round" and number.number is not None
        return (number.number.of(0) or 0) if plain and number.number is not None else 0

    def told_before(self) -> int:
        """How many rounds `them` is: those of `These 8 rounds form the pattern. Work them`; 0 where none are told."""
        for back in range(self.place - 1, max(self.place - MOST_BEFORE_THEM, 0), -1):
            token, before = self.tokens[back], self.tokens[back - 1]
            if token.kind == "round" and before.kind == "number" and before.number is not None:
                return before.number.of(0) or 0
        return 0

    def goes_to_marker(self, ahead: int) -> bool:
        """Whether it is worked plain to a place before a marker or the end: `work to 3 sts before the marker`."""
        place = self.place
        self.place += ahead
        far = self.next_phrase()
        self.place = place
        return type(far) is Extent and (far.marker or (far.leave is not None and far.leave != NOTHING))

    def as_one(self) -> Phrase:
        """`as 1.`, which is the first round of a list again."""
        if self.token().text == "as 1" and self.flags(1) & STOP and not self.flags(0) & STOP:
            return Again(*self.take(1), (1,), work=True)
        return self.only_words(1)

    def instead(self) -> Phrase:
        """`in place of k6`, `instead of 6`: what is not worked this time."""
        ahead = self.skip(1)
        if self.kind(ahead) in CRAFTS:
            ahead += 1
        if self.kind(ahead) == "number":
            ahead += 1
        start, end, flags = self.take(ahead)
        return Said(start, end, flags, text="instead of")

    def ends_at(self, ahead: int) -> bool:
        """Whether what is told ends there, or a bracket follows."""
        behind = self.place + ahead >= self.stop or bool(
            self.flags(ahead) & (STOP | SEMI | COMMA | DASH | EQUALS | COLON)
        )
        return behind or self.kind(ahead) == "("

    def these_again(self) -> Phrase:
        """`These 4 rounds over and over`, `these 2 rounds 6 times`; else it says nothing."""
        again = self.kind(1) == "number" and self.kind(2) == "round" and bool(self.flags(0) & (STOP | SEMI))
        behind = self.in_turn(3)
        counted = self.kind(behind) in ("to", "until") and self.joined(behind)
        if again and (self.kind(3) in ("number", "often", "more") or self.token(3).text == "over" or counted):
            number = self.token(1).number or ONE
            return Again(*self.take(behind if counted else 3), last=number.of(0) or 1, work=True)
        return self.only_words(1)

    def same(self) -> Phrase:
        """`as rnd 3`, `same as last round`; `do the same again, all the way round` repeats what was begun."""
        if self.token().text == "same" and self.text_of(1) == "again" and self.goes_around_again(2):
            return Rep(*self.take(2))
        return self.same_round()

    def same_round(self) -> Phrase:
        """`as rnd 3`, `same as last round`, `the same`."""
        if self.token().text == "same" and self.ends_at(1):
            return Again(*self.take(1), last=1, work=True)
        begins = (
            not self.flags(0) & COMMA
        )  # `*k5, k2tog*, same again` is worked all around, as the round before was
        if self.token().text == "same" and self.token(1).text == "again" and begins and self.ends_at(2):
            return Again(*self.take(2), last=1, work=True)
        ahead = self.skip(1)
        if self.token().text == "same" and self.kind(ahead) == "number" and self.kind(ahead + 1) == "round":
            number = self.token(ahead).number or ONE
            if self.joined(ahead + 1) and (self.ends_at(ahead + 2) or self.kind(ahead + 2) in _BEHIND_LAST):
                return Again(
                    *self.take(ahead + 2), last=number.of(0) or 1, work=True
                )  # the same 10 rounds twice
        while self.kind(ahead) in ("as", "for"):
            ahead = self.skip(ahead + 1)
        if self.kind(ahead) in ("ordinal", "number") and self.flags(ahead + 1) & STOP and self.joined(ahead):
            number = self.token(ahead).number or ONE
            return Again(*self.take(ahead + 1), (number.of(0) or 0,), work=True)
        pair = self.kind(ahead + 1) in ("and", "to") and self.kind(ahead + 2) == "ordinal"
        if self.kind(ahead) == "ordinal" and pair and self.ends_at(ahead + 3):
            place, numbers = self.round_numbers(ahead)
            return Again(*self.take(place), tuple(numbers), work=True)  # as 1st and 2nd
        if self.kind(ahead) == "ordinal" and self.kind(ahead + 1) != "round" and self.ends_at(ahead + 1):
            number = self.token(ahead).number or ONE
            return Again(*self.take(ahead + 1), (number.of(0) or 0,), work=True)  # as 15th
        if self.kind(ahead) in ("round", "last", "ordinal", "these") and (again := self.again_from(ahead)):
            return replace(again, work=True)
        return self.only_words(1)

    def goes_around_again(self, ahead: int) -> bool:
        """Whether `do the` stands before the same and `all the way round` there: it repeats what was begun."""
        begun = self.place > 1 and self.tokens[self.place - 1].text == "the"
        begun = begun and self.tokens[self.place - 2].text in _DOING
        at = self.skip(ahead)
        if self.kind(at) in ("to", "until"):
            at = self.skip(at + 1)
            return begun and self.joined(at) and self.kind(at) == "end"
        return begun and self.joined(at) and self.kind(at) == "around"

    def round(self) -> Phrase:
        """`a round`, `rounds 1-16`."""
        if self.kind(1) == "number" and self.text_of(2) == "is" and self.ends_range(self.token(1)):
            ahead = 1
            while self.place + ahead < self.stop and not self.flags(ahead) & LINE:
                ahead += 1
            return self.only_words(ahead)  # `Rnds 8 to 14: ... Rnd 14 is simply *ssk*`
        if (self.kind(1) == "number" or self.is_called_by(1)) and self.is_only_named():
            return self.only_words(2)
        if self.has_number() and (named := self.named(0)):
            return replace(named, work=True)
        if self.place and (alone := self.round_alone(self.tokens[self.place - 1])):
            return alone
        return self.with_decreases() or self.only_words(1)

    def is_only_named(self) -> bool:
        """Whether the round of this number is not worked here: `from round 9 we decrease in each round`."""
        if not self.place:
            return False
        if self.kind(2) == "to" and (self.kind(3) == "number" or self.to_last_round(2)):
            return False  # from round 1 to 12 work in rib
        article = self.place > 1 and self.tokens[self.place - 1].text in ("a", "the")
        spoken = self.tokens[self.place - 1 - article].text in _NOT_WORKED
        return spoken or self.is_named_in() or self.has_markers_placed(2)

    def has_number(self) -> bool:
        """Whether its number or letter stands behind it, `rounds 1-16`, and not those of stitches, `round - 64 sts`."""
        if not (self.kind(1) in ("number", "range") or self.is_called_by(1)) or not self.joined(1):
            return False
        dashed = self.flags(1) & DASH and self.flags(1) & SPACE and self.is_behind_work()
        counts = self.kind(2) in ("stitch_noun", "remain") and self.text_of(2) != "over"
        return not (self.flags(1) & COMMA or dashed or counts)

    def round_alone(self, before: Token) -> Phrase | None:
        """`a round`, `knit round`, and `k2 k2tog round`, which says how far; `plain rounds in MC` says nothing."""
        if self.is_extent(before):
            return Extent(*self.take(1), NOTHING)
        if before.text == "plain" and self.token().text.endswith("s") and self.text_of(1) in ("in", "are"):
            return self.only_words(1)
        joins = self.place > 1 and self.tokens[self.place - 2].kind in ("in", "to")
        counted = before.text in ("a", "one") or before.kind in (*CRAFTS, "plain", "even", "alternate")
        return Rounds(*self.take(1), ONE) if counted and not joins else None

    def is_extent(self, before: Token) -> bool:
        """Whether stitches before it go around: `k2tog round`, `k2 k2tog round, k1 k2tog round`."""
        worked = before.kind in ("stitch", "together")
        narrowed = before.text == "narrow" and bool(self.flags(0) & COMMA)
        if (worked or narrowed) and self.ends_round():
            return True
        apart = STOP | COMMA | SEMI | COLON | DASH
        ends = self.flags(1) & apart or self.kind(1) in ("and", "then", "(")
        called = self.token().text in ("round", "rnd", "rd") and not self.flags(0) & apart
        return bool(ends) and called and (worked or before.kind == ")")

    def has_markers_placed(self, ahead: int) -> bool:
        """Whether it is told in which round, told before, markers are placed: `In round 28, place a marker`."""
        within = self.place > 0 and self.tokens[self.place - 1].text in ("in", "on", "during")
        ahead += self.kind(ahead) == "" and self.joined(ahead)
        return within and (
            self.kind(ahead) in ("place", "marker") or self.text_of(ahead) in ("place", "put", "mark")
        )

    def is_called_by(self, ahead: int) -> bool:
        """Whether a letter by which a round may be called stands there, and not `a`, nor the `I` who works it."""
        letter = self.letter(ahead)
        return bool(letter) and (letter not in ("a", "i") or self.is_lettered(ahead + 1))

    def is_named_in(self) -> bool:
        """Whether something is told to be in this round: `the length of yarn in round 43`."""
        before = self.tokens[max(0, self.place - 2) : self.place]
        return (
            len(before) == 2 and before[1].text == "in" and before[0].kind in ("yarn", "word", "stitch_noun")
        )

    def is_behind_work(self) -> bool:
        """Whether the round ends what was told to be worked: `K 7, 2 tog, round - 64`."""
        before = self.tokens[self.place - 1] if self.place else None
        return before is not None and before.kind in ("stitch", "together", ")") and self.joined(0)

    def with_decreases(self) -> Phrase | None:
        """`only the rounds with decreases`; else None."""
        if self.text_of(1) != "with" or self.text_of(2) not in _DECREASES:
            return None
        return Again(*self.take(3), (named("decrease"),), last=1, work=True)

    def ends_range(self, last: Token) -> bool:
        """Whether the numbers of rounds before end with this."""
        for back in range(self.place - 1, max(self.place - MOST_BEHIND_RANGE, 0), -1):
            token, before = self.tokens[back], self.tokens[back - 1]
            ends = token.kind == "number" and (before.kind == "to" or bool(token.flags & DASH))
            if (ends or token.kind == "range") and token.number is not None and last.number is not None:
                return token.number.of(0) == last.number.of(0)
        return False

    def ends_round(self) -> bool:
        """Whether `round` ends what is worked: `k2 k2tog round, k1 k2tog round`."""
        ended = self.place + 1 >= self.stop or bool(self.flags(1) & (COMMA | STOP | SEMI | DASH | EQUALS))
        return self.token().text == "round" and self.joined(0) and (ended or self.kind(1) == "and")

    def alternate(self) -> Phrase:
        """`alt rows`, `other rnd`: every second one; `alternate these 2 rnds`."""
        if self.kind(1) in ("these", "round") or (self.letter(1) and self.kind(2) == "and"):
            again = (
                self.again_from(1)
                if self.kind(1) != "round"
                or self.letter(2)
                or (self.kind(2) == "number" and self.kind(3) not in ("stitch_noun", "remain"))
                else None
            )
            if again:
                return replace(again, work=True)
        if self.kind(1) == "round":
            return Rounds(*self.take(2), ONE, every=True, step=2)
        return self.alternated() or self.all_rounds(counted=True) or self.only_words(1)

    def alternated(self) -> Phrase | None:
        """`alternate dec rnd with a knit rnd`, `alternating plain and decrease rounds`; else None."""
        return self.two_by_name(self.skip(1))

    def two_by_name(self, ahead: int) -> Again | None:
        """Two rounds by name and how often, `1 decrease round and 1 plain round alternately 3 times`; else None."""
        first = self.one_by_name(ahead)
        if first is None or self.text_of(first[1]) not in ("with", "and"):
            return None
        second = self.one_by_name(self.skip(first[1] + 1))
        if second is None or first[0] == second[0] or not self.joined(second[1] - 1):
            return None
        stop = second[1]
        while self.text_of(stop) in _IN_TURN and self.joined(stop):
            stop += 1
        if self.kind(stop) not in (*_BEHIND_THEM, "continue") or not self.joined(stop):
            return None  # alternate a dec rnd with a plain rnd, with one st fewer each time
        return Again(*self.take(stop), (first[0], second[0]), work=True)

    def one_by_name(self, ahead: int) -> tuple[int, int] | None:
        """The name of a round told there, `a knit round`, `1 decrease round`, `plain`, and where it ends; else None."""
        number = self.token(ahead).number if self.kind(ahead) == "number" else None
        ahead += number is not None and number.values == (1,)
        if self.kind(ahead) == "round" and self.text_of(ahead + 1) == "with":
            return (named("decrease"), ahead + 3) if self.text_of(ahead + 2) in _DECREASES else None
        if self.kind(ahead) == "round" and self.text_of(ahead + 1) == "without":
            return PLAIN_ROUND, ahead + 2
        kind = self.kind(ahead)
        if kind not in ("plain", "even", "knit", "decrease", "increase"):
            return None
        stop = ahead + 1 + (self.kind(ahead + 1) == "round")
        return (PLAIN_ROUND if kind in ("plain", "even", "knit") else named(kind)), stop

    def ordinal(self) -> Phrase:
        """`1st rnd again`."""
        more = self.kind(1) == "round" and self.kind(2) == "more" and self.joined(2)
        ranged = self.kind(1) == "to" and self.kind(self.skip(2)) == "ordinal"  # from the 1st to the 12th rnd
        if (more or ranged) and (named := self.named(0)):
            return replace(named, work=True)
        if self.kind(1) == "round":
            text = FIRST_ROUND if self.text_is("first", "1st") else ""
            return Said(*self.take(2), text=text)
        return self.positions_alone() or self.only_words(1)

    def positions_alone(self) -> Phrase | None:
        """`then always the 10th and 11th stitch together`, with no craft named; else None."""
        raise NotImplementedError


_NOT_WORKED: Final = frozenset(
    ("from", "at", "after", "omitting", "omit", "skipping", "skip", "without", "out", "drop")
)
"""Words before a round that is not worked: `from round 9 we decrease in each round`, `leave out rnd B`."""
_BEFORE_TOTAL: Final = frozenset(("a", "for", "for a total of", "total of"))
"""Words before how often a round is worked: `Work Rib Rnd a total of 10 times`."""
_BEFORE_STAR: Final = frozenset(("from", "between", "these", "pattern", "and", "in", "round", "work"))
"""Words between `repeat` and its star, or how often: `rep these from *`."""
_BEHIND_REPEAT: Final = frozenset(("around", "to", "until", "number", "often", "times", "all", "each"))
"""What stands behind `repeat` and such words where no star does: `repeat these around`."""
_FABRICS: Final = ("pattern", "rib", "stocking", "moss", "garter")
_JOINTS: Final = ("and", "then")
"""Words between the letters of two rounds."""
_FORMING: Final = frozenset(
    ("form", "forms", "make", "makes", "are", "is", "set", "sets", "complete", "completes")
)
"""Words between so many rounds and the pattern that they are."""
_PATTERNS: Final = frozenset(("sequence", "block", "repeat", "set", "pattern", "band"))
"""What the rounds of a part are called, all together."""
_DECREASES: Final = ("decreases", "decs", "decreasings", "decreasing", "shaping")
_PARTS: Final = ("marker", "section", "needle")
_EACH_TIME: Final = frozenset(
    ("every", "each", "on every", "on each", "in every", "in each", "with each", "with every")
)
"""What stands before `repeat` where that is each time rounds are worked."""
_DOING: Final = ("do", "work", "repeat", "doing", "repeating")
"""What stands before `the same again`, where that is worked on to the end of the round."""
_POINTING: Final = ("it", "this", "that", "so")
"""What stands behind `do` for what was told before."""
_UNWORKED: Final = ("stop", "stopped", "stops", "cease", "longer", "without", "don't", "never")
"""Words before `working round B` by which it is given up."""
_NOT_DONE: Final = (["do", "not"], ["does", "not"])
_WHILE: Final = ("as", "while", "when", "before", "once")
"""Words before `you work the first round` that work nothing: `As you work the first round, place markers`."""
MOST_BEHIND_RANGE: Final = 60
"""Words behind `Rnds 8 to 14:` in which its last round may be told."""
MOST_BEHIND_CHART: Final = 6
"""Words between a chart and how often its stitches are worked."""
FEWEST_PLAIN: Final = 3
"""Words of `knit 1 rnd`."""
_BEHIND_THEM: Final = ("number", "often", "more", "until")
_OFTEN: Final = ("times", "more")
MOST_IN_RUN: Final = 300
"""Words of the lines above that `repeat these 2 more times` may mean."""
MOST_BEFORE_THEM: Final = 12
"""Words between the number of some rounds and `work them`."""
_BEHIND_LETTER: Final = ("only", "often", "again", "more", "until")
"""What stands behind the letter of a round that is worked: `work A only`."""
_NOT_REPEATED: Final = frozenset(("is", "are", "what", "whatever"))
"""Words behind `repeat` that repeat nothing: `the 8-st repeat is worked 10 times`, `repeat what your column says`."""
_TOLD_SINGLY: Final = ("decrease", "increase", "plain", "even", "knit")
"""What a round of several is, told one by one."""
_BEHIND_LAST: Final = ("number", "often", "more", "until", "total")
"""What stands behind `these two` where they are rounds."""
_IN_TURN: Final = frozenset(
    ("by", "in", "turn", "turns", "alternately", "alternating", "alternate", "about", "over", "and", "again")
)
"""Words that say that rounds are worked one after the other, again and again."""
MOST_IN_TURN_WORDS: Final = 5
"""How many such words stand together: `turn and turn about`."""
_SORTS: Final = ("decrease", "rib", "pattern", "garter", "moss", "alternate")
"""What stands between a number and its rounds: `the last 2 decrease rnds`."""
