"""Work given as stitches, rounds, a crown or a hat: its split over needles, the yarn it needs, the yarn left.

May import `hat` and what is below it.
"""
