"""A step before its work is counted: which tasks of the labour table it takes.

Cautions of the steps, each with its source; those of the job come from solver.strength.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.job.defaults import CP
from solver.job.job import Job
from solver.job.labour_table import Where
from solver.plan.plan import Option
from solver.plan.work import After, Caution, Step, Work
from solver.strength.hang_sheet import hanging_of


@dataclass(frozen=True)
class Draft:
    """A step and the tasks that it takes; fields as of :class:`solver.plan.work.Step`.

    Attributes
    ----------
    takes
        Task and how many works of it, in the order in which they are counted; 0 is all.
    """

    key: str
    what: str
    where: Where
    case: str | None = None
    does: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    takes: tuple[tuple[str, int], ...] = ()
    after: tuple[After, ...] = ()
    in_one_go: bool = False
    shared: bool = False
    later: str | None = None


def assembled(drafts: list[Draft], found: tuple[Work, ...]) -> tuple[Step, ...]:
    """Give each draft its works; every work goes into the first step that takes it, once.

    Steps left without any work stay, at no time: what is done there is said all the same.
    """
    left = list(found)
    return tuple(_step(draft, left) for draft in drafts)


def _step(draft: Draft, left: list[Work]) -> Step:
    """Make a step, and take its works out of what is left."""
    mine = []
    for task, count in draft.takes:
        some = [work for work in left if work.task == task and work.case == draft.case]
        mine += some[: count or len(some)]
    for work in mine:
        left.remove(work)
    return Step(
        key=draft.key,
        what=draft.what,
        where=draft.where,
        case=draft.case,
        does=draft.does,
        tools=draft.tools,
        cautions=draft.cautions,
        works=tuple(mine),
        people=max((work.people for work in mine), default=1),
        in_one_go=draft.in_one_go,
        shared=draft.shared,
        after=draft.after,
        later=draft.later,
    )


FACES = Caution(
    text="Good face down under a guided saw, up on a table saw; blade guard and riving knife on; "
    "nothing trapped between blade and stop.",
    source="faces: woodworkingtips.com etip010810sn, etip010817sn; the rest: " + CP,
)
LADDER = Caution(
    text="Before a screw goes into a wall: find cables and pipes behind it.", source=CP
)
LEAD = Caution(
    text="Old paint: no dry sanding, no heat gun; sheet the room off, work wet, clean up wet.",
    source="thisoldhouse advice on old doors; 40 CFR 745.85, from memory",
)
WET = Caution(
    text="Rags with oil finish go out flat or under water; air through the room; no flame.",
    source=CP,
)
OPEN = Caution(
    text="The open time on the label counts, less of it in a warm shop; have every clamp set to "
    "its opening before the first bead.",
    source=CP,
)
FALL = Caution(
    text="A tall case is tied or held until its fixings are in: it tips before it is fixed.",
    source="earthquakecountry.org bookcases; 16 CFR 1261 as a yardstick",
)


def of_job(job: Job, option: Option) -> dict[str, Caution]:
    """Cautions that the job calls for, by their key; the last of a key where there are several."""
    return {
        one.key: Caution(text=one.text, source=one.source)
        for one in hanging_of(job, option).cautions
    }
