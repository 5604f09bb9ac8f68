"""Words to rounds: the vocabulary, the parser and its grammar, and the lines of a text that are worked.

May import `writing` and what is below it.
"""
