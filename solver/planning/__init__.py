"""From a job to a plan: one option for each combination of shelf counts, and one recommended.

`plan_job.plan_job` is the entry point. It chooses the sizes of all combinations
(:mod:`solver.sizing`), then solves them side by side in threads, promising ones first
(`plan_option`). CP-SAT runs with one worker, a fixed seed and a deterministic limit, so each
option repeats byte for byte. Wall-clock time is only a backstop. Where the user stops before any
layout was found, `fallback` still looks for the first that can be, for a few seconds.

*An option* (`plan_option`). Sizes and stock, the layout at them, matched shelves where they cost
nothing more (`matched_shelves`). Shelf lines are given up only where everything fits without them
and not with them. `assemble` writes the option down, for plans made again and for the trade-off
front too: stock first, then all that depends on the layout. `option_stages` states each wish of
the lexicographic order with its value, its bound and whether it is proven, and the scores of the
look. `composed_rows` composes every row, and takes over those that a change did not touch.

*Not everything fits.* Stage 1 proves the least loss: visible area of the things left out, those
that must be there first, then those that should. The option is then infeasible, its best layout is
still shown, and :mod:`solver.changes` finds the least changes that would do. `shortfall` says what
is missing for each thing, and what is left out so.

*The look* (`look_words`). What a finished option looks like is counted from its cases alone
(`look_figures`, `asked_for`) and told in a sentence a stage; screens, papers and the client page
say the same words. What could not be kept together is named, with the shelves it stands on.

*Recommendation* (`recommend`, `best_look`). The best look among the options within `price_slack` of
the cheapest that fits everything; with `prefer = "look"`, among all that fit everything. Best is
the fewest places parted, then openings that fall to one end, then the rows nearest to mirror
images, then the fullest emptiest shelf; of those that look alike the cheapest is taken. Where the
things allow no steady fall, `steady_elsewhere` names a shelf count within two that has one, if that
is proven.

*Held decisions* (`held_conflicts`). Where a hold cannot be kept: first the fewest holds that do
not go together, then a set of kinds and holds without any one of which it could be, then the
nearest mark that works on either side. `starting_option` brings an option of the last plan into
the numbers of the job as it is now; :mod:`solver.replan` starts from it.

*Band of thickness* (`band_parts`). A plan over a band is drawn for the thickest boards. With the
marks kept, every clear height, width and depth is linear in each thickness and none grows with it,
so what fits at the thickest fits at all. Only the most clear height binds at the thin end, and has
a rule of its own (`layout.constraints.not_too_high_if_thin`). Parts are linear too, hence largest
at a corner of the bands; sheets for all parts as large as they may become do for any thickness.

*A list of parts* (`cut_list`, `cut_list_plan`) is cut without any case: each material by itself,
then the order of the cuts, then advice.
"""
