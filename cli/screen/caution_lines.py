"""What the plan does not promise, and what to mind: a few lines under every plan."""

from __future__ import annotations

from cli.screen.wording import plain_name
from solver.job.job import Job
from solver.plan.built import Placement
from solver.plan.plan import Option

TALL = 4
"""A standing case higher than this many times its depth is fixed to the wall. Common
practice, no source: it only decides whether the line speaks of this case."""


def cautions(job: Job, option: Option) -> list[str]:
    """Return the cautions that hold for this option, one sentence or two each."""
    return [
        line
        for line in (
            _assumed(option),
            _load(option, job),
            _tipping(option),
            _glass(job),
            "Local codes and the makers' instructions come first where they ask for more.",
        )
        if line
    ]


def _glass(job: Job) -> str:
    if any(case.glass is not None for case in job.cases):
        return "Glass: shelves by the maker's load table alone; casewright trim judges them."
    return "Glass: no glass and no doors are part of this plan."


def _things(option: Option) -> list[Placement]:
    return [
        thing
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
        for thing in opening.items
    ]


def _assumed(option: Option) -> str:
    """Which weights are not known."""
    names = list(dict.fromkeys(t.item for t in _things(option) if t.mass_assumed))
    if not names:
        return ""
    listed = ", ".join(plain_name(name) for name in names[:6])
    more = f" and {len(names) - 6} more kinds" if len(names) > 6 else ""
    return f"Weights not given, the standard load on each footprint assumed: {listed}{more}."


def _load(option: Option, job: Job) -> str:
    if not option.cases:
        return ""
    if job.look.shelf_load is not None:
        return "Shelf load: the job's own limit on what is stood there, not a sag check."
    limit = "US standard, 40 lb/ft2, at most 200 lb a shelf"
    if job.unit == "mm":
        limit = "US standard, 40 lb/ft2 (195 kg/m2), at most 200 lb (91 kg) a shelf"
    return f"Shelf load: a limit on what is stood there by the {limit}, not a sag check."


def _tipping(option: Option) -> str:
    tall = [
        plain_name(case.name)
        for case in option.cases
        if case.kind == "standing" and case.outside.height > TALL * case.outside.depth
    ]
    return f"Tip-over: fix {', '.join(tall)} to the wall; heavy things low." if tall else ""
