"""Roundwright: the arithmetic of small hats knitted in the round, as a stateless HTTP service.

`DEVELOPERS.md` has the map. The one value that flows through all of it is the round
(`roundwright.knitting.rounds.round`).
"""

__version__ = "1.1.0"
