"""Nothing a stranger sends costs more than its length: twice as much of it takes about twice the time.

Measured as a ratio within one run, in processor time: at n, 2n and 4n, the cheapest first, so that what is dear ends
the search. What grows faster than `MOST` over both doublings is measured again, often, before it counts; what takes
less than `FAINTEST_MS` is too faint to be measured and too cheap to matter.
"""

import os
import random
import re
from collections.abc import Callable
from itertools import product
from statistics import median
from time import process_time

import msgspec
import pytest
from msgspec import inspect

from roundwright import reference
from roundwright.web.routes.batch import Batch
from roundwright.web.routes.operation import Calculation
from roundwright.web.routes.picture_file import PictureFile
from roundwright.wording.reading.languages.rewrite import rewritten
from tests.contract.places import places, put
from tests.long.asking import Service, everything, kept, operations, pages
from tests.long.making import Maker

MOST = 2.6
"""Twice the work is 2; what lies above is the noise of a busy machine, and what sorting adds."""
FAINTEST_MS = 1.0
TIMES = 5
"""Measurements of one size where it counts; of these the middle one is taken."""
HEADER = 4_000
"""Characters of a header field: four times as many are as long as a header may be."""

SIGNS = (" ", "\t", "\n", ".", ",", ";", ":", "!", "(", ")", "[", "]", "*", "-", "–", "—", "#", "_", "&", "'", '"', "½",
         "/", "=", "%", "\\", "0", "9", "a", "A", "é", "\u202e")  # fmt: skip
WORDS = ("r1", "k", "K. ", "k. ", "1 ", "1, ", "1-2", "(1,", "1(", "1.", "1)", "Rnd ", "Rnd 1", "Rnd 1: ", "rnds ",
         "next ", "Next rnd: ", "dec", "rep ", "rep from * ", "rep rnds 1-99 ", "to ", "to last ", "last ", "until ",
         "measures ", "cm", "cast on ", "co ", "a total of ", "size ", "sizes 1 ", "work ", "knit ", "k2tog ", "k1p1",
         "of the ", "x: ", "X\n", "Notes\n", "all odd rnds", "and ", "sts ", "once ", "blobble ", "** ",
         "rep from * to ** ", "(k1, m1) ", "[sl1, ", "to end ", "3 times ", "and its first 2 sts again ", "4 (5, 6) ",
         "* sl rep to last 2 sts ")  # fmt: skip
FRAGMENTS = (*SIGNS, *WORDS)
IN_A_TEXT = (*SIGNS, "a b", "1e")
IN_A_BODY = (
    *SIGNS,
    '{"a":',
    "[",
    "[]",
    "{}",
    '"a",',
    '"a":1,',
    "1,",
    "&",
    "a=",
    "a=1&",
    "%2",
    "+",
    "\\u00e9",
)
EVERY_SIGN = "ROUNDWRIGHT_TEST_EXAMPLES" in os.environ
"""Whether each of them is tried everywhere, as `tests/run.sh --long` does; else a sixth in a body, a tenth in a text.

So are the texts that a pattern is made of; else a third of those are drawn. Every operation and place draws others, so
that of the signs none is left out.
"""
STARTS = ("", "Rnd 1", "Rnd 1: k", "r1", "k. ", "co ", "(")
ENDS = ("", "!", " rnd")
BY_CHANCE = 120
"""Texts of two to four fragments repeated, beside every fragment by itself."""


def shapes(chance):
    """What a text is made of: how it starts, what is repeated, how it ends."""
    yield from product(STARTS, FRAGMENTS, ENDS)
    for _ in range(BY_CHANCE):
        unit = "".join(chance.choices(FRAGMENTS, k=chance.randint(2, 4)))
        yield chance.choice(STARTS), unit, chance.choice(ENDS)


def text_of(shape, length):
    """A text of a length."""
    start, unit, end = shape
    return start + (unit * (length // len(unit) + 1))[:length] + end


def growth(cost: Callable[[int], float], least: int) -> float:
    """How much dearer twice as much is, where it is over two doublings; 0 where it is not seen to be dearer."""
    costs = [cost(least), cost(2 * least)]
    if costs[1] < FAINTEST_MS / 2 or costs[1] < MOST * costs[0]:
        return 0
    costs.append(cost(4 * least))
    if costs[2] < FAINTEST_MS or costs[2] < MOST * costs[1]:
        return 0
    often = [median(cost(size) for _ in range(TIMES)) for size in (least, 2 * least, 4 * least)]
    return min(often[1] / often[0], often[2] / often[1])


def too_fast(cost: Callable[[int], float], least: int) -> float:
    """The growth above the most there may be, seen again and again; 0 where there is none."""
    return min((growth(cost, least) for _ in range(2)), default=0) if growth(cost, least) > MOST else 0


@pytest.fixture(scope="module")
def service():
    """The application, asked without a socket."""
    return Service()


def ms(service, operation, body, **named):
    """What an answer costs, as if nothing like it had been asked before; it is never a fault of the service."""
    for cache in kept():
        cache.cache_clear()
    answer = service.ask_for(operation, body, **named)
    assert answer.status < 500
    assert b"/problems/too-long" not in answer.body
    return answer.ms


def filled(operation, path, value):
    """The example of an operation with a value at a place."""
    maker = Maker(operation.request_type, random.Random(1))
    return put(maker, maker.kind, operation.example_value(), path, value)


def at(operation, kind):
    """The places of a kind in what an operation takes."""
    return list(places(inspect.type_info(operation.request_type), kind))


LISTS = ("–a) 8 ", "(8) 8 ", "8/", "8 – ", "S/", "S (M) ", "1., ", "1.-", "8,5 ", "8x ")
"""Lists in the manner of other languages, left open."""

CALCULATIONS = [operation for operation in operations() if isinstance(operation, Calculation)]
AROUND_PATTERNS = {
    "proofreadPattern": lambda text: {"cast_on": [24], "text": text},
    "checkCount": lambda text: {"pattern": {"cast_on": [24], "text": text}, "count": 24},
}
"""A request around a written pattern that has nothing else to be refused for, by operation."""
PLACES = [
    pytest.param(operation, path, kind, id=f"{operation.id} {'/'.join(map(str, path))}")
    for operation in (*operations(), *pages())
    for path, kind in at(operation, (inspect.StrType, inspect.VarTupleType))
]


@pytest.mark.parametrize(
    "operation",
    [operation for operation in CALCULATIONS if operation.takes_text],
    ids=lambda operation: operation.id,
)
def test_a_pattern_costs_its_length(operation, service):
    """Of all texts made of fragments repeated and left open, none grows faster than it gets longer."""
    dear = {}
    every = list(shapes(random.Random(operation.id)))
    drawn = every if EVERY_SIGN else random.Random(operation.id).sample(every, len(every) // 3)
    for shape in drawn:

        def cost(length, shape=shape):
            text = text_of(shape, length)
            return ms(service, operation, msgspec.json.encode(AROUND_PATTERNS[operation.id](text)))

        if ratio := too_fast(cost, 1_000):
            dear[shape] = ratio
            break
    assert {} == dear


@pytest.mark.parametrize("language", reference.LANGUAGES)
def test_a_pattern_of_another_language_costs_its_length(language):
    """Of all texts made of wordings of a language and what they begin with, none is rewritten slower than it is longer.

    What it is rewritten to is an English pattern, which is measured above.
    """
    chance = random.Random(language)
    reads = {
        re.sub(r"\{[a-z]\}", "8", read) + " " for row in reference.wordings(language) for read in row.reads
    }
    beginnings = sorted({read[: chance.randint(1, len(read))] for read in sorted(reads)} | reads)
    units = [
        *LISTS,
        *("".join(chance.choices((*LISTS, *beginnings), k=chance.randint(1, 3))) for _ in range(90)),
    ]
    dear = {}
    for unit in units:

        def cost(length, unit=unit):
            begun = process_time()
            rewritten(text_of(("", unit, ""), length), language, 3)
            return (process_time() - begun) * 1_000

        if ratio := too_fast(cost, 1_000):
            dear[unit] = ratio
            break
    assert {} == dear


@pytest.mark.parametrize(("operation", "path", "kind"), PLACES)
def test_a_text_or_list_costs_its_length(operation, path, kind, service):
    """Every text and list of every operation, up to its bound and far beyond it, where it is refused."""
    dear = {}
    if isinstance(kind, inspect.VarTupleType):
        item = Maker(operation.request_type, random.Random(1)).value(kind.item_type, 6)
        contents = {"as many": lambda length: [item] * length}
        most = (kind.max_length, 4_000)
    else:
        units = IN_A_TEXT if not isinstance(operation, PictureFile) else (" ", "a b", "\u202e")
        if not EVERY_SIGN and units is IN_A_TEXT:
            units = random.Random(f"{operation.id} {path}").sample(units, len(units) // 10)
        contents = {unit: lambda length, unit=unit: text_of(("", unit, "!"), length) for unit in units}
        most = (kind.max_length, 4_000 if hasattr(operation, "takes_text") else 2_000)
    for (name, content), length in product(contents.items(), most):

        def cost(size, content=content):
            return ms(service, operation, msgspec.json.encode(filled(operation, path, content(size))))

        if length >= 8 and (ratio := too_fast(cost, length // 4)):
            dear[name, length] = ratio
            break
    assert {} == dear


@pytest.mark.parametrize("operation", everything(), ids=lambda operation: operation.id)
def test_a_body_that_is_none_costs_its_length(operation, service):
    """Names nobody knows, brackets never closed, and bytes that say nothing: refused in the time it takes to read."""
    dear = {}
    every = [*product(("", "[", '{"', '{"a":[', "?", '{"requests":['), IN_A_BODY)]
    drawn = every if EVERY_SIGN else random.Random(operation.id).sample(every, len(every) // 6)
    for start, unit in drawn:

        def cost(length, start=start, unit=unit):
            return ms(service, operation, text_of((start, unit, ""), length).encode())

        if ratio := too_fast(cost, 2_000):
            dear[start, unit] = ratio
            break
    assert {} == dear


MOST_OF_A_PART_MS = 30
"""Milliseconds of a part of which sixteen are well within the second that a batch may take."""


@pytest.mark.parametrize("operation", CALCULATIONS, ids=lambda operation: operation.id)
def test_a_batch_costs_its_parts(operation, service):
    """Twice as many parts of any calculation, all alike or each another, right or with a fault, cost twice as much."""
    (batch,) = (candidate for candidate in everything() if isinstance(candidate, Batch))
    example = operation.example_value()
    bodies = {
        "alike": lambda _: example,
        "with a fault": lambda number: example | {f"wool{number}": number},
        "of no calculation": lambda number: {f"wool{number}": number},
    }
    dear = {}
    for name, body in bodies.items():

        def cost(parts, body=body):
            requests = [{"operation": operation.id, "body": body(number)} for number in range(parts)]
            return ms(service, batch, msgspec.json.encode({"requests": requests}))

        # A batch of sixteen dear parts is sent back as too long.
        fewest = 4 if cost(1) < MOST_OF_A_PART_MS else 2
        if ratio := too_fast(cost, fewest):
            dear[name] = ratio
    assert {} == dear


@pytest.mark.parametrize("path", ["/", "/problems/", "/docs/", "/v1/", "/v1/standards/", "/v1/drawings/"])
def test_a_path_costs_its_length(path, service):
    """Addresses of nothing, and of what a path names."""
    dear = {}
    for unit in (*SIGNS, "%2", "/a", "../", "problems/", "too-long-"):

        def cost(length, unit=unit):
            answer = service.ask("GET", path + text_of(("", unit, ""), length))
            assert answer.status < 500
            return answer.ms

        if ratio := too_fast(cost, 1_000):
            dear[unit] = ratio
    assert {} == dear


FIELDS = ("accept", "accept-language", "authorization", "content-type", "content-encoding", "content-length", "cookie",
          "host", "if-none-match", "origin", "range", "request-id", "traceparent", "x-forwarded-for",
          "accept-encoding", "wool")  # fmt: skip


@pytest.mark.parametrize("field", FIELDS)
def test_a_header_field_costs_its_length(field, service):
    """Whatever stands in a field of the header, whichever operation is asked."""
    dear = {}
    handout = next(calculation for calculation in CALCULATIONS if len(calculation.renderers) > 1)
    picture = next(candidate for candidate in operations() if not isinstance(candidate, Calculation))
    for operation, start, unit in product(
        (handout, picture),
        ("", "text/", "application/json;", "W/", "Bearer ", "1"),
        (*SIGNS, "a/b,", "a/", "/a", ";q=", "; q=0.1", "W/", '"a",', "a;", "1.", "::", "[:"),
    ):
        method, path = operation.methods[0], operation.template.replace("{", "").replace("}", "")

        def cost(length, start=start, unit=unit, method=method, path=path):
            text = text_of((start, unit, ""), length).encode("latin-1", "replace")
            answer = service.ask(method, path, body=b"{}", headers={field.encode(): text})
            assert answer.status < 500
            return answer.ms

        if ratio := too_fast(cost, HEADER // 4):
            dear[operation.id, start, unit] = ratio
            break
    assert {} == dear
