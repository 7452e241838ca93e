"""All steps of an option, each after what it waits for."""

from __future__ import annotations

from solver.hardware.every import hardware_list
from solver.job import Job
from solver.labour.works import works
from solver.plan import Option
from solver.steps.about import About
from solver.steps.cautions import of_job
from solver.steps.draft import Draft, assembled
from solver.steps.finishing import shop_done
from solver.steps.hardware import fitted_out
from solver.steps.making import making_drafts
from solver.steps.site import site_drafts
from solver.steps.start import start_drafts
from solver.work import After, Step


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
