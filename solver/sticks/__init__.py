"""Mouldings: which piece comes from which stick, with proven lower bounds.

`solve_sticks.solve_sticks` is the entry point. The price comes first, then the number of sticks to
buy, then fewest pick-ups and large offcuts. A stick is taken as a board one tick wide
(:func:`solver.cutting.padded_sizes.pad_sticks`).

*First answers* (`stick_state`): longest pieces first, each where it leaves least; and the fullest
stick first. They often meet the bound by length.

*Bound* (`column_generation`): column generation over patterns that hold no more pieces than are
wanted. The pricing problem is a knapsack, solved by a dynamic program with dominance (`knapsack`).
An exact Farley bound follows from the dual prices.

*Search* (`stick_search`). The choices of what to buy that are better than the best answer are
refuted or reached one after the other. Which patterns an answer of a given cost may use follows
from the Farley bound. Where these are few, an integer program over all of them finds the answer or
proves that there is none; before it is tried with many patterns, diving looks for one (`diving`).
"""
