"""The trade itself: pure functions over frozen structs, which are also the wire format.

No HTTP, no files, no clock, no global state. Modules, each importing only those above it:

    answers     what every answer carries, and the one error: a thing that cannot be knitted
    measures    quantities with their units; gauge
    pictures    addresses of pictures: parameters written and read
    rounds      step, round, the table of stitches in use; executing and chaining
    gauge       gauge converted
    next_needle which needle to swatch on next
    substitute  a pattern's gauge against the knitter's own
    heads       how large is a head: by age, gestation, adult means, chart or measure
    growth      how a head goes on growing
    sizing      the hat for a head: ease, cast-on, tail, depth
    fitting     which of the sizes offered fits, and until when
    spacing     the most even order of two kinds of sections, as nested repeats
    shaping     changes spread evenly around a round or across a row
    change      a change of the stitch count as asked for: what it comes to, whether it can be made
    spacing_picture  the query of its picture, and the address
    even        that change over one round or row, or over several
    along       changes spread over the rows of a length
    borders     the way of a border between two needles through the rounds
    holding     rounds on needles: how they are shared out and what has to be slid
    closing     what becomes of the last stitches
    flat        rounds turned into rows
    geometry    the crown as a surface: how it lies, how deep and how round it is
    styles      the styles of crown: one function and one row of a table each
    crown_plan  a crown as asked for, and what its style works from
    crown_picture  the query of a crown's chart, and the address
    crown       closing the top of the hat, round by round
    suggestion  which crown gives the shape asked for
    room        whether stitches fit on a needle, and reach around a circular
    start       from the cast-on to the working needles
    split_request  stitches to be split over needles, as a request
    needles_picture  the query of a picture of needles, and the address
    needles     the split of a round over needles
    fineness    how thick a yarn is, in every system
    balls       the yarn on the shelf, and whole balls of it
    loop        yarn in a stitch, and in stretches of them
    fabric      the yarn in this fabric, by gauge or by a weighed swatch
    order       what to buy, for one or for a class
    yarn        what is used
    hat_request  a hat as a request
    hat_picture  the query of a hat's picture from the side, and the address
    hat         the whole job for one or more sizes
    buying      yarn for any work asked about
    remaining   what is left, and whether it will do
    place       the rounds in order, with what the needles hold after each
    sharing     the knitter's stitches on needles: their own way, as the work asks for, or as the count suggests
    slips       what may have gone wrong when a count is not right, the likeliest first
    mending     a count put right in the next round
    miscount    every sentence of the answer
    putting_right  what to do about a cause
    rescue      a cause explained, with its repair
    work_in_hand  the work that a count belongs to
    counting    the knitter whose count came out wrong, or who has lost the place
"""
