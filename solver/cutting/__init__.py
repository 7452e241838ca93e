"""Sheet cutting: which part comes from which sheet, and where, with proven lower bounds.

`solve_sheets.solve_cutting` is the entry point; `matched_sets.solve_matched` adds the wish for
matched sets. The patterns are guillotine patterns: every cut runs from edge to edge. The price
comes first, then the number of sheets; of answers equal in both the one with the fewest rips is
kept, then the fewest settings, then the largest offcut. OPTIMAL is said only where the bound on the
price meets the answer.

*Model.* `padded_sizes` turns cutting with a kerf into cutting without one. `cut_tree` holds a
sheet as a tree of cuts; limits on stages are limits on its depth.

*First answers.* `constructive_cutting` inserts the parts one by one, in several orders, with
several first cuts and orders of stock. A short proof then settles most lists of a shop. Where it
does not, search and proof take turns, each time with more work (`solve_sheets`).

*Search* (`goal_search`). `goals` lists the choices of boards that cost less than the best answer
and satisfy every covering row. Ruin and recreate after Gardeyn and Wauters, with simulated
annealing, then tries to fit all parts on one such choice (`ruin_and_recreate`, `compiled_search`).
Two seeds run side by side, and each tries a fixed number of places, so that the answer is the same
on any machine. Long lists are improved in groups of sheets. At the end stricter rules of cutting
are tried for an answer of the same price that is easier to cut.

*Proof* (`prove`). Covering rows of dual feasible functions (`dual_feasible_bounds`) and of
conservative scales (`conservative_scales`, `better_scales`), which are improved in turn along and
across the sheet by a linear program with knapsack rows. They rest on non-overlap alone, and so hold
for every pattern. `refute` shows that one choice of boards does not suffice: column generation over
patterns that hold no more parts than there are. `sheet_master` is its master problem; the pricing
problem is solved by branch and bound over strips for two stages (`strip_knapsack`), and by block
generation for three or any number (`block_generation`, bounded by `guillotine_patterns`). A
refutation is certified in whole numbers (Farley's bound), never by a program's tolerances. Where
the linear program comes out whole it is an answer, and is offered to the search.

*Drawing.* `draw_cuts` makes the tree simple and draws the largest slices first, so that equal
settings come in the same order on every sheet. `slack` is the room left beside the pieces,
`oversize` refuses what cannot be cut.

Loops are compiled by numba: `compiled` is the only module that knows it.
"""
