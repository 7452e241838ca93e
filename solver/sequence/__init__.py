"""The order of all cuts of a job: which saw makes each cut, and what it is set to.

It is decided after the sheets are. `sequencing.sequence` is the entry point for sheets,
`sequencing.sequence_sticks` for mouldings.

*Steps* (`cut_steps`). The cuts of a sheet become steps that free panels, each with the step that
must come before it.

*Saws* (`saw_choice`). Every cut is given the first saw, in the order of preference, that can make
it within the limits of the shop. Equal crosscuts of a panel are made one way. Where no saw can trim
the end of a whole sheet, it is trimmed strip by strip.

*Order* (`cut_order`). Where the saw is brought to the sheet (the yard's panel saw, then the guided
saw), one sheet is cut after the other. At the bench saws all cuts that are ready at one setting are
made together. A few priority rules choose the next setting, and the order with the fewest settings
is kept; on small lists that is nearly always the fewest of any order
(`tests/rules/test_sequence_order.py`).

*Mouldings.* One stop setting after the other, over all sticks, the longest pieces first.
"""
