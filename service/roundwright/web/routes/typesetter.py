"""PDFs set in a process of their own, one after the other, for as many callers as can wait for it.

The process is `wording/handout/typeset.py`. It is started when the first PDF is asked for (or at the start, if the
service is warmed), ended where one takes too long, and started anew where it has ended. It ends by itself when this
process does, however that happens, since its input is closed then.
"""

import signal
import subprocess
import sys
from asyncio import FIRST_COMPLETED, Lock, create_task, get_running_loop, wait
from concurrent.futures import ThreadPoolExecutor
from typing import Any, Final
from weakref import finalize

from litestar.types import Receive

from roundwright.web.problems import ProblemError
from roundwright.wording.handout import typeset

MOST_IN_HAND: Final = 4
"""PDFs being set or waited for: four of the largest take some 1.6 s, and a proxy gives up after 2 s."""
RETRY_AFTER_S: Final = 2
"""By then the queue has been worked off."""
HANGS_AFTER_S: Final = 10
"""Seconds by the clock after which a process hangs that has not answered: its own limit is in processor time."""
_TOO_DEAR: Final = (-signal.SIGPROF, -signal.SIGABRT)
"""How the process ends where a PDF takes more time, or more memory, than it may."""


class Typesetter:
    """The process that sets PDFs, and the callers who wait for it."""

    def __init__(self, program: str = typeset.__file__) -> None:
        self.program = program
        self.process: subprocess.Popen[bytes] | None = None
        self.end: finalize[Any, Typesetter] | None = None
        """Ends the process, at the latest when this object goes."""
        self.is_stopped = False
        self.in_hand = 0
        self.lock = Lock()
        self.thread = ThreadPoolExecutor(1, "typesetter")

    async def typeset(self, data: bytes, receive: Receive) -> bytes:
        """The PDF of a handout's data.

        Raises `ProblemError` where too many wait already, where the caller has gone before it was begun, and where it
        takes more than one PDF may.
        """
        if self.in_hand >= MOST_IN_HAND:
            raise _try_again(
                f"{MOST_IN_HAND} PDFs are being set or waited for, as many as this process takes on."
            )
        self.in_hand += 1
        try:
            await self._turn(receive)
            loop = get_running_loop()
            timer = loop.call_later(HANGS_AFTER_S, self.kill)
            try:
                return await loop.run_in_executor(self.thread, self.exchange, data)
            finally:
                timer.cancel()
                self.lock.release()
        finally:
            self.in_hand -= 1

    def require_place(self) -> None:
        """Raise `ProblemError` where too many wait already."""
        if self.in_hand >= MOST_IN_HAND:
            raise _try_again(
                f"{MOST_IN_HAND} PDFs are being set or waited for, as many as this process takes on."
            )

    async def _turn(self, receive: Receive) -> None:
        """Wait until it is this caller's turn. Raises `ProblemError` where the caller goes meanwhile."""
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
            if not is_here and not turn.cancel():  # a turn that has come is handed on
                self.lock.release()
        if not is_here:
            raise ProblemError("bad-message", "The caller has gone.")

    def exchange(self, data: bytes) -> bytes:
        """Send the data to the process and wait for the PDF; once at a time. Raises as `typeset` does."""
        process = self.start()
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            process.stdin.write(typeset.LENGTH.pack(len(data)) + data)
            process.stdin.flush()
            head = process.stdout.read(typeset.ANSWER.size)
        except BrokenPipeError:
            head = b""
        if len(head) < typeset.ANSWER.size:
            raise self._refusal(process)
        kind, length = typeset.ANSWER.unpack(head)
        content = process.stdout.read(length)
        if len(content) < length:
            raise self._refusal(process)
        if kind == typeset.LAST:
            self._discard()
            if not self.is_stopped:
                self.start()
        elif kind == typeset.FAILED:
            raise RuntimeError(content.decode())
        return content

    def start(self) -> "subprocess.Popen[bytes]":
        """The process; started now if there is none, or if it has ended while it had nothing to do."""
        if self.process is not None and self.process.poll() is not None:
            self._discard()
        if self.process is None:
            command = [sys.executable, "-P", self.program]
            self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)  # noqa: S603 - ours
            self.end = finalize(self, _end, self.process)
        return self.process

    def kill(self) -> None:
        """End the process at once; whoever waits for its answer learns that it has ended."""
        if self.process is not None:
            self.process.kill()

    def stop(self) -> None:
        """End the process for good."""
        self.is_stopped = True
        self.thread.shutdown()
        self._discard()

    def _discard(self) -> None:
        self.process = None
        if self.end is not None:
            self.end()

    def _refusal(self, process: "subprocess.Popen[bytes]") -> ProblemError:
        """What the caller is answered whose PDF the process has not survived."""
        self._discard()
        if process.returncode in _TOO_DEAR:
            return ProblemError(
                "too-long",
                "This PDF takes more time or memory than one may. Ask for fewer sizes at once, or for another form.",
            )
        return _try_again("The process that sets PDFs has ended and is started anew.")


def _end(process: "subprocess.Popen[bytes]") -> None:
    process.kill()
    process.communicate()


def _try_again(reason: str) -> ProblemError:
    return ProblemError(
        "overloaded",
        f"{reason} Try again in {RETRY_AFTER_S} s.",
        headers=((b"retry-after", b"%d" % RETRY_AFTER_S),),
    )


async def _disconnected(receive: Receive) -> None:
    """Return when the caller has gone."""
    while (await receive())["type"] != "http.disconnect":
        pass
