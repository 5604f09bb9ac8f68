"""The trade: pure functions over frozen structs, which are also the wire format.

No HTTP, no files, no clock, no global state. May import `reference` only; the order of its folders, each of which may
import those below it, stands in `pyproject.toml`.
"""
