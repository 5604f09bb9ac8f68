"""Gauge: converted, substituted for a pattern's, and the needle size to swatch on next.

May import `rounds` and what is below it.
"""
