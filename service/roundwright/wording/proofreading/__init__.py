"""A pattern executed for all its sizes: what is wrong with it, and the smallest repair.

May import `reading` and what is below it.
"""
