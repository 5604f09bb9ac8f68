"""Changes of the stitch count: over one round or several, or along a length.

May import `sizing` and what is below it.
"""
