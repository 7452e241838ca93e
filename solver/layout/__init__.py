"""Where each shelf goes and what stands on it, by CP-SAT, in lexicographic stages.

`layout_engine.solve_layout` is the entry point, `problem_from_job.build` makes its problem: frozen
whole numbers (`layout_problem`). The stages are fit (fewest things left out), rhythm, fewest empty
openings and evenness of headroom, wished places, mass x height, spread of fill. Each is held
before the next, less what may be given back. Empty openings come before headroom, because evenness
over filled openings alone would reward emptying one. Bounds of the stages after the marks are held
hold for those marks only, and the plan says so. `variables` has the decision variables,
`constraints` one function a rule, `objective` one function a wish, `stage_search` runs CP-SAT.

*Master problem: marks without things* (`master_problem`). A rhythm is a question of marks alone,
and what fits on marks depends only on how high a thing each opening admits. So the model of marks
is solved with counting cuts in place of the things (`counting_cuts`): the openings that reach a
height have together the width, the load and the number that all things so high need, widths being
no more than some things' widths can add up to. Its best rhythm is a bound.

*Placement subproblem* (`placement_subproblem`). If things can stand on those marks, that rhythm is
the best there is. If not, no marks whose openings admit no more can do, in whatever order; that is
a no-good cut for the next round. Mostly the first round does. Of a small collection all patterns
that may stand in one opening are listed (`opening_patterns`, after Gilmore and Gomory); they make
proofs that something does not fit about a hundred times quicker. Which shared shelf lines a bay
with fewer shelves uses is enumerated, since with that choice inside a model its bound is next to
nothing.

*Whether as much fits* (`fit`). The same with any marks in place of the best ones: a few rounds of
the master problem, a look at the model that takes bays together, one at the whole without a linear
relaxation, which places things soonest. Only then is any of them asked at length.

*The model of everything* comes where that does not settle it, and for the rhythm `to-fit`, where
things make the rhythm. Height levels are nested: an opening tall enough for one thing is tall
enough for every lower one. Two relaxations bound it: bays alike taken together, and for a rhythm
in which the order of openings does not matter, openings tallest first with groups disregarded.

*Graduated spacings* (`graduated_spacings`). The best ones of the marks alone are enumerated, since
that is a question of divisibility. Their score is the bound, and they are tried first.

*Even headroom.* Marks and the tallest thing of each opening are chosen first (`even_headroom`),
then whether all things can stand like that. `pareto_front` and `pareto_points` find all layouts
that are not beaten on rhythm and evenness together; both parts of `evenness` are one number of the
model.

*Large layouts.* From 2,000 forms times openings on a layout is first built by rule: rows tallest
first (`rows_by_rule`, `constructive`), with bounds by arithmetic (`arithmetic_bounds`). A model
that cannot be built and searched in the time left is not begun, since neither building nor
presolve heeds a limit. `late_acceptance` is the local search over placements for the later wishes;
no bound comes of it. `incumbent` keeps the better of model and rule, and any layout at all where
the user stops early.

*Held decisions* (`hold_rules`, `minimal_change`, `conflicts`): the holds as rules, the least
movement from the layout before, and what a hold collides with.

*Sag* is held as a load (:mod:`solver.strength`): a shelf bears the lesser of its standard load and
the even load at which it sags to its limit, and a thing that by itself sags a shelf too far
wherever it stands is kept off it (`constraints.too_heavy`).

*Composition* (`composition`). Each row for itself: the client's words on it first (`row_rules`),
then mirror image, fall from the middle, blocks and balance (`composition_score`), the best order
by rule and exchanges (`row_search`), gaps that fill the width (`row_gaps`). Where it sags its shelf
too far, the heaviest go to the ends (`row_apart`).
"""
