"""What a plan costs: hardware and consumables, the buy list, labour, the price, change orders.

Everything here is a pure function of job, option and prices.

`hardware.hardware_list(job, option)` gives lines of need, spares and whole packs.
`hardware_catalogue` has the kinds with their packs, spares and sources, and adds up what is needed;
`hardware` counts what hangs or fixes a case and its trim, `joint_hardware` screws, pins, fasteners
of the back and glue, `finish_materials` paint, abrasives and filler, by area.

`works.works(job, option)` counts every task of the labour table from the plan, for the price and
for the steps of the work alike; :mod:`solver.job.labour_table` is the one place for times.
`labour_tasks` also has the lots in which boards are glued up, so that none outlasts the open time
of the glue, and what estimates often leave out. `labour_count` has the counts of one case.

`buy_list.buy_list` is what is bought, in whole packs, less what is on hand. `estimate.estimate` is
the price, from the buy list and the works; money is rounded by `to_cents` alone. `actuals` sets
it beside hours and amounts entered after the work. `revision_changes.change_order` holds a
plan against the signed revision: what the job asks otherwise, what is built otherwise, which cut
stock still serves, and the price of it.
"""
