"""Patterns in other languages, rewritten piece by piece into the English words that the reader knows.

In the order of the work: `recognise` (which language it is), `lexicon` (the wordings of a language, from its table),
`figures` and `cut` (a text in its words, numbers and signs), `rewrite` (the text in English words, with a map of the
places), `original` (places and edits of that text in the text as it was written). Nothing here knows a stitch or a
round: what a wording means is an English one, and what is not rewritten is prose.
"""
