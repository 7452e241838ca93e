"""The checker: every rule restated from the plan alone, so that a fault of the planner is found.

The command line runs :func:`solver.checking.check.check` on every plan. A finding means that
nothing is shown; the program ends with exit code 70, and the job is kept for the report.
``casewright verify`` runs it on a file. `batch.check_batch` and `front.check_front` are for
several plans.

*Independence.* The checker knows the job and the plan, and imports no planner: no module of
layout, cutting, carcass, strength or doorway (`tests/unit/test_layering.py` holds this). Where it
can it takes another road than the planner. Sag comes from Macaulay's method instead of tabled
coefficients (`sag`), swing from circles about the pin (`swing`), moments from sums about a corner
of the case (`hang_facts`), trim from lines on the wall (`trim`). A plan over a band of thickness
is drawn again at both ends (`band`). Cuts are made one by one: on the drawing (`cuts`), and by
names and settings alone (`sawing`); `saws` holds saws, limits, offcuts and settings against the
shop. Nothing is solved: that a bound is a bound, or that no option is missing, cannot be seen from
an answer.

*Rules.* A rule is a function that yields findings; its docstring is the rule in one sentence. A
:class:`~solver.checking.findings.Finding` has a code, a place, what is needed and what there is. A
:class:`~solver.checking.findings.Code` stands for one rule and does not change: callers and tests
match on it. Rules see a plan through `views` of an option, a case, a bay or an opening, which hold
only what passed the rules on names and indices (`structure`); `check` runs them all. No rule
raises on a bad plan.

*The look.* `look_scores` and `look_outline` count what each stage of the look comes to, by
definition and from the openings alone; `shelf_lines` says which clear heights count once, `places`
what one place is. `look_stages` holds the stages against them, to the tick, and which stages there
must be. `rows` has what the client set for a row.

*Mutations.* `tests/mutations*.py` have, for every code, a change of a good plan that breaks just
that rule; every code must have one, and must be what is found. ``python -m tests.benchmark
checker`` changes each figure of a plan in turn; the share that is found is the mutation score.

A new rule takes a function here, its place in a tuple of rules, a code and a mutation. Where plans
of before may then be refused, `RULES` of :mod:`solver.rules_version` is raised.
"""
