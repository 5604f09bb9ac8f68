"""Reading a written pattern."""


def lines(pattern: str, heading: str) -> list[str]:
    """The lines of the section with this heading."""
    sections = dict(block.split("\n", 1) for block in pattern.strip().split("\n\n")[1:])
    return sections[heading].split("\n")
