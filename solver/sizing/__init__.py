"""The joint decision: open sizes of the cases, chosen together with the stock that they take.

`choose_sizes.choose_sizes` is the entry point. For one combination of shelf counts it decides the
open widths, heights and depths in lexicographic stages: least loss to the client of what is left
out, least price of
sheets and mouldings, least distance from the wished sizes (the sum over all open sizes). Each
comes with a proven bound, and a limit that leaves something unsettled shows in that bound.

*Decomposition.* Parts depend on bays, shelf counts and sizes only, never on where the shelves go.
So layout and cutting meet in a few numbers, and the joint decision decomposes without loss.
`combinations` lists the bays and shelf counts; bays of one case are exchangeable, so each multiset
of counts comes once. Within a combination the open sizes span a grid (`size_grid`): whole cutting
steps, the ends of each range and the wish, less the sizes at which a part comes out of no sheet
(`pricing.cuttable`).

*Two monotone questions.* `fitting`: does as much fit at these sizes as at any, that is, with a loss
vector that is no worse in any part? A layout stays allowed, with the same things in the same
openings, when a size grows, so a yes holds for all larger sizes and a proven no for all smaller
ones. The same is so of what fits with no more than so many places parted, which the trade-off front
asks (:mod:`solver.tradeoff`).
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

*Look first.* With `prefer = "look"` only sizes count at which it looks as good as at any, whatever
they cost (`best_look`). What is compared are the stages from what the client asked for up to the
rhythm: none of these depends on width or depth but by what fits, so wider and deeper cases keep
every layout and its look. `steady` and `even` do depend on the height, and void, fill and
composition on the width too, so the last three are not compared. Of sizes at equal distance the
first found is taken.

*Purchase.* `purchase.Buyer` turns counts and sizes into one cutting problem a material and
remembers each answer. `on_hand_use` gives pieces that are there to the parts they serve for, cut
down or taken as stock, whichever buys less; `on_hand_outcome` states what came of it, and which
sizes and marks it settles.

*Order.* `option_sizes.Sizing` chooses the sizes of all combinations before any shelf is placed, so
that prices are proven early and the promising combinations are laid out first.
`option_sizes.stepwise_job` is the yardstick of the benchmark: sizes first, shelves next, sheets
last.
"""
