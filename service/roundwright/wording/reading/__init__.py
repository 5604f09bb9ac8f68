"""A pattern's text turned back into rounds: its words, its lines, the readings of each, and the reading that comes out.

In the order of the work: `vocabulary`, `scanner` (words); `labels`, `parsing` (phrases); `layout`, `cutting` (lines);
`candidates` with `seen`, `settle`, `round_ways`, `loops` (readings of a line); `working`, `line_work`, `repeats`,
`numbering`, `explain` (the search for what comes out). May import `writing` and what is below it.
"""
