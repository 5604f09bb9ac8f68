"""The program that makes PDFs of handouts, in a process of its own: `python -P typeset.py`.

It reads the data of a handout from standard input and writes the PDF to standard output, until its input ends. After
the largest handout Typst keeps some 50 MB, so the process ends when it keeps too much, and the service starts another.
It imports nothing of the service.

- a request: its length (4 bytes), then the data as JSON
- an answer: its kind (1 byte: `DONE`, `LAST` if the process ends after it, `FAILED`), its length (4 bytes), then the
  PDF or the reason
"""

import os
import signal
import sys
from functools import cache
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

LENGTH: Final = Struct(">I")
ANSWER: Final = Struct(">cI")
DONE, LAST, FAILED = b"D", b"L", b"F"


def typeset(data: str) -> bytes:
    """The PDF of a handout, from its data (`pdf.typst_data`)."""
    document = _compiler().compile(input=TEMPLATE.read_bytes(), format="pdf", sys_inputs={"handout": data})
    assert isinstance(document, bytes)
    return document


@cache
def _compiler() -> "Compiler":
    from typst import Compiler

    return Compiler(ignore_system_fonts=True)


def main() -> None:
    """Make a PDF of each request, until the input ends or the process keeps too much memory."""
    setrlimit(RLIMIT_DATA, (MAX_MEMORY_BYTES, MAX_MEMORY_BYTES))
    os.nice(5)  # it shares one core with the loop that answers all other requests
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C in a terminal is for the parent, which ends it
    requests, answers = sys.stdin.buffer, sys.stdout.buffer
    _compiler().compile(input=b"", format="pdf", sys_inputs={})  # loads the fonts before the first request
    pdfs = 0
    while head := requests.read(LENGTH.size):
        data = requests.read(LENGTH.unpack(head)[0]).decode()
        pdfs += 1
        # The timer's signal ends the process, even inside a call of Typst, since nothing handles it.
        signal.setitimer(signal.ITIMER_PROF, MAX_CPU_S)
        try:
            content = typeset(data)
            kind = LAST if pdfs >= MAX_PDFS or _memory_kib() > MAX_MEMORY_KEPT_KIB else DONE
        except Exception as error:  # noqa: BLE001 - the parent logs it
            content, kind = repr(error).encode(), FAILED
        signal.setitimer(signal.ITIMER_PROF, 0)
        answers.write(ANSWER.pack(kind, len(content)) + content)
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
