"""A count that came out wrong: the progress it belongs to, its causes, and the repair.

May import `work` and what is below it.
"""
