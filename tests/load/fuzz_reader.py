"""Proofread a great many texts, and see that each is answered, as described, and in time.

    python tests/load/fuzz_reader.py --inputs 1000000
    python tests/load/fuzz_reader.py --short --seconds 3600           (a few words each: many more of them)
    python tests/load/fuzz_reader.py --coverage --inputs 1000000      (guided by coverage; needs atheris)

Texts are words of patterns thrown together, written hats with bytes changed, and unreadable signs; some are as long as
allowed and made to be slow. Prints how many there were, how many crashed, and the slowest.
"""

import argparse
import math
import random
import sys
import time
import traceback
from collections.abc import Iterator
from contextlib import suppress

import msgspec

from roundwright.knitting.answers import Impossible
from roundwright.knitting.hat import plan as hat
from roundwright.knitting.hat import request as hat_request
from roundwright.knitting.rounds.round import LONGEST_TEXT, execute
from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.routes.answer_language import encode_answer

if "--coverage" in sys.argv:
    import atheris

    with atheris.instrument_imports(include=["roundwright.wording"]):
        from roundwright.wording.proofreading import proofread
        from roundwright.wording.reading.layout import MOST_IN_LINE
        from roundwright.wording.writing import pattern as write
else:
    from roundwright.wording.proofreading import proofread
    from roundwright.wording.reading.layout import MOST_IN_LINE
    from roundwright.wording.writing import pattern as write

LIMIT_MS = 200.0  # PATTERN_MS of tests/long/bounds.py
_AGAIN = 4
_CHECKED = 20
"""One answer in so many is decoded again and its rounds are executed."""

_PRINTED = """
k p k1 k2 k3 k4 p1 p2 k2tog ssk skp k3tog cdd kfb m1 m1l m1r yo sl1 psso sl knit purl slip make one two
together left right * ** *** ( ) [ ] { } , ; . : — - – / rep repeat from to last until rem remain first again
st sts stitch stitches around across end all every times time x once twice more in total work even rib st for
of the and its measures 5 cm 4 7 12 0 1 99 999 9999999 123456789 4_(5,_6) (2,_3) (-,_3) 3-8 2-6 Rnd_1: Rnd_2:
Rnd_3: Rnds_2-6: Rnd_3_and_all_odd_rnds: All_even_rnds: Next_rnd: Next_3_rnds: Next_3_(4)_rnds: Dec_rnd: R5:
1st_rnd: Row_2_(WS): Round_4: rnds_1_and_2 last_2_rnds rep_rnds_1-2 rep_from_* to_last_2_sts to_end
(size_1_only) Sizes_1_and_2_only: 42_sts (42_sts) 8_sts_evenly dec inc pm sm marker turn join
Cast_on_64_(72)_sts Cast_on_60 Abbreviations Crown Finishing blobble kwise tbl ½ é % " ' &
"""
WORDS = [word.replace("_", " ") for word in _PRINTED.split()] + ["\n"] * 8


def hats(chance: random.Random) -> str:
    """A hat as the service writes it."""
    request = {
        "gauge": {"stitches": chance.randint(14, 32), "rows": chance.randint(20, 44)},
        "sizes": [
            {"head": {"value": round(chance.uniform(28, 60), 1), "unit": "cm"}}
            for _ in range(chance.choice((1, 1, 2, 3, 12)))
        ],
        "brim": {"kind": chance.choice(("rolled", "ribbed", "garter", "folded"))},
        "crown": {"style": chance.choice(("wedge", "quick", "dome", "flat", "square", "swirl", "gathered"))},
        "wording": chance.choice(("pattern", "beginner")),
        "terms": chance.choice(("us", "uk")),
    }
    while True:
        with suppress(Impossible):
            return hat.hats(msgspec.convert(request, hat_request.HatRequest), write.pattern).pattern
        request["crown"] = {"style": "quick"}
        request["brim"] = {"kind": "rolled"}


def short_texts(chance: random.Random) -> Iterator[str]:
    """Short texts without end: a few words, a line of a hat with something changed, or signs."""
    lines = [line for _ in range(200) for line in hats(chance).split("\n") if "nd" in line and len(line) < 80]
    while True:
        kind = chance.random()
        if kind < 0.6:
            yield " ".join(chance.choices(WORDS, k=chance.randint(1, 8)))
        elif kind < 0.9:
            yield changed(chance, chance.choice(lines))
        else:
            yield "".join(
                chr(chance.choice((chance.randint(32, 126), chance.randint(0, 0xD7FF)))) for _ in range(20)
            )


def texts(chance: random.Random) -> Iterator[str]:
    """Texts without end."""
    written = [hats(chance) for _ in range(60)]
    lines = [line for text in written for line in text.split("\n") if "nd" in line]
    while True:
        kind = chance.random()
        if kind < 0.45:
            joint = chance.choice((" ", " ", " ", ", ", ""))
            yield joint.join(chance.choices(WORDS, k=chance.randint(1, 60)))
        elif kind < 0.75:
            yield changed(chance, "\n".join(chance.choices(lines, k=chance.randint(1, 8))))
        elif kind < 0.80:
            yield changed(chance, chance.choice(written))
        elif kind < 0.97:
            yield "".join(
                chr(chance.choice((chance.randint(32, 126), chance.randint(0, 0xD7FF)))) for _ in range(40)
            )
        elif kind < 0.99:
            yield repeated(chance, chance.randint(100, 4_000))
        elif kind < 0.995:
            yield in_one_line(chance)
        else:
            yield repeated(chance, LONGEST_TEXT)


def changed(chance: random.Random, text: str) -> str:
    """A text with some signs changed, taken out, put in, or whole stretches moved."""
    signs = list(text)
    for _ in range(chance.randint(1, 8)):
        place = chance.randrange(len(signs) + 1)
        turn = chance.random()
        if turn < 0.3:
            signs[place : place + 1] = chance.choice("0123456789*()[],;:.-—kpsm \n")
        elif turn < 0.5:
            del signs[place : place + chance.randint(1, 4)]
        elif turn < 0.9:
            signs[place:place] = f" {chance.choice(WORDS)} "
        else:
            other = chance.randrange(len(signs) + 1)
            signs[place:place] = signs[other : other + 40]
    return "".join(signs)[:LONGEST_TEXT]


def in_one_line(chance: random.Random) -> str:
    """A few words over and over, up to the length of a line: what builds on what is before it in the line."""
    words = chance.choices([word for word in WORDS if word != "\n"], k=chance.randint(1, 8))
    times = chance.randint(2, MOST_IN_LINE // sum(len(word.split()) for word in words) + 2)
    return f"Rnd 1: {' '.join(words * times)}"


def repeated(chance: random.Random, length: int) -> str:
    """A few words over and over, each time with other numbers: what is slow if anything is."""
    phrase = chance.choice((" ", ", ", "")).join(chance.choices(WORDS, k=chance.randint(1, 12)))
    label = chance.choice(
        ("", "Rnd {n}: ", "Rnd {n}: ", "Next {n} rnds: ", "Rnd {n} (sizes 1 and {m} only): ")
    )
    ending = chance.choice(("", "\n", "\n", " — {n} sts\n"))
    parts: list[str] = []
    size = 0
    while size < length:
        number = len(parts) + 1
        part = (
            (label + phrase.replace("4", "{n}") + ending)
            .replace("{n}", str(number))
            .replace("{m}", str(number % 12))
        )
        parts.append(part)
        size += len(part) or length
    return "".join(parts)[:length]


def answer(text: str, cast_on: tuple[int, ...], *, checked: bool) -> float:
    """Milliseconds of processor time that the answer takes, encoded and all."""
    request = proofread.ProofreadRequest(cast_on=cast_on, text=text)
    start = time.process_time()
    given = proofread.proofread(request)
    body = encode_answer(given, ENGLISH_WORDS)
    took = (time.process_time() - start) * 1_000
    if checked:
        again = msgspec.json.decode(body, type=proofread.ProofreadAnswer)
        for line in (line for rounds in again.rounds for line in rounds):
            assert (line.before, line.after) == execute(line.steps)
    return took


def sizes(chance: random.Random) -> tuple[int, ...]:
    """Stitches to cast on."""
    count = chance.choice((1, 1, 1, 2, 3, 4, 12))
    return tuple(chance.choice((chance.randint(1, 200), 1, 64, 72, 1_000_000)) for _ in range(count))


def say(line: str) -> None:
    """Print a line now."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def by_chance(inputs: int, seed: int, seconds: float, *, short: bool) -> int:
    """Read so many random texts, for no longer than so long; the number of crashes."""
    chance = random.Random(seed)
    made = short_texts(chance) if short else texts(chance)
    crashes = slow = 0
    worst: list[tuple[float, str]] = []
    begun = time.perf_counter()
    for number, text in zip(range(1, inputs + 1), made, strict=False):
        cast_on = sizes(chance)[: 2 if short else None]
        try:
            took = answer(text, cast_on, checked=number % _CHECKED == 0)
            for _ in range(
                _AGAIN if took > LIMIT_MS else 0
            ):  # another process on the core is no fault of the reader
                took = min(took, answer(text, cast_on, checked=False))
        except Exception:  # noqa: BLE001 - whatever it is, it is what is looked for
            crashes += 1
            if crashes <= 5:
                say(f"--- crash: cast_on {cast_on}, text {text[:2_000]!r}")
                traceback.print_exc()
            continue
        slow += took > LIMIT_MS
        if len(worst) < 5 or took > worst[-1][0]:
            worst = sorted([*worst, (took, f"{cast_on} {text[:160]!r} ({len(text)} signs)")], reverse=True)[
                :5
            ]
        late = time.perf_counter() - begun > seconds
        if number % 20_000 == 0 or number == inputs or late:
            say(
                f"{number:>9,} texts, {crashes} crashes, {slow} over {LIMIT_MS:.0f} ms, slowest {worst[0][0]:.1f} ms, "
                f"{(time.perf_counter() - begun) / number * 1e3:.2f} ms each",
            )
        if late:
            break
    for took, text in worst:
        say(f"{took:8.1f} ms  {text}")
    return crashes


def by_coverage(inputs: int, seed: int) -> None:
    """Read texts that are changed so as to reach more of the reader; ends the process where one crashes."""

    def one(data: bytes) -> None:
        given = atheris.FuzzedDataProvider(data)
        cast_on = tuple(given.ConsumeIntInRange(1, 200) for _ in range(given.ConsumeIntInRange(1, 4)))
        if given.ConsumeBool():
            words = [
                WORDS[given.ConsumeIntInRange(0, len(WORDS) - 1)] for _ in range(given.remaining_bytes() // 2)
            ]
            answer(" ".join(words), cast_on, checked=True)
        else:
            answer(given.ConsumeUnicodeNoSurrogates(given.remaining_bytes()), cast_on, checked=True)

    atheris.Setup([sys.argv[0], f"-runs={inputs}", f"-seed={seed}", "-max_len=1024", "-verbosity=1"], one)
    atheris.Fuzz()


def main() -> None:
    """Fuzz as the command line says; fails where anything crashed."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--inputs", type=int, default=20_000, help="how many texts (default 20,000)")
    parser.add_argument("--seconds", type=float, default=math.inf, help="no longer than so long")
    parser.add_argument("--short", action="store_true", help="short texts only")
    parser.add_argument("--seed", type=int, default=1, help="of the chance (default 1)")
    parser.add_argument("--coverage", action="store_true", help="guided by coverage, with atheris")
    arguments = parser.parse_args()
    if arguments.coverage:
        by_coverage(arguments.inputs, arguments.seed)
    else:
        sys.exit(by_chance(arguments.inputs, arguments.seed, arguments.seconds, short=arguments.short) > 0)


if __name__ == "__main__":
    main()
