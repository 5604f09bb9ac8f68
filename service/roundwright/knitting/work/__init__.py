"""Questions about work given as stitches, rounds, a crown or a hat: needles, yarn needed, yarn left.

May import `hat` and what is below it.
"""
