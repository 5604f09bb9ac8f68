"""A limit on the processor time of a calculation, for requests that pass every limit on their size.

A calculation runs without a pause in the main thread and blocks all other requests. A kernel timer that counts the
processor time of the process stops it, even inside a match of `re`, which checks for signals.
"""

import signal
from threading import get_ident, main_thread
from typing import Any, Final, Self

from roundwright.reference.once import making
from roundwright.web.problems import ProblemError

MAX_CPU_S: Final = 1.0
"""Processor seconds of a calculation: twice what the dearest pattern found by chance needs, and ten times the dearest
that reads no pattern (`tests/load/RESULTS.md`, 473 and 73 ms)."""
AGAIN_S: Final = 0.05
"""The timer goes on in this interval: Python drops an error raised in a destructor or a callback of the collector."""


class Deadline:
    """A context manager that raises `ProblemError` when the work inside exceeds the limit.

    Does nothing outside the main thread, which gets no signals, and on systems without such a timer (Windows).
    """

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds
        self.is_active = False
        self.is_installed = False
        self.made = 0

    def __enter__(self) -> Self:
        """Start the timer."""
        if not self.is_installed:
            self.install()
        if get_ident() == self.thread:
            self.is_active = True
            self.made = making.ended
            self.start_timer()
        return self

    def __exit__(self, *_: object) -> None:
        """Stop the timer."""
        if self.is_active:
            try:
                signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            finally:
                self.is_active = False

    def start_timer(self) -> None:
        """Send the signal after the limit, and again as long as the work inside goes on."""
        signal.setitimer(signal.ITIMER_VIRTUAL, self.seconds, AGAIN_S)

    def install(self) -> None:
        """Install the handler of the timer's signal, if the system and the thread allow it."""
        self.thread: int | None = None
        if hasattr(signal, "setitimer") and get_ident() == main_thread().ident:
            signal.signal(signal.SIGVTALRM, self.on_signal)
            self.thread = get_ident()
            self.is_installed = True

    def on_signal(self, *_: Any) -> None:
        """Raise in the running calculation; ignore a signal that arrives after its end.

        What is made once for all requests has the time it needs, and the calculation all of its own behind it:
        otherwise every request would make it anew and be stopped.
        """
        if not self.is_active:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        elif making.running or making.ended != self.made:
            self.made = making.ended
            self.start_timer()
        else:
            raise ProblemError(
                "too-long",
                f"This request takes more than {self.seconds:g} s to calculate. Split it into smaller requests; "
                "sent again unchanged, it fails again.",
            )


within: Final = Deadline(MAX_CPU_S)
"""The deadline of every calculation."""
