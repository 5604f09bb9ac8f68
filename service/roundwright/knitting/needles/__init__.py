"""Stitches on needles: the best split, boundaries between needles, the start, and whether stitches fit.

May import `shaping` and what is below it.
"""
