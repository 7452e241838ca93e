"""Where each shelf goes and what stands on it, by CP-SAT, wish after wish.

`layout_engine.solve_layout` is the entry point, `problem_from_job.build` makes its problem: frozen
whole numbers (`layout_problem`). `minimal_change.lay_out` is the entry where there is a layout
before. `variables` has the decision variables, `constraints` one function a rule, `wishes`,
`asked_wishes` and `spacing_wishes` one function a wish, `stages` their names, `stage_search` runs
CP-SAT. `look_scores` counts the same wishes in a finished layout, and `rules_kept` the rules.

*Order of the wishes.* What is left out (area, dearest things first); what the client asked for by
name; no opening empty; every row able to be a mirror image; headings, then kinds together; none
alone; the tallest opening lowest; the rhythm; no voids; no crammed rows; low things not beside
tall ones; even air; small things in sight; heavy things low; composition. Each is minimised and
held before the next. A layout is called optimal where all up to the rhythm are proven. Bounds of
the wishes after it hold for layouts as good in the earlier ones, those of sight and weight for
these marks; composition has none.

*Ranked and placed models.* In a ranked model opening k is the k-th highest, in a placed one the
k-th from below. What stands together, in pairs or alone does not depend on which opening is where,
and ranks have no symmetry, so it is proven there (`relaxation`), bays alike taken together as one
of several times the width and load. That is a relaxation: its values bound those of every layout.
Height levels are nested, since an opening tall enough for one thing is tall enough for every lower
one.

*In its place* (`placed_layout`). All bounds of the relaxation are asked for at once, first with
bays alike still together, whose openings are then divided over the bays, then in the model of
every opening in its place. Mostly a layout meets them all, and nothing is left to prove. Else the
stages are settled one by one, with the openings falling from the lowest up; another order of
openings is tried only in stages where it may be better than the fall, and a proven no leaves the
fall. Where nothing falls, any order is allowed and `rises` is a stage as the others.

*Rhythm* (`rhythm_stage`). A steady fall is proven to within one marking step, which later wishes
may use. There is none where the steps must differ by more than two marking steps and half the mean
step; whether that is so is asked first, being mostly the quicker question, and then the evenest
openings are sought. Their bound comes from the ranks, in which the differences of all pairs
(Gini's) are linear.

*Later wishes.* Marks stay free within the rhythm up to `air`; then they are held. A single thing in
an opening more than half empty is flanked where it can be. The largest void may give back 8 % of
the mean opening to what follows, the fullest row 4 % of the width. Each has little work, is passed
over where that finds nothing, and is not begun in a very large model.

*Composition* (`composition`) comes after the model, each row for itself: the client's words on it
first (`row_rules`), then mirror image, fall from the middle, blocks and balance
(`composition_score`), the best order by rule and exchanges (`row_search`), gaps that fill the width
(`row_gaps`). Where it sags its shelf too far, the heaviest go to the ends (`row_apart`).

*Large layouts* start from a layout by rule (`by_rule`, `lines_by_rule`, `standing`), from which
models begin. A model that cannot be built in the time left is not begun, since neither building
nor presolve heeds a limit; then a few openings of like height at a time are stood anew by small
models (`refilling`), and the bounds are those of the relaxation.

*Held decisions* (`hold_rules`, `minimal_change`, `kept_marks`, `conflicts`): the holds as rules,
the least movement from the layout before, and what a hold collides with.

*Sizes apart from layout.* :mod:`solver.sizing` asks only whether no more is left out than a given
loss, and how few places need be parted with it (`fit`). With more width or depth every layout
stays allowed as it is, and with more height so does each with one of its openings made higher;
so neither ever grows with a size, and that is why sizes may be decided apart, and exactly. The
exceptions: a wider shelf may sag more, and a most clear height may forbid the higher case. Nor is
everything monotone: with more height the steadiest fall may be worse, with more width the voids,
the fill and the composition. So with the look first heights are compared one by one, from what was
asked for up to the rhythm, and wishes after it not at all. `tests/property/test_sizes_brute.py` and
`test_look_first_brute.py` try this out completely on tiny jobs.

*Sag* is held as a load (:mod:`solver.strength`): a shelf bears the lesser of its standard load and
the even load at which it sags to its limit, and a thing that by itself sags a shelf too far
wherever it stands is kept off it (`constraints.too_heavy`).
"""
