"""Yarn: its count, its label, yarn per stitch, the estimate and the purchase.

May import `crown` and what is below it.
"""
