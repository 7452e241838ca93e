"""A step before its work is counted: which tasks of the labour table it takes."""

from __future__ import annotations

from dataclasses import dataclass

from solver.job.labour_table import Where
from solver.plan.work import After, Caution, Step, Work


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
