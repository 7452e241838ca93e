"""What a case is made of, and how its inside and outside sizes follow from each other.

*Sizes.* `outline` is the one place where an inside size becomes an outside one. `settled_job` makes
the job of sizes chosen (:func:`~solver.carcass.settled_job.settle`) or of a finished option:
everything else is worked out from a job in which each size is one length.

*Boards.* `boards_of_case` lists the parts for shelf counts and an inside depth. They depend on
shelf counts, bays and sizes only, never on where the shelves go: layout and cutting meet in these
few numbers. It also has the load limit of a shelf. `front_boards` are the boards as one sees them,
`pin_holes` the holes of shelves on pins.

*Thickness not measured yet* (`thickness_band`). A plan over a band of thickness is drawn for the
thickest boards. With the marks kept, every clear height, width and depth is linear in each
thickness, and none grows with it, so what fits at the thickest fits at all; only the most clear
height bites at the thin end. Parts are linear too, hence largest at a corner of the bands, and
sheets for all parts as large as they may become do for any thickness.

*Housings opposite each other* (`housings`). Shelves on shared lines are housed in an upright from
both sides and leave a third of it. A depth left out is lessened as the job is read, a written one
is refused; so `Case.dado` is the one place for it. Which shelves meet is only known with the
layout, so any fixed shelves in dadoes count as soon as the case may have an upright.

*Casing* (`trim_face`). New casing takes the place of the doorway's old strips in the swing, a
pilaster as wide and thick as its plinth.
"""
