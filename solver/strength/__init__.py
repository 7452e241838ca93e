"""Strength of cases as planned: sag, fasteners, hinges, weight, tipping, cautions.

Formulas are pure functions, one formula each, in any units that belong together, with source,
assumptions and limits of validity in the docstring: `beams` (sag), `fasteners` (screws), `hinges`
(pull, number, size, rating), `stability` (tipping, wall fixing, racking). Formulas that were fitted
in inches and pounds say so. `constants` converts and rounds to the safe side.

**Sag of a shelf.** A shelf is a simply supported beam (`shelf_beams`). Its stiffness is that of
the measured section, with the lip bonded on (transformed sections). Sag after years is twice that
of the first day (creep). `shelves_of_plan` judges every board that spans, with the things where
they stand, and proposes mends. `single_shelf` answers the question about one shelf.

**Sag as a load.** Before solving, the sag limit of each board that spans is turned into grams
(`shelf_beams.sag_load`): the even load at which the measured section, own weight taken off, sags
to the limit. The layout holds each shelf to the lesser of this load and the standard load. The
limit held by default is L/144, a published maximum, and not the stricter display rule: where nobody
has said what core a sheet has, half the stiffness of veneer core is taken, and with that stiffness
the display rule would leave out things that the trade shelves. The display limits are judged and
mended for every shelf in the output, and are held where the job says so.

The layout leaves open where things stand in an opening, so the load that it holds is the one spread
evenly between the end margins. A row whose loads fall towards the middle sags a shelf no more than
that. Things are therefore drawn centred, and with the heaviest at the ends only where centred they
sag the shelf too far. A thing that by itself sags a shelf too far wherever it stands is kept off
it: one thing counts from 0 to 1.14 of its load spread evenly when it stands at the end, and 8/5
in the middle. What is left, a few wide things beside each other, is judged where it stands, and a
shelf still over the limit held is named in the notes of the option.

**What holds a case up.** `Option.hanging` carries a sheet of every case (`hang_sheet`): weights,
centre of gravity, figures with formula, numbers and source, hinges from the top down, fasteners in
each end of each kind of board, the back, wall fixings, what to get and what would do instead; and
the cautions of the job. `hang_sheet.hanging_of` works it out for plans that carry none. The figures
of a hung case are in `hung_case`, of all others in `fixed_case`; masses are in `weights`.
"""
