"""The work of a plan: its steps in order with this job's numbers, and their calendar.

`build_steps.build_steps(job, option)` makes the steps: those of the whole job up to the last cut
(`first_steps`), of each case in the shop (`making_steps`, `finishing_steps`), and on site
(`site_steps`, `hanging_steps`). A `step_draft.Draft` names the tasks of the labour table that it
takes; every work of the plan goes into exactly one step, and so does all hardware. `step_facts` has
what the steps quote of a case, and the waits of glue and finish.

`calendar.order_of_work(job, option)` puts the steps in time, for one person and for two. It is
resource-constrained project scheduling: steps with precedence and waits, people as the resource,
the end of the last step (the makespan) to be least. `critical_path` has the longest chain and the
slack of each step, by the forward and backward passes of the critical path method; waits run in
clock time, nights included. `schedule` finds the shortest calendar: list scheduling with the most
urgent step first, then random lists, and CP-SAT where these do not meet the lower bound. The bound
refutes ends: an end cannot be where the steps that must be done between two times are more work
than the people have minutes. `work_frames` gives all this, with shelves, hinges, trim, buying and
price, as pandas frames.
"""
