"""The doorway as surveyed, and a case that swings in it.

`survey.judge` says what is out of a doorway as measured (square, taper, bow, level, plumb, stop,
floor), by how much and what to do about it; `survey` also names what is not measured or asked yet.
`old_door` has what the old door did and what that forbids.

**The swing** is plane geometry in plan view. The pin is the origin; the case is a set of convex
outlines that turn about it, and the jambs, walls, trim and obstacles stand still (`swing_scene`).
`sweep` finds exactly where a turning outline first binds and how near it comes: outlines can only
meet where a corner of one lies on an edge of the other, which is a quadratic equation for each pair
of corner and edge, and between two such angles a separating-axis test of one angle is enough.

All limits (latch gap, widest and deepest case, hinge gap) are monotone: more gap, less width and
less depth never harm. `swing_clearance` finds each by bisection, to the last whole tick at which
the exact test holds, so rounding is on the safe side. The formulas that `swing_formulas` prints
beside the figures are those of a plain case; tests hold the limits against them, to the tick.

`swing_of_job` takes the numbers from a job, and looks at a pair of cases in one doorway.
`swing_trim` decides for each strip of trim whether it travels with the case or stays on the wall.
`ways_out` tries what would let a case swing that does not. `swing_answer` is the whole answer.
Sizes that a doorway gives a case, and the droop of its latch side in them, are worked out in
:mod:`solver.intake`.
"""
