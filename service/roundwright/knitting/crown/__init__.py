"""The crown: request, styles, rounds, finish, geometry, and which crown gives a shape.

May import `needles` and what is below it.
"""
