"""Stitches on needles: the best split, tracking through the rounds, boundaries, the start, and capacity.

May import `shaping` and what is below it.
"""
