"""All steps of an option, each after what it waits for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.costing.hardware import hardware_list
from solver.costing.works import works
from solver.job.job import Job
from solver.plan.bought import HardwareLine, Use
from solver.plan.plan import Option
from solver.plan.work import After, Fitting, Step
from solver.work.finishing_steps import shop_done
from solver.work.first_steps import start_drafts
from solver.work.making_steps import making_drafts
from solver.work.site_steps import site_drafts
from solver.work.step_draft import Draft, assembled, of_job
from solver.work.step_facts import About

GLUE = ("glue 1",)
"""Shared among all glue-ups of the case, by their joints."""
STEPS: dict[str, tuple[str, ...]] = {
    "hinge screw, jamb": ("hang",),
    "hinge screw, case": ("hinges",),
    "hinge": ("hinges",),
    "joint screw": GLUE,
    "back staple": ("back",),
    "back screw": ("back",),
    "brad": ("lips", "scribe"),
    "finish nail": ("wall trim", "trim"),
    "trim screw": ("trim",),
    "plinth block": ("wall trim", "trim"),
    "corner block": ("wall trim", "trim"),
    "wall screw": ("fix",),
    "cleat": ("cleat", "fix"),
    "strap": ("fix",),
    "shim": ("opening", "hang", "fix"),
    "catch": ("catches",),
    "pull": ("catches",),
    "bumper": ("catches",),
    "limit stop": ("catches",),
    "shelf pin": ("load",),
    "glue": GLUE,
    "filler": ("coat 2", "coat 1", "sand"),
    "primer": ("coat 1",),
    "paint": ("coat 2", "coat 1"),
    "clear finish": ("coat 1",),
    "sanding disc, grit 240": ("coat 2",),
    "sanding disc": ("sand",),
    "roller sleeve": ("coat 1",),
    "light strip": ("light",),
    "driver": ("light",),
    "channel": ("light",),
}
"""Kinds of hardware, and the step of the case that takes them: the first of these that there
is. The key of a line, with its size, comes before that of its kind."""
BY_USE = {"scribe strips": "scribe", "lips": "lips"}
"""Where the use decides."""


def fitted_out(steps: Sequence[Step], lines: Sequence[HardwareLine]) -> tuple[Step, ...]:
    """Return the steps with the hardware that each takes.

    Raises
    ------
    ValueError
        Where a use of the list has no step: a kind that is missing in `STEPS`.
    """
    keys = {step.key for step in steps}
    taken: dict[str, list[Fitting]] = {}
    for line in lines:
        for use, count in line.uses:
            step = _step(line, use, keys)
            named = f"{line.what}, {line.size}" if line.size else line.what
            for key, part in _shared(steps, step, use, count):
                fitting = Fitting(line=line.key, what=named, count=part, counted=line.counted)
                taken.setdefault(key, []).append(fitting)
    return tuple(
        step.model_copy(update={"fittings": tuple(_together(taken.get(step.key, ())))})
        for step in steps
    )


def _shared(steps: Sequence[Step], step: str, use: Use, count: int) -> Iterator[tuple[str, int]]:
    """Divide what the glue-ups of a case take among them; nothing else is divided.

    Screws named for the ends of some boards go where those boards do, anything else by joints.
    """
    if step != f"{GLUE[0]} {use.case}":
        yield step, count
        return
    lots = [one for one in steps if one.case == use.case and one.key.startswith("glue ")]
    shares = [sum(_kind(part, use.case) == use.part for part in lot.of) for lot in lots]
    if not any(shares):
        shares = [sum(int(w.count) for w in lot.works if w.task == "glue-up") for lot in lots]
    left, whole = count, sum(shares)
    for lot, share in zip(lots, shares, strict=True):
        part = -(-left * share // whole) if whole else left
        left, whole = left - part, whole - share
        if part:
            yield lot.key, part


def _kind(part: str, case: str) -> str:
    """Return shelf of alcove/bay-2-shelf-3."""
    words = [one for one in part.removeprefix(f"{case}/").split("-") if not one.isdigit()]
    return " ".join(one for one in words if one != "bay")


def _step(line: HardwareLine, use: Use, keys: set[str]) -> str:
    told = BY_USE.get(use.what)
    usual = STEPS.get(line.key) or STEPS.get(line.kind, ())
    wanted = (*((told,) if told else ()), *usual)
    found = next((f"{one} {use.case}" for one in wanted if f"{one} {use.case}" in keys), None)
    if found is None:
        msg = f"no step takes {line.key!r} for {use.text!r}"
        raise ValueError(msg)
    return found


def _together(fittings: Sequence[Fitting]) -> Iterator[Fitting]:
    """Add up alike ones."""
    for line in dict.fromkeys(one.line for one in fittings):
        alike = [one for one in fittings if one.line == line]
        yield alike[0].model_copy(update={"count": sum(one.count for one in alike)})


def build_steps(job: Job, option: Option) -> tuple[Step, ...]:
    """Return the steps of an option, each after all that it waits for."""
    said = of_job(job, option)
    drafts = list(start_drafts(job, option, said))
    cases = [About(job, option, planned) for planned in option.cases]
    for about in cases:
        drafts += making_drafts(about)
    done = tuple(after for about in cases for after in shop_done(about))
    drafts.append(
        Draft(
            "delivery",
            "Load the van and deliver",
            "site",
            does=(f"{len(cases)} case{'s' if len(cases) > 1 else ''}, hardware, trim, tools",),
            tools=("van", "blankets", "straps"),
            takes=(("delivery", 0),),
            after=done,
        )
    )
    for about in cases:
        drafts += site_drafts(about, said)
    drafts += _end(cases)
    steps = assembled(drafts, works(job, option))
    return fitted_out(steps, hardware_list(job, option))


def _end(cases: list[About]) -> list[Draft]:
    loaded = tuple(about.after("load") for about in cases)
    return [
        Draft(
            "hand-over",
            "Clear up and hand over",
            "site",
            does=("care and load card, spare paint, drawing; last payment",),
            takes=(("hand-over", 0),),
            after=loaded,
        ),
        Draft(
            "call-back",
            "Call back",
            "site",
            does=("screws, gaps and sag once more",),
            tools=("driver", "rule"),
            takes=(("call-back", 0),),
            after=(After(step="hand-over"),),
            later="a month after",
        ),
    ]
