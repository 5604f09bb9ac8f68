"""Drawing: rounds and plans as pictures, each the text of an SVG.

May import `knitting` and `reference`. Lengths in a picture are pixels of a picture 480 wide.
"""
