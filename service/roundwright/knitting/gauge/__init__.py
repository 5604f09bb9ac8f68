"""Gauge: converted, a pattern's against the knitter's own, and the needle to swatch on next.

May import `rounds` and what is below it.
"""
