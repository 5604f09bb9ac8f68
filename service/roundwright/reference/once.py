"""What is made once in a process and kept, such as the words of a language: nobody's request is to pay for it."""

from typing import Final


class Making:
    """A context manager around what is made once; `running` is above 0 inside it, `ended` how often it has ended."""

    running = 0
    ended = 0

    def __enter__(self) -> None:
        """Begin to make something."""
        self.running += 1

    def __exit__(self, *_: object) -> None:
        """End it, whether it was made or not."""
        self.running -= 1
        self.ended += 1


making: Final = Making()
"""Of this process."""
