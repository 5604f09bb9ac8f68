"""Rounds in words: `write` turns them into a pattern, `read` turns a pattern back into rounds.

across      several sizes on one line, the trade's way
speech      a round in plain sentences, for beginners
write       the pattern of a hat in all its sizes
read        a pattern's text to rounds, executed
proofread   what is wrong with a pattern, and the smallest repair
"""
