"""The crown: styles, rounds, finish, geometry, and which crown gives a shape.

May import `needles` and what is below it.
"""
