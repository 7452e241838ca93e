"""The joint decision: open sizes of the cases, chosen together with the stock that they take.

`choose_sizes.choose_sizes` is the entry point. For one combination of shelf counts it decides the
open widths, heights and depths in lexicographic stages: fewest things left out, least price of
sheets and mouldings, least distance from the wished sizes (the sum over all open sizes). Each
comes with a proven bound, and a limit that leaves something unsettled shows in that bound.

*Decomposition.* Parts depend on bays, shelf counts and sizes only, never on where the shelves go.
So layout and cutting meet in a few numbers, and the joint decision decomposes without loss.
`combinations` lists the bays and shelf counts; bays of one case are exchangeable, so each multiset
of counts comes once. Within a combination the open sizes span a grid (`size_grid`): whole cutting
steps, the ends of each range and the wish, less the sizes at which a part comes out of no sheet
(`pricing.cuttable`).

*Two monotone questions.* `fitting`: do as many things fit at these sizes as at any? Larger sizes
never let fewer fit, so a yes holds for all larger sizes and a proven no for all smaller ones.
`pricing`: what does the stock cost? A pattern for larger parts also cuts smaller ones, so the
bound at some sizes holds for all larger ones that make the same parts. Hence the sizes at which as
much fits are an up-set, and those that cost no more than a given price a down-set. The least price
is reached on the staircase of least sizes of the up-set, and the sizes of that price nearest to
the wish lie between that staircase and the one of the largest sizes of the down-set.

*Branch and bound over sizes* (`branch_and_bound`). The nodes are boxes of the grid, best bound
first. A box shrinks by halving on each axis: from below by what does not fit, from above by what
is too dear. It is fathomed where its least corner fits, where its bound is no better than the
price found, or where its nearest point both fits and is cheap. What is left is split, at a cliff
where one is near the middle: a size at which one strip or piece fewer comes out of a sheet. The
margin of the shop is part of every strip and piece that is priced, mouldings too, so that no cliff
thinner than the margin is used.

*Exceptions to monotony.* A back too large for a sheet is cut in pieces, so prices are compared
only between sizes that make the same parts (`Pricing.alike`). With a most clear height a higher
case may have no shelf positions at all; heights are then enumerated, and also where the look comes
first. A wider shelf may bear less before it sags, so a box is asked about with its most sizes and
the stiffness of its least widths (`Fitting.may`), which no sizes in it exceed. Widths that differ
by fewer ticks than the last bay takes over are not told apart.

*Look first.* With `prefer = "look"` only sizes count at which the rhythm is as good as at any, and
the headroom as even with such a rhythm (`choose_sizes.Looking`). Wider and deeper cases keep every
layout. Where the limit leaves open whether headroom could be more even at some sizes, the price
stage says so. Of sizes at equal distance the first found is taken.

*Purchase.* `purchase.Buyer` turns counts and sizes into one cutting problem a material and
remembers each answer. `on_hand_use` gives pieces that are there to the parts they serve for, cut
down or taken as stock, whichever buys less; `on_hand_outcome` states what came of it, and which
sizes and marks it settles.

*Order.* `option_sizes.Sizing` chooses the sizes of all combinations before any shelf is placed, so
that prices are proven early and the promising combinations are laid out first.
`option_sizes.stepwise_job` is the yardstick of the benchmark: sizes first, shelves next, sheets
last.
"""
