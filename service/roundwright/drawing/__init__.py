"""Rounds and plans as pictures: knitting values in, the text of an SVG out.

`elements` makes SVG, `look` is how every picture looks, `chart` is what charts share; `crown`, `wedge`, `profile`,
`needles` and `spacing` are a picture each. One unit of a picture is a pixel at a width of 480.
"""
