"""Roundwright: the arithmetic of small hats knitted in the round, as a stateless HTTP service.

What lives where, from the top storey down; no file imports a higher storey:

    __main__    the command: serve, try, openapi
    app         builds the application: routes, plugins, limits
    settings    every setting, read from the environment once
    problems    every error a caller can get
    routes      HTTP only: decode, call one function, encode
    wording     rounds to written pattern and written pattern to rounds
    drawing     rounds and plans to pictures
    knitting    the trade: pure functions over frozen structs
    reference   cited tables, and the one module that loads them

The one value that flows through all of it is the round (`roundwright.knitting.rounds`).
"""

__version__ = "1.0.0"
