"""What is answered: plans and the other answers, frozen and complete, and tables of them.

:class:`solver.plan.plan.Plan` holds the job as understood and its options. Every screen, drawing,
paper and file is a pure function of it: a number that a drawing needs belongs in the plan. Lengths
are ticks inside and millimetres in JSON. `x` runs from the left, heights from the bottom end of
the case's sides, `z` from the front of the shelf back. Keys of the models are those of the
published formats; ``casewright schema`` prints these from the models.

Answers carry the number of the rules that they were made by (:mod:`solver.rules_version`). A field
that plans of before do not have is left off where it is empty, so that they are still read.

| module | what is in it |
|---|---|
| `plan` | plan, option, stage, cost, scores; the answer of ``casewright cut`` |
| `built` | cases as built: bays, shelves, openings, things in their places, sag of each shelf |
| `stocked`, `saw_cuts`, `slack_and_advice` | parts, sheets, sticks; cuts and settings; slack and
advice |
| `hanging`, `swinging`, `trimming` | what holds a case up; swing, sizes from the place; trim |
| `bands`, `compared`, `on_hand` | thickness not measured yet; what has changed; pieces on hand |
| `bought`, `estimated`, `signed` | what to buy; the price; signed revisions and change orders |
| `work` | works, steps and their calendar |
| `joint_purchase`, `price_front`, `what_if_answer` | answers of batch, tradeoff and whatif |
| `plan_frames`, `saw_frames` | pandas tables of a plan and of its cuts |

Documents take what holds a case up from `Option.hanging`. The
:class:`~solver.plan.hanging.HangSheet` of a case has weights, centre of gravity, hinges from the
top down with old mortises used first, fasteners of each kind of joint from the front edge, and
`figures` (pull, screws, rating, droop, tipping), each with formula, numbers and source;
`Hanging.cautions` are those of the job. What mends a shelf that sags is in
`Option.strength.shelves[..].mends`, the swing in `CasePlan.swing`.
"""
