"""Writing: rounds and hats as a written pattern.

May import `knitting` and `reference`, no other folder of `wording`.
"""
