"""The program that sets handouts as PDFs, in a process of its own: `python -P typeset.py`.

It reads the data of a handout on its standard input and writes the PDF on its standard output, over and over, until its
input ends. Typst holds some 50 MB of the largest handout after it has set it, so the process ends when it holds too
much, and is started anew. It knows nothing of the rest of the service.

- a request: its length (4 bytes), data as JSON
- an answer: what it is (1 byte: `DONE`, `LAST` where the process ends after it, `FAILED`), its length (4 bytes), the
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
MOST_SHEETS: Final = 200
"""PDFs that one process sets, whatever it holds: an upper bound on any leak."""
MOST_HELD_KIB: Final = 80 * 1024
"""Memory at which it ends; it starts with 32 MiB. The largest handout takes some 65 MiB more while it is set."""
MOST_MEMORY: Final = 192 * 1024 * 1024
"""Bytes of memory at which it is ended while it sets one, as a last resort: the largest takes it to 150 MiB."""
LONGEST_S: Final = 4.0
"""Seconds of processor time for one PDF: over ten times what the largest takes."""

LENGTH: Final = Struct(">I")
ANSWER: Final = Struct(">cI")
DONE, LAST, FAILED = b"D", b"L", b"F"


def typeset(data: str) -> bytes:
    """The data of a handout (`handout_pdf.source`) as a PDF."""
    made = _compiler().compile(input=TEMPLATE.read_bytes(), format="pdf", sys_inputs={"handout": data})
    assert isinstance(made, bytes)
    return made


@cache
def _compiler() -> "Compiler":
    from typst import Compiler

    return Compiler(ignore_system_fonts=True)


def main() -> None:
    """Set what is sent until nothing more comes, or too much is held."""
    setrlimit(RLIMIT_DATA, (MOST_MEMORY, MOST_MEMORY))
    os.nice(5)  # it shares one core with the loop that answers all other requests
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C in a terminal reaches it too; its parent ends it
    requests, answers = sys.stdin.buffer, sys.stdout.buffer
    _compiler().compile(input=b"", format="pdf", sys_inputs={})  # loads the fonts before the first request
    sheets = 0
    while head := requests.read(LENGTH.size):
        data = requests.read(LENGTH.unpack(head)[0]).decode()
        sheets += 1
        # Not handled, the signal of the timer ends the process, in whatever it is.
        signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
        try:
            content = typeset(data)
            kind = LAST if sheets >= MOST_SHEETS or _held_kib() > MOST_HELD_KIB else DONE
        except Exception as error:  # noqa: BLE001 - whatever it is, it is logged by the parent
            content, kind = repr(error).encode(), FAILED
        signal.setitimer(signal.ITIMER_PROF, 0)
        answers.write(ANSWER.pack(kind, len(content)) + content)
        answers.flush()
        if kind == LAST:
            return


def _held_kib() -> int:
    """Memory held now; 0 where the system does not tell. `ru_maxrss` would count what the parent held at the start."""
    try:
        return int(Path("/proc/self/statm").read_text().split()[1]) * getpagesize() // 1024
    except OSError:
        return 0


if __name__ == "__main__":
    main()
