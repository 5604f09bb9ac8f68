"""The trade itself: pure functions over frozen structs, which are also the wire format.

No HTTP, no files, no clock, no global state. Modules, each importing only those above it:

    answers     what every answer carries, and the one error: a thing that cannot be knitted
    measures    quantities with their units; gauge
    rounds      step, round, the table of stitches in use; executing and chaining
    gauge       gauge converted and substituted
    sizing      heads, cast-on, which size fits
    shaping     changes spread evenly around a round or along a length
    holding     rounds on needles: where the borders go and what has to be slid
    crown       closing the top of the hat, in its styles, with its geometry
    needles     the split of a round over needles
    yarn        what is used, what to buy, what is left
    hat         the whole job for one or more sizes
    counting    the knitter whose count came out wrong
"""
