"""A pattern's text turned back into rounds: its words, its lines, the readings of each, and the reading that comes out.

In the order of the work: `vocabulary`, `scanner` (words); `labels`, `parsing` (phrases); `layout` with `paragraphs`,
`line_breaks`, `cutting`, `finer_cuts`, `coarser_cuts` (where one thing ends and the next begins, every way possible);
`candidates` with `seen`, `settle`, `round_ways`, `loops`, `called`, `headings`, `told_between`,
`chart_told`, `counted_down`, `rounds_in_turn`, `joining` (readings of one);
`working`, `line_work`, `repeats`, `numbering`, `between`, `application`, `ending`, `explain` (the search for what comes
out, and for the cut of the words with which it does).
May import `writing` and what is below it.
"""
