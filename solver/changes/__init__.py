"""Changes of a job: the smallest that let everything fit, near misses, and changes that save stock.

Whatever is told has been solved again with the change made, and what cannot help is skipped by its
bound. Questions are counted, so that the same job gets the same answers; a share of the time limit
is the backstop.

*What would let everything fit* (`smallest_changes`), for a plan that leaves something out. A
`Situation` is a job with all sizes decided, and its shelf counts; `situation.altered` makes any
change of it. A `Lever` is a length that may change, and how far; a measured doorway bounds it. More
of a lever never lets less fit, so that `trials.Fitter.least` finds its least amount by halving. It
is proven where one step less is proven not to do. There are two exceptions. A case made higher
under a most clear height is never called proven. A wider shelf may bear less before it sags: where
that is felt, the halving asks about each width with the stiffness of no change, which no width up
to it exceeds, and the widths from there on are tried one by one. Shelf counts and ways of standing
come next. Two lengths are changed only where nothing does by itself: one as little as possible with
the other at its most, then the other, in both orders.

*Near misses* (`near_misses`) start from the recommended option. A smaller size never makes any part
larger, so a size is passed over where its largest reduction, in all cases together, is bounded not
to save (`near_savings`). Otherwise the first size at which the price falls is found by halving,
and only that one is tried for fit, since a still smaller case takes no more. Shelf counts next to
the planned one, and options that leave something out, are tried with the same levers.

*Changes that save stock* (`saving_changes`): a thinner blade, less edge trim, turned grain, parts
in two pieces. `candidates` lists them, `confirm` cuts the changed parts again, with the margin or
1/32 in (0.5 mm) left in every strip, and finds the least amount by halving.
"""
