"""Rounds and plans as pictures: knitting values in, the text of an SVG out.

May import `knitting` and `reference`. One unit of a picture is a pixel at a width of 480.
"""
