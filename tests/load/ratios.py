"""The table of "Fast where it is slow": each figure is a ratio to something measured in the same run.

    python -m tests.load.ratios                   every row (a quarter of an hour), into RESULTS.md
    python -m tests.load.ratios --only crown      some rows; printed only

Processor time, in rounds in which what is compared takes turns; a row is the median of its rounds. What is asked was
never asked before, unless the row says so. Rows by socket need wrk and nginx (Debian), the row of the start an
environment like the image's (`footprint.runtime`).
"""

import argparse
import io
import sys
import tokenize
from collections.abc import Callable, Iterator
from itertools import count, islice
from statistics import median
from time import process_time, thread_time
from typing import Any, NamedTuple
from xml.etree import ElementTree as ET

import msgspec

from roundwright.language.words import ENGLISH_WORDS
from roundwright.web.routes import all_operations
from roundwright.wording.handout import typeset
from tests.load import ratios_served
from tests.load.bench import machine
from tests.load.cases import GAUGE, hats
from tests.load.ratios_before import BEFORE
from tests.load.results import write_section
from tests.load.worst import KEPT
from tests.long.asking import Service
from tests.long.record import table

ROUNDS = 7
PACKAGES = ("litestar", "uvicorn", "msgspec", "typst")
Pair = tuple[float, float]


class Row(NamedTuple):
    """A row: what is measured, against what, what is wanted, and a pair of measurements for each round."""

    what: str
    against: str
    wanted: str
    pairs: Callable[[], Iterator[Pair]]


FRESH = count(1)
"""Numbers that no request of this run has had."""


def gauge() -> dict[str, Any]:
    """A gauge never asked before."""
    number = next(FRESH)
    return {**GAUGE, "stitches": 22 + number / 10_000, "rows": 30 + number / 10_000}


def taken(function: Callable[[Any], Any], requests: list[Any]) -> float:
    """Processor seconds of this thread for requests, each once; the median of them."""
    seconds = []
    for request in requests:
        began = thread_time()
        function(request)
        seconds.append(thread_time() - began)
    return median(seconds)


OPERATIONS = {operation.id: operation for operation in all_operations()}


def request(operation: str, body: dict[str, Any]) -> Any:
    """A body as the operation gets it."""
    return msgspec.convert(body, OPERATIONS[operation].request_type)


# --- patterns -----------------------------------------------------------------------------------------------


def pattern(lines: int, sizes: int) -> dict[str, Any]:
    """A usual crown in so many lines, of stitches never asked before: a decrease round and a plain one in turn."""
    first = 8 * (lines // 2 + 12 + next(FRESH) % 400)
    counts = [first + 8 * size for size in range(sizes)]
    text = [f"Cast on {_values(counts)} sts.", "Crown"]
    for number in range(1, lines - 1):
        if number % 2 == 0:
            text.append(f"Rnd {number}: knit.")
        else:
            plain = [stitches // 8 - 2 for stitches in counts]
            counts = [stitches - 8 for stitches in counts]
            text.append(f"Rnd {number}: *k{_values(plain)}, k2tog; rep from * around. {_values(counts)} sts")
    return {"cast_on": [first + 8 * size for size in range(sizes)], "text": "\n".join(text) + "\n"}


def _values(values: list[int]) -> str:
    first, *others = values
    return f"{first} ({', '.join(map(str, others))})" if others else f"{first}"


def proofread(body: dict[str, Any]) -> bytes:
    """A pattern proofread, from the body to the answer."""
    operation = OPERATIONS["proofreadPattern"]
    return operation.renderers["application/json"](
        operation.calculate(request("proofreadPattern", body)), ENGLISH_WORDS
    )


def tokens(body: dict[str, Any]) -> list[tokenize.TokenInfo]:
    """The text in the tokens of Python."""
    return list(tokenize.generate_tokens(io.StringIO(body["text"]).readline))


def against_tokenize(sizes: int) -> Iterator[Pair]:
    """A crown of 20 lines proofread, and its tokens."""
    while True:
        bodies = [pattern(20, sizes) for _ in range(9)]
        yield taken(proofread, bodies), taken(tokens, bodies)


def line_of_a_long_pattern() -> Iterator[Pair]:
    """A line of 400, and one of 10."""
    while True:
        long, short = [pattern(400, 1)], [pattern(10, 1) for _ in range(9)]
        yield taken(proofread, long) / 400, taken(proofread, short) / 10


# --- pictures, crowns, hats, spacing ------------------------------------------------------------------------


def picture(operation: str) -> Iterator[Pair]:
    """A picture drawn for a title never asked before, and its tree written by the standard library."""
    service = Service()
    drawn = OPERATIONS[operation]
    while True:
        bodies = [
            msgspec.json.encode(drawn.example_value() | _differing(operation, next(FRESH))) for _ in range(15)
        ]
        answers = [service.ask_for(drawn, body) for body in bodies]
        assert all(answer.status == 200 for answer in answers)
        trees = [ET.fromstring(answer.body) for answer in answers]
        written = taken(lambda tree: ET.tostring(tree, encoding="utf-8"), trees)
        yield median(answer.ms for answer in answers) / 1000, written


def _differing(operation: str, number: int) -> dict[str, Any]:
    """Parameters that make a picture another one: gauge or stitches, in nothing that changes what is drawn by much."""
    if operation == "drawProfile":
        return {"gauge_stitches": 20 + number / 10_000}
    if operation == "drawSpacing":
        return {"stitches": 100 + number % 20, "title": f"{number}"}
    return {"gauge_stitches": 20 + number / 10_000, "gauge_rows": 28}


def suggestion() -> Iterator[Pair]:
    """Crowns suggested for 96 stitches, and the usual crown of as many worked."""
    suggest, close = OPERATIONS["suggestCrown"].calculate, OPERATIONS["closeCrown"].calculate
    while True:
        shapes = [
            request("suggestCrown", {"stitches": 96, "gauge": gauge(), "shape": shape})
            for shape in 3 * ("round", "flat", "pointed")
        ]
        crowns = [request("closeCrown", {"stitches": 96, "gauge": gauge()}) for _ in range(15)]
        yield taken(suggest, shapes), taken(close, crowns)


def cold_hats() -> Iterator[Pair]:
    """Hats in four sizes of a gauge never asked, and their answer encoded."""
    plan, encode = OPERATIONS["planHats"].calculate, msgspec.json.Encoder(enc_hook=str).encode
    while True:
        requests = [request("planHats", hats(4, gauge())) for _ in range(15)]
        yield taken(plan, requests), taken(encode, [plan(parameters) for parameters in requests[:5]])


def awkward_spacing() -> Iterator[Pair]:
    """A step of the answer for a million stitches, and one for a hundred; of changes that divide in no simple way."""
    spread = OPERATIONS["shapeEvenly"].calculate
    while True:
        per_step = []
        for stitches in (1_000_000, 100):
            requests = [
                request("shapeEvenly", {"stitches": stitches - next(FRESH) % 7, "change": 1 - round(stitches * share)})
                for share in (0.03, 0.07, 0.12, 0.19, 0.31, 0.43)
                for _ in range(5)
            ]  # fmt: skip
            began = thread_time()
            answers = [spread(parameters) for parameters in requests]
            per_step.append((thread_time() - began) / sum(_steps(answer.round.steps) for answer in answers))
        yield per_step[0], per_step[1]


def _steps(steps: Any) -> int:
    return sum(1 + _steps(getattr(step, "steps", ())) for step in steps)


# --- PDFs ---------------------------------------------------------------------------------------------------

PLAIN = """
#let given = json(bytes(sys.inputs.handout))
#set page(paper: given.paper, margin: (x: 11mm, top: 10mm, bottom: 12mm), columns: 2)
#set text(font: "Libertinus Serif", size: 8.7pt)
#set par(leading: 0.42em, spacing: 0.42em)
#for (number, page) in given.pages.enumerate() {
  if number > 0 { pagebreak() }
  for words in page { par(words) }
}
"""


def pdf() -> Iterator[Pair]:
    """The handout of a class of four, and its words as plain paragraphs on as many pages."""
    compiler = typeset._compiler()
    pages = len(
        compiler.compile(
            input=typeset.TEMPLATE.read_bytes(), format="svg", sys_inputs={"handout": _handout_data()}
        )
    )
    while True:
        began = process_time()
        data = _handout_data()
        typeset.typeset(data)
        handout_s = process_time() - began
        given = msgspec.json.decode(data)
        words = list(_words({key: given[key] for key in given if key not in ("pictures", "paper")}))
        share = -(-len(words) // pages)
        plain = {"paper": given["paper"], "pages": [words[share * n : share * (n + 1)] for n in range(pages)]}
        inputs = {"handout": msgspec.json.encode(plain).decode()}
        began = process_time()
        compiler.compile(input=PLAIN.encode(), format="pdf", sys_inputs=inputs)
        yield handout_s, process_time() - began


def _handout_data(body: dict[str, Any] | None = None) -> str:
    operation = OPERATIONS["writeHandout"]
    fields = body or operation.example_value() | {"gauge": gauge()}
    answer = operation.calculate(request("writeHandout", fields))
    return operation.renderers["application/pdf"](answer, ENGLISH_WORDS).decode()


def _words(value: Any) -> Iterator[str]:
    """The texts of a handout's data."""
    if isinstance(value, dict | list):
        for part in value.values() if isinstance(value, dict) else value:
            yield from _words(part)
    elif isinstance(value, str | int) and not isinstance(value, bool):
        yield str(value)


def dearest_pdf() -> Iterator[Pair]:
    """The dearest handout found by `tests.load.worst`; in units of 1 ms."""
    body = msgspec.json.decode((KEPT / "writeHandout.json").read_bytes())["request"]
    while True:
        body["gauge"]["stitches"] += 0.001
        began = process_time()
        typeset.typeset(_handout_data(body))
        yield process_time() - began, 0.001


ROWS = (
    Row("proofread, 20 lines, one size", "`tokenize` of the text", "≤ 5", lambda: against_tokenize(1)),
    Row("proofread, 20 lines, four sizes", "`tokenize` of the text", "≤ 5", lambda: against_tokenize(4)),
    Row("proofread, a line of 400", "a line of 10", "≤ 1", line_of_a_long_pattern),
    Row("crown chart", "`ElementTree.tostring` of it", "≤ 1.5", lambda: picture("drawCrown")),
    Row("profile", "`ElementTree.tostring` of it", "≤ 1.5", lambda: picture("drawProfile")),
    Row("needles", "`ElementTree.tostring` of it", "≤ 1.5", lambda: picture("drawNeedles")),
    Row("spacing", "`ElementTree.tostring` of it", "≤ 1.5", lambda: picture("drawSpacing")),
    Row("crown suggestion", "a usual crown worked", "≤ 12", suggestion),
    Row("hats, four sizes", "msgspec encoding the answer", "≤ 15", cold_hats),
    Row("awkward spacing, a step of 10⁶ stitches", "a step of 10²", "≤ 1.5", awkward_spacing),
    Row("handout as PDF, class of four", "its words as plain paragraphs", "≤ 2", pdf),
    Row("dearest handout known as PDF", "1 ms of a core", "≤ 150", dearest_pdf),
    *(Row(*row) for row in ratios_served.ROWS),
)

READER = (
    "It was 30 before the reader was mended for the texts of some hundred strangers. When last profiled, the time was "
    "spread over five hundred functions, none above a fortieth; `tokenize` is written in C since Python 3.12. Tried: "
    "English words read once in place of twice; kinds of phrases compared by their type and kept in sets, passes left "
    "at once where their word is not in the text (together a quarter less)."
)
PICTURE = (
    "The calculation is part of it: of a hat for the profile, of a split for needles. Tried: the "
    "width of plain text by its length; what is left is a Python call for each element and each "
    "coordinate."
)
ELEMENTS = (
    "Each of some thousand cells of tables is laid out by itself. Tried, each within a few percent: "
    "columns of fixed width, cells without lines, boxes and bold, no hyphens, simple line breaks, "
    "sheets that may break, one thread (a tenth)."
)
START = (
    "Litestar and the structs of the operations; warm, every operation is answered once before it is ready, and the "
    "process for PDFs holds the fonts. Cold it was 1.98 and 1.45 before pint was imported with the first unit and what "
    "draws with the first picture; warm, all of this is loaded all the same."
)
CONVERT = (
    "The smallest calculation: routing, strict reading and the header lines of every answer are most of it. In earlier "
    "runs 0.70 to 0.73. Tried: decoders made once, handlers of errors found once, two messages an answer."
)
TRIED = {
    "gauge/convert: answers a second of a core": CONVERT,
    "proofread, 20 lines, one size": READER,
    "proofread, 20 lines, four sizes": READER,
    "crown chart": PICTURE,
    "profile": PICTURE,
    "needles": PICTURE,
    "spacing": PICTURE,
    "crown suggestion": (
        "Tried: counts without rounds, each outline measured once, executed rounds kept (25 to 12.7). "
        "Ruling candidates out before they are counted needs a bound on the distance, or counts shared "
        "between cadences: harder to read than the gain is worth."
    ),
    "hats, four sizes": (
        "Spread over 470 functions. Tried: executed rounds kept; the crown is written once and no longer in two "
        "numberings."
    ),
    "hats, four sizes, by socket: answers a second": (
        "As in process; and a repeated crown is found where it is kept."
    ),
    "handout as PDF, class of four": ELEMENTS,
    "dearest handout known as PDF": ELEMENTS,
    "needles/split: answers a second of a core": (
        "The calculation is the larger part, the same for both. Tried: executed rounds kept."
    ),
    "a batch of 100, through the proxy: a second of a core": (
        "Each part is read, limited in time and encoded as if it were alone, which is most of a small calculation. "
        "Tried: turning to other requests only every 2 ms in place of after each part; it did not show."
    ),
    "first answer of an operation, the dearest, warm on": (
        "The smallest look-up, 0.1 ms above 0.04: the route in Litestar's router and code that the "
        "interpreter sees for the first time. Tried: examples read before, metrics at hand."
    ),
    "memory after 100,000 mixed requests, all languages": (
        "Read every 5,000 requests it is flat from the 10,000th on: what grows before are caches, of 16 MiB at most."
    ),
    "start until ready, cold, processor time": START,
    "idle memory, cold": START,
    "start until ready, warm, processor time": START,
    "idle memory, warm, with the process for PDFs": START,
}
"""What was tried where the figure wanted was missed."""

INTRODUCTION = f"""
Written by `python -m tests.load.ratios`: processor time against what is measured in the same run, the median of
{ROUNDS} rounds that take turns (memory after many requests: once). Requests were never asked before, but where a row
says so. *Before* is commit 3e671ff, by the same command on another machine (AMD EPYC), which was shared meanwhile:
small differences say nothing.
"""


def main() -> int:
    """Measure the rows, print them, and write them down where none was left out."""
    parser = argparse.ArgumentParser(prog="python -m tests.load.ratios")
    parser.add_argument("--only", default="", help="only rows with this in their name")
    parser.add_argument("--skip", default=None, help="no rows with this in their name")
    given = parser.parse_args()
    rows = []
    for row in ROWS:
        if given.only in row.what and (given.skip is None or given.skip not in row.what):
            pairs = row.pairs()
            next(pairs)  # what is read once is read
            ratio = median(above / below for above, below in islice(pairs, ROUNDS))
            rows.append(_told(row, ratio))
            sys.stdout.write(f"{rows[-1]}\n")
            sys.stdout.flush()
    written = f"{INTRODUCTION.strip()}\n\n{machine(PACKAGES)}\n\n{table(rows)}"
    sys.stdout.write(f"{written}\n")
    if len(rows) == len(ROWS):
        write_section("Speed: what is dear", written)
    return 0


def _told(row: Row, ratio: float) -> dict[str, str]:
    most, bound = row.wanted.split()
    missed = ratio > float(bound) if most == "≤" else ratio < float(bound)
    before = BEFORE.get(row.what)
    return {
        "What": row.what,
        "Against": row.against,
        "Before": "" if before is None else f"{before:.3g}",
        "Now": f"{ratio:.3g}{', missed' if missed else ''}",
        "Wanted": row.wanted,
        "Tried": TRIED.get(row.what, "") if missed else "",
    }


if __name__ == "__main__":
    sys.exit(main())
