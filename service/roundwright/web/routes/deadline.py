"""A limit on the processor time of a calculation: the last net, below the bounds on everything that is sent.

A calculation runs in the main thread of its process, in one go, and blocks every other caller meanwhile. A timer of the
kernel that counts the processor time of the process stops it, even inside a match of `re`, which looks for signals.
"""

import signal
from threading import get_ident, main_thread
from typing import Any, Final, Self

from roundwright.web.problems import ProblemError

LONGEST_S: Final = 1.0
"""Seconds of a core that one calculation may take: twenty times what the dearest valid request takes."""


class Deadline:
    """A context that ends in `ProblemError` where the work inside takes more processor time than it may.

    Does nothing outside the main thread, where no signal arrives, and on systems without such a timer (Windows).
    """

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds
        self.is_active = False
        self.is_installed = False

    def __enter__(self) -> Self:
        """Start the timer."""
        if not self.is_installed:
            self.install()
        if get_ident() == self.thread:
            self.is_active = True
            signal.setitimer(signal.ITIMER_VIRTUAL, self.seconds)
        return self

    def __exit__(self, *_: object) -> None:
        """Stop the timer."""
        if self.is_active:
            try:
                signal.setitimer(signal.ITIMER_VIRTUAL, 0)
            finally:
                self.is_active = False

    def install(self) -> None:
        """Handle the timer's signal from now on, where that is possible."""
        self.thread: int | None = None
        if hasattr(signal, "setitimer") and get_ident() == main_thread().ident:
            signal.signal(signal.SIGVTALRM, self.on_signal)
            self.thread = get_ident()
            self.is_installed = True

    def on_signal(self, *_: Any) -> None:
        """Raise in whatever is running; a signal that comes after the work has ended is ignored."""
        if self.is_active:
            raise ProblemError(
                "too-long",
                f"This request takes more than {self.seconds:g} s to calculate. Do not send it again as it is: "
                "ask for less at once.",
            )


within: Final = Deadline(LONGEST_S)
"""The deadline of every calculation."""
