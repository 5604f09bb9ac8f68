"""What the service costs beside its answers: time to start, memory, and processor time with more processes.

Cold it loads what an answer needs with the first that needs it; warm, as in the image, all of it before it is ready,
and the process that sets PDFs and PNGs counts. It is compared to a Litestar application with a single answer under the
same uvicorn, all in an environment that has what the image has and nothing else. Where it is missing it is made from
the pinned requirements: in `.venv/runtime`, or where the variable RUNTIME says.
"""

import os
import subprocess
import tempfile
import venv
from itertools import product
from pathlib import Path
from shutil import copytree, rmtree
from statistics import median
from typing import Final, NamedTuple

from roundwright.language.codes import LANGUAGES
from tests.load.callers import good_calls
from tests.load.fleet import REPOSITORY
from tests.load.inside import reached
from tests.load.served import OURS, Served, pace
from tests.load.sizing import processor_s

STARTS = 7
BARE: Final = "bare"
MOST_START_COLD = 1.5
"""Times as long to start as the other."""
MOST_IDLE_COLD = 1.5
"""Times as much memory when idle."""
MOST_START = 3.0
"""The same warm: every operation has answered once when the service is ready."""
MOST_IDLE = 3.5
"""The same warm: a third of it is the process with the fonts, for PDFs and PNGs."""
WARM = 3_000
"""Requests before the memory is first looked at: everything read once has been read, what is kept is full."""


class Start(NamedTuple):
    """What a start took: processor time, time by the clock, and the memory held behind it."""

    processor_s: float
    ready_s: float
    idle_bytes: float


def measure(*, requests: int, seconds: int) -> list[dict[str, str]]:
    """The table."""
    python = str(runtime())
    seen: dict[tuple[str, bool], list[Start]] = {(OURS, False): [], (OURS, True): [], (BARE, False): []}
    for _ in range(STARTS):
        for (name, is_warm), starts in seen.items():
            starts.append(start(name, python, warm=is_warm))
    cold, warm, bare = (Start(*map(median, zip(*starts, strict=True))) for starts in seen.values())
    with tempfile.TemporaryDirectory() as folder:
        script = mixed(Path(folder))
        first, last, answers = growth(script, python, requests, seconds)
    return [
        _start_row("cold", cold, bare, MOST_START_COLD),
        _idle_row("cold", cold, bare, MOST_IDLE_COLD),
        _start_row("warm", warm, bare, MOST_START),
        _idle_row("warm, with the process for PDFs", warm, bare, MOST_IDLE),
        _row(
            f"memory after {answers:,} mixed requests / after {WARM:,}",
            last / first, 1.02, f"{_mib(last)}, before {_mib(first)}",
        ),
    ]  # fmt: skip


def start(name: str, python: str, *, warm: bool) -> Start:
    """A start of the service, or of a rival, until it is ready."""
    with started(name, python, warm=warm) as server:
        return Start(processor_s(server.process.pid), server.ready_after_s, held_bytes(server))


def started(name: str, python: str, *, warm: bool = True) -> Served:
    """The service as the image runs it, or cold, or a rival."""
    return Served(name, python=python, **({"warm": "true" if warm else "false"} if name == OURS else {}))


def runtime() -> Path:
    """The interpreter of an environment like the image's; made if it is missing or its pins have changed."""
    folder = Path(os.environ.get("RUNTIME", REPOSITORY / ".venv" / "runtime"))
    pins = REPOSITORY / "deploy" / "requirements.txt"
    python, stamp = folder / "bin" / "python", folder / ".requirements"
    if not stamp.exists() or stamp.read_text() != pins.read_text():
        venv.create(folder, clear=True, with_pip=True)
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        subprocess.run([*pip, "--require-hashes", "-r", pins], check=True)
        stamp.write_text(pins.read_text())
    # As in the image: a copy of the package, its catalogues and bytecode compiled.
    installed = next((folder / "lib").glob("python*/site-packages")) / "roundwright"
    rmtree(installed, ignore_errors=True)
    copytree(REPOSITORY / "service" / "roundwright", installed)
    alone = {name: text for name, text in os.environ.items() if name != "PYTHONPATH"}
    subprocess.run([python, "-m", "roundwright.language.words"], check=True, env=alone, cwd=folder)
    subprocess.run([python, "-m", "compileall", "-q", folder], check=True)
    return python


def mixed(folder: Path) -> Path:
    """A script of wrk's that asks for every operation in each language, among many small requests; for no PDF.

    Of PDFs only four may be in hand, and they are set in another process.
    """
    requests = []
    for language, call in product(LANGUAGES, [call for call in good_calls() if ".pdf" not in call.name]):
        head, _, body = call.wire.partition(b"\r\n\r\n")
        method, path, _ = head.split(b"\r\n")[0].decode().split(" ")
        headers = f'["Accept-Language"] = "{language}", ["Content-Type"] = "application/json"'
        requests.append(f'{{"{method}", "{path}", {{{headers}}}, [==[{body.decode()}]==]}}')
    script = folder / "mixed.lua"
    script.write_text(
        f"local requests = {{{', '.join(requests)}}}\nlocal turn = 0\n"
        "request = function()\n"
        "  turn = turn % #requests + 1\n"
        "  local call = requests[turn]\n"
        "  return wrk.format(call[1], call[2], call[3], call[4])\n"
        "end\n"
    )
    return script


def growth(script: Path, python: str, requests: int, seconds: int) -> tuple[int, int, int]:
    """Memory when warm and after so many requests, and how many there were."""
    with started(OURS, python) as server:
        answers = 0
        while answers < WARM:
            answers += round(pace(server, script, "/", 1).rate)
        first, answers = held_bytes(server), 0
        while answers < requests:
            answers += round(pace(server, script, "/", seconds).rate * seconds)
        return first, held_bytes(server), answers


def held_bytes(server: Served) -> int:
    """Memory of its own and of files that a server holds, in bytes."""
    first = server.process.pid
    children = Path(f"/proc/{first}/task/{first}/children").read_text().split()
    pages = (int(Path(f"/proc/{pid}/statm").read_text().split()[1]) for pid in (first, *children))
    return sum(pages) * os.sysconf("SC_PAGESIZE")


def _start_row(how: str, ours: Start, bare: Start, most: float) -> dict[str, str]:
    figures = (
        f"{ours.processor_s:.2f} s of a core, {ours.ready_s:.2f} s by the clock; "
        f"bare {bare.processor_s:.2f} s and {bare.ready_s:.2f} s"
    )
    return _row(f"start to ready, {how}", ours.processor_s / bare.processor_s, most, figures)


def _idle_row(how: str, ours: Start, bare: Start, most: float) -> dict[str, str]:
    figures = f"{_mib(ours.idle_bytes)}, bare {_mib(bare.idle_bytes)}"
    return _row(f"idle memory, {how}", ours.idle_bytes / bare.idle_bytes, most, figures)


def _row(what: str, ratio: float, most: float, figures: str) -> dict[str, str]:
    return {**reached(what, ratio, most), "in figures": figures}


def _mib(size: float) -> str:
    return f"{size / 2**20:.1f} MiB"
