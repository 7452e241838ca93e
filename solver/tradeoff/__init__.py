"""The trade-off front: every option that no other beats on price, rhythm and even headroom at once.

`trade_off.trade_off` is the entry point. Price is decided by sizes and stock, rhythm and headroom
by the layout at those sizes. So the Pareto front is the union of the fronts of its price levels:
one combination of shelf counts at one price (`price_levels`).

*Within a price level* (:mod:`solver.layout.pareto_front`) the best rhythm comes first, then the
most even headroom with it, then the most even headroom of all, then what lies between. A box of
rhythms and evennesses that may still hold layouts is split by bounding one and bettering the
other. Each answer is proven or keeps its bound. A box is fathomed when it is empty, too small to
be seen, or when a point known at no higher price is as good as its best corner.

*Larger sizes* (`trade_off.roomier`). More width or depth never harms a layout, so at each price
the roomiest size has the best front. Where several sizes or a height are open, the report says
that sizes between were not compared, unless the roomiest of all has nothing better.

*Comparison.* Rhythm is compared for each opening, to the tick. Headroom is compared as the plan
does: fewest empty openings first, then the spread. Price levels are searched side by side and meet
only between the rounds, so that the front repeats byte for byte.

*Report* (`front_report`). The points that are not beaten, which three are always shown and why,
what was left unsearched, and why the other combinations have no point.
`tests/property/test_front_brute.py` tries everything on tiny jobs.
"""
