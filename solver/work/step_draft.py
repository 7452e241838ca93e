"""A step before its work is counted: the tasks of the labour table that it takes; its cautions.

Cautions of steps have their sources here; those of the job come from :mod:`solver.strength`.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.job.defaults import CP
from solver.job.job import Job
from solver.job.labour_table import Workplace
from solver.plan.plan import Option
from solver.plan.work import Predecessor, Step, StepCaution, Work
from solver.strength.hang_sheet import hanging_of


@dataclass(frozen=True)
class Draft:
    """A step and the tasks that it takes; fields as of :class:`solver.plan.work.Step`.

    Attributes
    ----------
    takes
        (task, how many works of it in the order in which they are counted; 0: all).
    """

    key: str
    what: str
    where: Workplace
    case: str | None = None
    does: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    cautions: tuple[StepCaution, ...] = ()
    takes: tuple[tuple[str, int], ...] = ()
    after: tuple[Predecessor, ...] = ()
    in_one_go: bool = False
    shared: bool = False
    later: str | None = None


def assembled(drafts: list[Draft], all_work: tuple[Work, ...]) -> tuple[Step, ...]:
    """Make steps of the drafts; every work goes into the first step that takes it, once.

    A step without any work stays in the list and takes no time.
    """
    left = list(all_work)
    return tuple(_step(draft, left) for draft in drafts)


def _step(draft: Draft, left: list[Work]) -> Step:
    """Make a step, and take its works out of those left."""
    taken = []
    for task, count in draft.takes:
        matching = [work for work in left if work.task == task and work.case == draft.case]
        taken += matching[: count or len(matching)]
    for work in taken:
        left.remove(work)
    return Step(
        key=draft.key,
        what=draft.what,
        where=draft.where,
        case=draft.case,
        does=draft.does,
        tools=draft.tools,
        cautions=draft.cautions,
        works=tuple(taken),
        people=max((work.people for work in taken), default=1),
        in_one_go=draft.in_one_go,
        shared=draft.shared,
        after=draft.after,
        later=draft.later,
    )


GOOD_FACE = StepCaution(
    text="Good face down under a guided saw, up on a table saw; blade guard and riving knife on; "
    "nothing trapped between blade and stop.",
    source="faces: woodworkingtips.com etip010810sn, etip010817sn; the rest: " + CP,
)
CABLES = StepCaution(
    text="Before a screw goes into a wall: find cables and pipes behind it.", source=CP
)
LEAD_PAINT = StepCaution(
    text="Old paint: no dry sanding, no heat gun; sheet the room off, work wet, clean up wet.",
    source="thisoldhouse advice on old doors; 40 CFR 745.85, from memory",
)
OILY_RAGS = StepCaution(
    text="Rags with oil finish go out flat or under water; air through the room; no flame.",
    source=CP,
)
GLUE_OPEN = StepCaution(
    text="The open time on the label counts, less of it in a warm shop; have every clamp set to "
    "its opening before the first bead.",
    source=CP,
)
TIPPING = StepCaution(
    text="A tall case is tied or held until its fixings are in: it tips before it is fixed.",
    source="earthquakecountry.org bookcases; 16 CFR 1261 as a yardstick",
)


def job_cautions(job: Job, option: Option) -> dict[str, StepCaution]:
    """Return the cautions that the job calls for by key; the last where a key has several."""
    return {
        caution.key: StepCaution(text=caution.text, source=caution.source)
        for caution in hanging_of(job, option).cautions
    }


def called_for(cautions: dict[str, StepCaution], *keys: str) -> tuple[StepCaution, ...]:
    """Return those of some cautions that the job calls for."""
    return tuple(cautions[key] for key in keys if key in cautions)
