"""The program that makes PDFs of handouts and PNGs of pictures, in a process of its own: `python -P typeset.py`.

It reads a handout's data or an SVG from standard input and writes the file to standard output, until its input ends.
After the largest handout Typst keeps some 50 MB, so the process ends when it keeps too much, and the service starts
another. It imports nothing of the service.

- a request: its kind (1 byte: `HANDOUT`, `PICTURE`), its length (4 bytes), then the data as JSON, or the SVG
- an answer: its kind (1 byte: `DONE`, `LAST` if the process ends after it, `FAILED`), its length (4 bytes), then the
  file or the reason
"""

import os
import re
import signal
import sys
from functools import cache
from math import sqrt
from pathlib import Path
from resource import RLIMIT_DATA, getpagesize, setrlimit
from struct import Struct
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from typst import Compiler

TEMPLATE: Final = Path(__file__).with_name("handout.typ")
MAX_PDFS: Final = 200
"""PDFs that one process makes, however little memory it keeps: a bound on any leak."""
MAX_MEMORY_KEPT_KIB: Final = 80 * 1024
"""Memory after a PDF at which the process ends. It starts with 32 MiB; the largest PDF takes 65 MiB for a while."""
MAX_MEMORY_BYTES: Final = 192 * 1024 * 1024
"""Memory that the process can have at all: the largest PDF takes it to 150 MiB."""
MAX_CPU_S: Final = 4.0
"""Processor time for one PDF: over ten times what the largest takes."""

HEAD: Final = Struct(">cI")
HANDOUT, PICTURE = b"H", b"P"
DONE, LAST, FAILED = b"D", b"L", b"F"

AROUND_PICTURE: Final = b"""
#set page(width: auto, height: auto, margin: 0pt, fill: none)
#image(bytes(sys.inputs.picture), format: "svg")
"""
PIXELS_PER_INCH: Final = 192.0
"""Two pixels of the PNG for a pixel of the SVG, as screens of today have them, where there is room for them."""
INCH: Final = 96.0
"""Pixels of an SVG."""
MAX_PIXELS: Final = 6_000_000
"""Of a PNG: 24 MB while it is made, and 0.4 s. A chart of 600 stitches would have thirteen times as many."""
MAX_SVG_HEAD: Final = 400
"""Bytes of an SVG in which its sides stand."""
_SIDES: Final = re.compile(r'<svg [^>]*\bwidth="([0-9.]+)" height="([0-9.]+)"')


def typeset(data: str) -> bytes:
    """The PDF of a handout, from its data (`pdf.typst_data`)."""
    document = _compiler().compile(input=TEMPLATE.read_bytes(), format="pdf", sys_inputs={"handout": data})
    assert isinstance(document, bytes)
    return document


def rasterised(svg: str) -> bytes:
    """The PNG of a picture; Typst draws it with resvg, and with the fonts in its package."""
    picture = _compiler().compile(
        input=AROUND_PICTURE, format="png", ppi=pixels_per_inch(svg), sys_inputs={"picture": svg}
    )
    assert isinstance(picture, bytes)
    return picture


def pixels_per_inch(svg: str) -> float:
    """The resolution of a picture's PNG: two pixels for each of its own, and fewer where it would have too many."""
    sides = _SIDES.match(svg)
    assert sides is not None
    width, height = map(float, sides.groups())
    return min(PIXELS_PER_INCH, INCH * sqrt(MAX_PIXELS / (width * height)))


def is_large(svg: bytes) -> bool:
    """Whether the PNG of a picture has as many pixels as there may be, and fewer than two for each of its own."""
    return pixels_per_inch(svg[:MAX_SVG_HEAD].decode(errors="replace")) < PIXELS_PER_INCH


@cache
def _compiler() -> "Compiler":
    from typst import Compiler

    return Compiler(ignore_system_fonts=True)


def main() -> None:
    """Make the file of each request, until the input ends or the process keeps too much memory."""
    setrlimit(RLIMIT_DATA, (MAX_MEMORY_BYTES, MAX_MEMORY_BYTES))
    os.nice(5)  # it shares one core with the loop that answers all other requests
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C in a terminal is for the parent, which ends it
    requests, answers = sys.stdin.buffer, sys.stdout.buffer
    _compiler().compile(input=b"", format="pdf", sys_inputs={})  # loads the fonts before the first request
    pdfs = 0
    while head := requests.read(HEAD.size):
        what, length = HEAD.unpack(head)
        data = requests.read(length).decode()
        pdfs += 1
        # The timer's signal ends the process, even inside a call of Typst, since nothing handles it.
        signal.setitimer(signal.ITIMER_PROF, MAX_CPU_S)
        try:
            content = typeset(data) if what == HANDOUT else rasterised(data)
            kind = LAST if pdfs >= MAX_PDFS or _memory_kib() > MAX_MEMORY_KEPT_KIB else DONE
        except Exception as error:  # noqa: BLE001 - the parent logs it
            content, kind = repr(error).encode(), FAILED
        signal.setitimer(signal.ITIMER_PROF, 0)
        answers.write(HEAD.pack(kind, len(content)) + content)
        answers.flush()
        if kind == LAST:
            return


def _memory_kib() -> int:
    """Resident memory now; 0 where there is no `/proc`. `ru_maxrss` would include the parent's memory at the fork."""
    try:
        return int(Path("/proc/self/statm").read_text().split()[1]) * getpagesize() // 1024
    except OSError:
        return 0


if __name__ == "__main__":
    main()
