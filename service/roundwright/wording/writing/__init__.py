"""Writing: the pattern of a hat in all its sizes, in abbreviations or in plain language.

May import `knitting` and `reference`, no other folder of `wording`.
"""
