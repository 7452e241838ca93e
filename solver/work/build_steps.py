"""All steps of an option, each after what it waits for, with the hardware that it takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.costing.hardware import hardware_list
from solver.costing.labour_tasks import works
from solver.job.job import Job
from solver.plan.bought import HardwareLine, Use
from solver.plan.plan import Option
from solver.plan.work import Fitting, Predecessor, Step
from solver.work.finishing_steps import shop_done
from solver.work.first_steps import start_drafts
from solver.work.making_steps import making_drafts
from solver.work.site_steps import site_drafts
from solver.work.step_draft import Draft, assembled, job_cautions
from solver.work.step_facts import CaseFacts

GLUE = ("glue 1",)
"""Divided among all glue-ups of the case, by their joints."""
STEPS_OF_HARDWARE: dict[str, tuple[str, ...]] = {
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
"""Steps that take each kind of hardware: the first that the case has. The key of a line, which has
its size, goes before that of its kind."""
BY_USE = {"scribe strips": "scribe", "lips": "lips"}
"""Step by use, which goes before the kind."""


def build_steps(job: Job, option: Option) -> tuple[Step, ...]:
    """Return the steps of an option, each after all that it waits for."""
    cautions = job_cautions(job, option)
    drafts = list(start_drafts(job, option, cautions))
    cases = [CaseFacts(job, option, planned) for planned in option.cases]
    for facts in cases:
        drafts += making_drafts(facts)
    done = tuple(after for facts in cases for after in shop_done(facts))
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
    for facts in cases:
        drafts += site_drafts(facts, cautions)
    drafts += _last_drafts(cases)
    steps = assembled(drafts, works(job, option))
    return with_hardware(steps, hardware_list(job, option))


def _last_drafts(cases: list[CaseFacts]) -> list[Draft]:
    loaded = tuple(facts.after("load") for facts in cases)
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
            after=(Predecessor(step="hand-over"),),
            later="a month after",
        ),
    ]


def with_hardware(steps: Sequence[Step], lines: Sequence[HardwareLine]) -> tuple[Step, ...]:
    """Return the steps with the hardware that each takes.

    Raises
    ------
    ValueError
        Where a use of the list has no step: a kind that is missing in `STEPS_OF_HARDWARE`.
    """
    keys = {step.key for step in steps}
    taken: dict[str, list[Fitting]] = {}
    for line in lines:
        for use, count in line.uses:
            step = _step_for(line, use, keys)
            named = f"{line.what}, {line.size}" if line.size else line.what
            for key, part in _among_glue_ups(steps, step, use, count):
                fitting = Fitting(line=line.key, what=named, count=part, counted=line.counted)
                taken.setdefault(key, []).append(fitting)
    return tuple(
        step.model_copy(update={"fittings": tuple(_added_up(taken.get(step.key, ())))})
        for step in steps
    )


def _among_glue_ups(
    steps: Sequence[Step], step: str, use: Use, count: int
) -> Iterator[tuple[str, int]]:
    """Divide what the glue-ups of a case take among them; all else goes to its step whole.

    Screws for the ends of certain boards go where those boards do, anything else by joints.
    """
    if step != f"{GLUE[0]} {use.case}":
        yield step, count
        return
    lots = [one for one in steps if one.case == use.case and one.key.startswith("glue ")]
    shares = [sum(_board_kind(part, use.case) == use.part for part in lot.of) for lot in lots]
    if not any(shares):
        shares = [sum(int(w.count) for w in lot.works if w.task == "glue-up") for lot in lots]
    left, whole = count, sum(shares)
    for lot, share in zip(lots, shares, strict=True):
        part = -(-left * share // whole) if whole else left
        left, whole = left - part, whole - share
        if part:
            yield lot.key, part


def _board_kind(part: str, case: str) -> str:
    """Return shelf of alcove/bay-2-shelf-3."""
    words = [word for word in part.removeprefix(f"{case}/").split("-") if not word.isdigit()]
    return " ".join(word for word in words if word != "bay")


def _step_for(line: HardwareLine, use: Use, keys: set[str]) -> str:
    by_use = BY_USE.get(use.what)
    usual = STEPS_OF_HARDWARE.get(line.key) or STEPS_OF_HARDWARE.get(line.kind, ())
    wanted = (*((by_use,) if by_use else ()), *usual)
    step = next((f"{name} {use.case}" for name in wanted if f"{name} {use.case}" in keys), None)
    if step is None:
        msg = f"no step takes {line.key!r} for {use.text!r}"
        raise ValueError(msg)
    return step


def _added_up(fittings: Sequence[Fitting]) -> Iterator[Fitting]:
    """Yield the fittings of a step, those of one line added up."""
    for line in dict.fromkeys(fitting.line for fitting in fittings):
        alike = [fitting for fitting in fittings if fitting.line == line]
        yield alike[0].model_copy(update={"count": sum(fitting.count for fitting in alike)})
