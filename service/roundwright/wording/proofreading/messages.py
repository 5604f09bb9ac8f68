"""The sentences of findings, in a knitter's words."""

from roundwright.wording.proofreading.findings import stitches
from roundwright.wording.reading.states import Fault


def message(fault: Fault) -> str:
    """What a fault says to the knitter."""
    before, used, left = fault.before, fault.used, fault.left
    match fault.code:
        case "left_over":
            over = before - used
            return f"This works {used} of the {stitches(before)}: {over} {'is' if over == 1 else 'are'} left over."
        case "runs_out":
            return f"This needs {stitches(used)}, but there {'is' if before == 1 else 'are'} {before}: {stitches(used - before)} short."
        case "count_differs" | "wrong_way":
            by = left - (fault.said or 0)
            return f"This leaves {stitches(left)}; the pattern says {fault.said}: {abs(by)} too {'many' if by > 0 else 'few'}."
        case "cast_on_differs":
            return f"The text casts on {fault.said} here, but {before} {'is' if before == 1 else 'are'} asked for."
        case "sizes_differ":
            return f"Here are numbers for {fault.said} sizes; the pattern has {before}."
        case "never_ends":
            return (
                f"This never comes to {stitches(fault.said or 0)}." if fault.said is not None else fault.text
            )
        case "not_understood":
            return (
                fault.text
                or "This looks like work and was not read; reading goes on with the count the pattern goes on with."
            )
        case "round_missing":
            printed, first, last, number = fault.text.split(",")
            if printed == "0":
                return f"The rounds before round {number} are not given."
            return (
                f"Between rounds {printed} and {number} some are not given."
                if first != last
                else f"Round {first} is not given."
            )
        case "round_twice":
            return f"Round {fault.text} is given twice."
        case "to_a_length":
            return (
                "How many rounds this is depends on the length; one is read, and the count goes on from it."
            )
        case "chart":
            return "This is worked from a chart; it is taken to keep the count."
        case "markers":
            return "Where the markers are is not said; equal sections are assumed."
        case _:
            return fault.text or fault.code
