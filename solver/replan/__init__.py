"""Planning again from the last plan: minimal change, measured thickness, and what-if questions.

`plan_again.plan_again` takes shelf counts and sizes from an option of the last plan, which must
pass the checker. Where the parts and the stock are the same it takes the sheets and cuts as well
(`rearranged_option`); so no sheet is cut anew for a shelf that moves.

*Minimal change* (:mod:`solver.layout.minimal_change`) puts two stages after the fit into the
lexicographic order: how far the marks move (summed over the shelves), then how many things change
their opening. First it is seen whether no shelf need move but those that are held elsewhere, on a
model with these marks; only else are the marks searched. Rows whose things are those of before
stand as they did, number by number (:mod:`solver.planning.composed_rows`), so that only shelves
that got or lost something are composed again. Where the limit comes first, the layout before is the
answer as it is, if it breaks no rule. Their proofs are of all layouts with these counts and
sizes; those of the rhythm and the later wishes hold with no more moved than that. A hold that
cannot be kept is explained by :mod:`solver.planning.held_conflicts`.

*Measured sheets* (`plan_again.remeasured_plan`). Planning again with the thickness as measured.
Within the band that was planned for, everything fits with the marks where they are, and parts are
cut to their true sizes. Outside it the refusal says what would collide.

*What if* (`what_if`). For more or fewer things the least change is sought in five steps: nothing
moves, things move, shelves move, a further shelf, a further case. The first that works is the
answer, and it is settled where the steps before it are proven not to do.

`comparison` puts two options side by side: marks, things, parts, price and look.
"""
