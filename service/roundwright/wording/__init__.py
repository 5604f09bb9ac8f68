"""Rounds in words: patterns written, read and proofread, and handouts.

May import `knitting` and `reference`; the order of its folders, each of which may import those below it, stands in
`pyproject.toml`.
"""
