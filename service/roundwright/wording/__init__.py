"""Rounds in words: `write` turns them into a pattern, `read` turns a pattern back into rounds.

across      several sizes on one line, the trade's way
speech      a round in plain sentences, for beginners
write       the pattern of a hat in all its sizes
read        a pattern's text to rounds, executed
proofread   what is wrong with a pattern, and the smallest repair

A text is read in these steps, each file importing only those above it (`tree` and `findings` are what they pass on):

    words       the spellings, and the scanner
    phrases     the phrases of a line, `meaning` makes them and `settling` puts them together
    grammar     `pattern.lark` as a table, and the parse of a line
    layout      where the rounds are in the text
    entries     the lines that are worked
    schedule    in which order
    working     a line on so many stitches, `outcome` in each way it may be understood
    repair      the smallest change that makes a line come out
    report      what was found, told by `telling`
    following   one size from its cast-on
"""
