"""Jobs that nearly work or nearly cost less, and jobs with a near miss made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from solver.changes.situation import Situation, altered
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Change, Plan
from solver.plan.slack_and_advice import Alteration
from solver.planning.plan_job import plan_job
from tests.builders import make_job

SHEET = {"name": "ply", "material": "ply", "grain": "length"}


def limits(work: float = 2.0) -> Limits:
    """Fresh limits: their time begins when they are made."""
    return Limits(work=work)


def strip_job(
    strips: int, depth: str, *, unit: str = "in", trim: str = "0", margin: str = "0"
) -> Job:
    """A case whose every part takes a whole strip of a sheet, as many strips as asked for.

    Two sides, a top, a bottom and the shelves are all longer than half a sheet; no back.
    """
    inch = unit == "in"
    return make_job(
        unit=unit,
        case={
            "width": "60" if inch else "1500",
            "height": "90" if inch else "2280",
            "depth": depth,
            "shelves": strips - 4,
            "back": "none",
            "material": "ply",
        },
        sheet=[
            {
                **SHEET,
                "length": "96" if inch else "2440",
                "width": "48" if inch else "1220",
                "thickness": "3/4" if inch else "18",
                "price": 92,
            }
        ],
        shop={"kerf": "1/8" if inch else "3", "edge_trim": trim, "margin": margin},
    )


def tight_job(*items: dict[str, Any], **tables: Any) -> Job:
    """A millimetre job of one case, without a back, with coarse steps and plain looks."""
    look = {"headroom": "20", "gap": "10", "end_margin": "10", **tables.pop("look", {})}
    case = {
        "width": "500", "height": "500", "depth": "150", "shelves": 1, "back": "none",
        **tables.pop("case", {}),
    }  # fmt: skip
    return make_job(
        unit="mm",
        case=case,
        items=[{"weight": "1 kg", **item} for item in items],
        job={"marking_step": "10"},
        look={"clear_least": "50", "front_margin": "0", **look},
        shop={"cutting_step": "10", **tables.pop("shop", {})},
        **tables,
    )


def thing(name: str, size: str, count: int = 1, **more: Any) -> dict[str, Any]:
    """A kind of thing from `width x height x depth`."""
    width, height, depth = size.split("x")
    return {"name": name, "width": width, "height": height, "depth": depth, "count": count, **more}


def changes_of(job: Job) -> tuple[Change, ...]:
    """What would let everything fit in the one option of a job."""
    (option,) = plan_job(job, limits(), near=False).options
    return option.changes


def made(job: Job, alters: Sequence[Alteration], *, counts: Mapping[str, tuple[int, ...]]) -> Job:
    """The job with things changed and these shelves, each case of equal bays."""
    after = altered(Situation(job, counts), alters)
    cases = tuple(
        case.model_copy(update={"shelves": after.counts[case.name][0]}) for case in after.job.cases
    )
    return after.job.model_copy(update={"cases": cases})


def one_step_less(change: Alteration, step: int) -> Alteration:
    """The same change by one step less."""
    assert change.by is not None
    return change.model_copy(update={"by": change.by - step})


def planned_as(
    job: Job, alters: Sequence[Alteration], counts: Mapping[str, tuple[int, ...]]
) -> Plan:
    """The plan of the job with things changed."""
    return plan_job(made(job, alters, counts=counts), limits(), near=False)
