"""The trade-off front: every option that no other beats on price and places parted at once.

Price is decided by sizes and stock; how often kinds, headings and groups are parted, by the layout
at those sizes. More width, depth or height never parts more, since every layout stays allowed (the
exceptions are those of :mod:`solver.sizing`). So the front is exact, by bounding one and optimising
the other: for each combination of shelf counts the fewest places parted at the most sizes come
first, then for one place more at a time the least price of sizes at which all fits with no more
parted, until that is the price of no bound at all (`price_levels`).

The levels of all combinations are merged, and those that another beats are dropped. Those that are
left are laid out with the places parted held (`LayoutProblem.parted_most`), and so have the best
look with so few. Of twins, the better-looking is shown (`front_report`). What a limit left
unproven is told with its bounds, point by point, or as an open part of the front.
`tests/property/test_front_brute.py` tries everything on tiny jobs.
"""
