"""Handout: the pattern, sheets to tick off and the yarn to buy, as plain text, Markdown, HTML or PDF.

May import `proofreading` and what is below it.
"""
