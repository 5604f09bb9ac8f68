"""What `tests.load.ratios` gave on commit 3e671ff, before anything was made faster.

Hats and PDFs were measured again in turn with what followed, on a machine as busy.
"""

BEFORE = {
    "proofread, 20 lines, one size": 32.7,
    "proofread, 20 lines, four sizes": 27.2,
    "proofread, a line of 400": 0.749,
    "crown chart": 3.03,
    "profile": 13.6,
    "needles": 3.32,
    "spacing": 2.15,
    "crown suggestion": 25.4,
    "hats, four sizes": 26.6,
    "awkward spacing, a step of 10⁶ stitches": 0.422,
    "handout as PDF, class of four": 3.35,
    "dearest handout known as PDF": 345.0,
    "hats, four sizes, by socket: answers a second": 0.0228,
    "gauge/convert: answers a second of a core": 0.731,
    "shaping/even, 100 stitches: answers a second of a core": 0.663,
    "crown, 56 quick: answers a second of a core": 0.82,
    "crown, 120 dome: answers a second of a core": 0.857,
    "needles/split, 56 on three: answers a second of a core": 0.827,
    "yarn/estimate: answers a second of a core": 0.764,
    "needles/split: answers a second of a core": 1.17,
    "a batch of 100, through the proxy: a second of a core": 3.85,
    "first answer of an operation, the dearest, warm on": 13.0,
    "start until ready, processor time": 1.97,
    "idle memory": 1.43,
}
