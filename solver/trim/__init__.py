"""Trim, light and glass of cases as planned: every piece, where it goes, and the arithmetic.

`moulding_pieces` is the one list of what is cut from mouldings, lips and trim, for cutting, weight,
batches and tables. How many pieces there are depends only on what is asked for and on shelf counts,
and every length grows with the case. A bound on the price of smaller sizes therefore holds with
trim too. A leg that travels is cut from the stick as long as one that stays, since the swing
decides what travels after the sticks are planned.

Where casing stands is in :mod:`solver.carcass.trim_face`. In the swing, new casing takes the place
of the doorway's old strips, a pilaster as wide and thick as its plinth. What cannot be made is
refused with the job, at the largest sizes where they are open; while a doorway still gives a case
its size, that check waits for the true size.

`trim_sets.trim_sets(job, option)` lists every piece of each case (`trim_pieces`), whether it
travels, its place, the figures (`trim_figures`), flutes (`flutes`), light and glass
(`light_glass`), and notes.
"""
