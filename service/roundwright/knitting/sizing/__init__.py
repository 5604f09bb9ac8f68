"""Sizes: heads and their growth, ease, cast-on, depth, and which size of a pattern fits.

May import `gauge` and what is below it.
"""
