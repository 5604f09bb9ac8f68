"""Hat: its request, and the plan of every size from cast-on to close.

May import `yarn` and what is below it.
"""
