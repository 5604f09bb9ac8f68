"""PDFs and PNGs, typeset one after another in a separate process, with a bounded queue of callers.

The process runs `wording/handout/typeset.py`. It starts with the first PDF (or with the service, if that is warmed), is
killed when a PDF takes too long, and is restarted after it has ended. When this process ends in any way, the input of
the other is closed, and it ends too.
"""

import signal
import subprocess
import sys
from asyncio import FIRST_COMPLETED, Lock, create_task, get_running_loop, wait
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from importlib.util import find_spec
from logging import getLogger
from os import SEEK_END
from tempfile import TemporaryFile
from typing import IO, Any, Final
from weakref import finalize

from litestar.types import Receive

from roundwright.web.problems import ProblemError
from roundwright.wording.handout import typeset
from roundwright.wording.handout.typeset import HANDOUT, PICTURE

MAX_PENDING: Final = 4
"""PDFs, and pictures as large as a PNG may be, in work or in the queue: four of the largest take about 1.8 s."""
MAX_PENDING_WITH_PICTURES: Final = 12
"""The same with other pictures, which take 0.04 to 0.2 s: as many as a page shows at once."""
RETRY_AFTER_S: Final = 2
"""By then the PDFs in the queue are made."""
ANSWER_TIMEOUT_S: Final = 10
"""Wall-clock time after which a silent process counts as hung; its own limit counts processor time."""
MAX_LOGGED: Final = 200
"""Characters of a line of the process that are logged."""
MAX_READ: Final = 65_536
"""Bytes of what the process wrote that are read when it has ended: its last lines are in them."""
_LIMIT_SIGNALS: Final = (-signal.SIGPROF, -signal.SIGABRT)
"""The signals that end the process when a PDF exceeds the limit on time or memory."""


_logger: Final = getLogger("roundwright.typesetter")


def is_installed() -> bool:
    """Whether Typst is here, which comes with the extra `roundwright[pdf]`."""
    return find_spec("typst") is not None


class Typesetter:
    """The process that typesets PDFs, and the callers who wait for it."""

    def __init__(self, program: str = typeset.__file__) -> None:
        self.program = program
        self.process: subprocess.Popen[bytes] | None = None
        self.errors: IO[bytes] | None = None
        """What the process writes to its standard error: a file, since nobody reads a pipe that fills up meanwhile."""
        self.end: finalize[Any, Typesetter] | None = None
        """Ends the process, at the latest when this object is collected."""
        self.is_stopped = False
        self.pending: Counter[bytes] = Counter()
        self.lock = Lock()
        self.thread = ThreadPoolExecutor(1, "typesetter")

    async def typeset(self, data: bytes, receive: Receive, kind: bytes = HANDOUT) -> bytes:
        """The PDF of a handout's data, or the PNG of an SVG.

        Raises `ProblemError` when the queue is full, when the caller disconnects before the work begins, and when the
        file exceeds a limit.
        """
        place = HANDOUT if kind == PICTURE and typeset.is_large(data) else kind
        self.require_capacity(place)
        self.pending[place] += 1
        try:
            await self._turn(receive)
            loop = get_running_loop()
            timer = loop.call_later(ANSWER_TIMEOUT_S, self.kill)
            try:
                return await loop.run_in_executor(self.thread, self.exchange, data, kind)
            finally:
                timer.cancel()
                self.lock.release()
        finally:
            self.pending[place] -= 1

    def require_capacity(self, kind: bytes = HANDOUT) -> None:
        """Raise `ProblemError` when the queue is full; a large picture is as dear as a PDF."""
        if kind == HANDOUT and self.pending[HANDOUT] >= MAX_PENDING:
            raise _try_again(f"This process accepts {MAX_PENDING} PDFs and large pictures at once.")
        if self.pending.total() >= MAX_PENDING_WITH_PICTURES:
            raise _try_again(f"This process accepts {MAX_PENDING_WITH_PICTURES} PDFs and PNGs at once.")

    async def _turn(self, receive: Receive) -> None:
        """Wait until it is this caller's turn. Raises `ProblemError` when the caller disconnects meanwhile."""
        if not self.lock.locked():
            await self.lock.acquire()
            return
        turn, gone = create_task(self.lock.acquire()), create_task(_disconnected(receive))
        is_here = False
        try:
            await wait((turn, gone), return_when=FIRST_COMPLETED)
            is_here = not gone.done()
        finally:
            gone.cancel()
            if not is_here and not turn.cancel():  # the lock was acquired all the same
                self.lock.release()
        if not is_here:
            raise ProblemError("bad-message", "The caller has disconnected.")

    def exchange(self, data: bytes, kind: bytes = HANDOUT) -> bytes:
        """Send the data to the process and wait for the file; one call at a time. Raises as `typeset` does."""
        process = self.start()
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            process.stdin.write(typeset.HEAD.pack(kind, len(data)) + data)
            process.stdin.flush()
            head = process.stdout.read(typeset.HEAD.size)
        except BrokenPipeError:
            head = b""
        if len(head) < typeset.HEAD.size:
            raise self._error_of(process)
        result, length = typeset.HEAD.unpack(head)
        content = process.stdout.read(length)
        if len(content) < length:
            raise self._error_of(process)
        if result == typeset.LAST:
            self._discard()
            if not self.is_stopped:
                self.start()
        elif result == typeset.FAILED:
            raise RuntimeError(content.decode())
        return content

    def start(self) -> "subprocess.Popen[bytes]":
        """The process; started now if there is none, or if it has ended while idle."""
        if self.process is not None and self.process.poll() is not None:
            self._discard_ended()
        if self.process is None:
            command = [sys.executable, "-P", self.program]
            self.errors = TemporaryFile()  # noqa: SIM115 - closed when the process is discarded
            self.process = subprocess.Popen(  # noqa: S603 - ours
                command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=self.errors
            )
            self.end = finalize(self, _end, self.process, self.errors)
        return self.process

    def kill(self) -> None:
        """Kill the process; a waiting `exchange` then reads the end of its output."""
        if self.process is not None:
            self.process.kill()

    def stop(self) -> None:
        """End the process for good."""
        self.is_stopped = True
        self.thread.shutdown()
        self._discard()

    def _discard(self) -> None:
        """End the process."""
        self.process = None
        if self.end is not None:
            self.end()

    def _discard_ended(self) -> None:
        """Discard a process that has ended unasked; the first and the last line it wrote are an event of the log."""
        assert self.process is not None
        assert self.errors is not None
        self.process.kill()
        self.process.wait()
        lines = _last_lines(self.errors)
        self._discard()
        if lines:
            ends = dict.fromkeys((lines[0], lines[-1]))
            _logger.warning("typesetter_ended", extra={"lines": [line[:MAX_LOGGED] for line in ends]})

    def _error_of(self, process: "subprocess.Popen[bytes]") -> ProblemError:
        """The error for the caller whose PDF ended the process."""
        self._discard_ended()
        if process.returncode in _LIMIT_SIGNALS:
            return ProblemError(
                "too-long",
                "This file takes more time or memory than is allowed. Request fewer sizes, or another media type.",
            )
        return _try_again("The process that typesets files has ended and is being restarted.")


def _end(process: "subprocess.Popen[bytes]", errors: IO[bytes]) -> None:
    """End a process, and close what it wrote to."""
    process.kill()
    process.communicate()
    errors.close()


def _last_lines(errors: IO[bytes]) -> list[str]:
    """The lines that a process wrote to its standard error, the last of them where they are many."""
    size = errors.seek(0, SEEK_END)
    errors.seek(max(0, size - MAX_READ))
    return errors.read().decode(errors="replace").splitlines()


def _try_again(reason: str) -> ProblemError:
    return ProblemError(
        "overloaded",
        f"{reason} Try again in {RETRY_AFTER_S} s.",
        headers=((b"retry-after", b"%d" % RETRY_AFTER_S),),
    )


async def _disconnected(receive: Receive) -> None:
    """Return when the caller has disconnected."""
    while (await receive())["type"] != "http.disconnect":
        pass
