"""All the work of a plan, task by task: shop, finishing, site, and what is often left out.

Also the lots in which boards are glued up, so that none outlasts the open time of the glue.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from solver.costing.labour_count import CaseWork, TaskCount
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.trimming import TrimPiece
from solver.plan.work import Work
from solver.strength.cautions import LEAD_YEAR


def works(job: Job, option: Option) -> tuple[Work, ...]:
    """Return everything that is to be done, each task of each case once.

    A task that counts nothing is left out, and so is an extra whose amount the job gives: the
    amount stands for the hours.
    """
    all_work = [_work(job, None, counted_task) for counted_task in _whole_job(job, option)]
    for planned in option.cases:
        case = CaseWork(job, option, planned)
        counted = (*in_the_shop(case), *finishing(case), *on_site(case), *often_left_out(case))
        all_work += [_work(job, planned.name, counted_task) for counted_task in counted]
    given = job.terms.extras
    return tuple(work for work in all_work if work.count and work.task not in given)


def _work(job: Job, case: str | None, counted: TaskCount) -> Work:
    count = Decimal(counted.count)
    return Work(
        task=counted.task,
        case=case,
        count=count,
        minutes=count * job.terms.minutes(counted.task),
        people=counted.people,
        of=counted.of,
    )


def _whole_job(job: Job, option: Option) -> Iterator[TaskCount]:
    """Yield what is done once for all cases."""
    pieces, sticks = option.pieces
    yield TaskCount("survey trip", 1)
    yield TaskCount("drawing and proposal", 1)
    yield TaskCount("fetching materials", 1)
    yield TaskCount("setting a saw", sum(not one.as_it_stands for one in option.settings))
    yield TaskCount("sheet cut", sum(len(sheet.cuts) for sheet in option.sheets), pieces)
    yield TaskCount("stick cut", sum(len(stick.cuts) for stick in option.mouldings), sticks)
    yield TaskCount("labelling", len(pieces), pieces)
    yield TaskCount("labelling", len(sticks), sticks)
    yield TaskCount("delivery", 1)
    yield TaskCount("hand-over", 1)
    yield TaskCount("call-back", 1)


def may_be_lead(job: Job) -> bool:
    """Whether old paint is to be treated as lead."""
    built = job.head.house_built
    return built == "unknown" or built < LEAD_YEAR


def often_left_out(work: CaseWork) -> Iterator[TaskCount]:
    """Yield the tasks that estimates often leave out and that apply to one case."""
    yield TaskCount("protection", 1)
    for task in ("disposal", "patching", "lead-safe work"):
        if work.is_first_in_doorway and not why_none(task, work.job, (work.case,)):
            yield TaskCount(task, 1)


def why_none(task: str, job: Job, cases: tuple[Case, ...]) -> str | None:
    """Why a task that is often left out applies to none of these cases; None where it applies."""
    kinds = {case.kind for case in cases}
    if task in ("disposal", "patching"):
        return None if kinds & {"hung", "built-in"} else "nothing is taken out or cut open"
    if task == "lead-safe work":
        if not kinds & {"hung", "built-in"}:
            return "no old paint is cut or sanded"
        if not may_be_lead(job):
            return f"the house was built in {job.head.house_built}, not before {LEAD_YEAR}"
    return None


SCRIBED_SIDES = 2
"""A built-in case without strips of its own is scribed at both sides all the same [-]."""


def _ids(pieces: tuple[TrimPiece, ...]) -> tuple[str, ...]:
    return tuple(piece.id for piece in pieces)


def in_the_shop(work: CaseWork) -> Iterator[TaskCount]:
    """Yield what is done to a case in the shop."""
    jointed, sheets = work.jointed, tuple(part.id for part in work.parts)
    yield TaskCount("drawing", 1)
    yield TaskCount("marking out", len(jointed) + len(work.loose), (*jointed, *work.loose))
    if work.housed:
        yield TaskCount("dado", 2 * len(work.housed), work.housed)
    if work.screwed:
        yield TaskCount("pilot holes", 2 * len(work.screwed), work.screwed)
    if holes := sum(bay.total for bay in work.pin_holes):
        yield TaskCount("pin holes", holes, work.ids("side", "upright"))
    if work.bands:
        yield TaskCount("banding", len(work.bands), _ids(work.bands))
    yield TaskCount("sanding", work.area, sheets)
    yield TaskCount("dry fit", 1)
    yield TaskCount("dry fit of a board", len(jointed), jointed)
    for lot in lots(work):
        yield TaskCount(
            "glue-up", lot.joints, (*(work.ids("side") if lot.sides else ()), *lot.boards)
        )
    yield TaskCount("squaring", 1)
    if back := work.ids("back"):
        yield TaskCount("back", len(back), back)
    if work.lips:
        yield TaskCount("lip", len(work.lips), work.lips)
    if work.fluted:
        assert work.trim.flutes is not None
        yield TaskCount("flute", work.trim.flutes.count * len(work.fluted), _ids(work.fluted))
    if travels := work.trimmed(travels=True):
        yield TaskCount("trim that travels", len(travels), _ids(travels))
    if work.hinges:
        yield TaskCount("hinge on the case", work.hinges)
    if work.trim.light is not None:
        yield TaskCount("light strip", len(work.trim.light.runs))


def finishing(work: CaseWork) -> Iterator[TaskCount]:
    """Yield primer and coats, each by itself, a rubbing down before each but the first."""
    sheets = tuple(part.id for part in work.parts)
    area, before, after = work.area, *coats(work)
    for number in range(before + after):
        if number:
            yield TaskCount("rubbing down", area, sheets)
        primer = work.job.finished.kind == "paint" and number < before
        yield TaskCount("priming" if primer else "top coat", area, sheets)


def coats(work: CaseWork) -> tuple[int, int]:
    """Return how many coats go on before assembly and after it [-].

    Primer goes on before; of a clear finish without primer the first coat does.
    """
    finish = work.job.finished
    if finish.kind == "none":
        return 0, 0
    if finish.kind == "paint":
        return finish.primer, finish.coats
    return min(1, finish.coats), max(0, finish.coats - 1)


def on_site(work: CaseWork) -> Iterator[TaskCount]:
    """Yield what is done to a case where it goes, by its kind."""
    kind, people = work.case.kind, work.people
    if kind == "hung" and work.is_first_in_doorway:
        yield TaskCount("old door out", 1)
    if kind in ("hung", "built-in") and work.is_first_in_doorway:
        yield TaskCount("preparing the opening", 1)
    if kind == "wall":
        yield TaskCount("finding studs", 1)
        yield TaskCount("wall cleat", 1)
    yield TaskCount("carrying in", 1, people=people)
    if kind == "hung":
        yield TaskCount("hanging", work.hinges, people=people)
        yield TaskCount("open-test", 1)
        yield TaskCount("catches and pull", 1)
    else:
        yield TaskCount("levelling", 1, people=people if kind == "wall" else 1)
        yield TaskCount("fixing to the wall", 1)
    if work.scribes:
        yield TaskCount("scribing", len(work.scribes), _ids(work.scribes))
    elif kind == "built-in":
        yield TaskCount("scribing", SCRIBED_SIDES)
    if stays := work.trimmed(travels=False):
        yield TaskCount("trim on the wall", len(stays), _ids(stays))
    if work.loose:
        yield TaskCount("shelves in", len(work.loose), work.loose)
    yield TaskCount("loading", 1)


JOINTS_MOST = 8
"""Joints that the open time of glue allows in one glue-up: common practice, no source [-]."""


@dataclass(frozen=True)
class Lot:
    """One glue-up.

    Attributes
    ----------
    boards
        Ids of the boards whose ends are glued, in the order in which they go in.
    sides
        Whether the sides are set up in it; the first lot makes the box.
    """

    boards: tuple[str, ...]
    sides: bool

    @property
    def joints(self) -> int:
        """Two for each board [-]."""
        return 2 * len(self.boards)

    @property
    def too_many(self) -> bool:
        """Whether it has more joints than the open time of common glue allows."""
        return self.joints > JOINTS_MOST


def lots(work: CaseWork) -> tuple[Lot, ...]:
    """Return the glue-ups of a case in order.

    First the box: bottom, uprights, top, toe and as many shelves as the open time allows, from
    the middle outwards, which keep the sides straight. Then the other boards, slid in from
    the back, bay by bay from the lowest.
    """
    box = [one for one in work.jointed if one not in work.ids("shelf")]
    if 2 * len(box) > JOINTS_MOST:  # the toe can wait, the uprights cannot
        box = [one for one in box if one not in work.ids("toe")]
    shelves = [one for one in work.jointed if one not in box]
    room = max(0, JOINTS_MOST // 2 - len(box))
    first = _evenly_spread(shelves, room) if len(work.planned.bays) == 1 else []
    order = [*(one for one in box if one not in work.ids("top")), *first, *work.ids("top")]
    rest = [one for one in shelves if one not in first]
    return (Lot(tuple(order), sides=True), *(Lot(one, sides=False) for one in _equal_lots(rest)))


def _equal_lots(shelves: list[str]) -> list[tuple[str, ...]]:
    """Divide shelves into as few lots as the open time allows, as equal as they can be."""
    count = -(-2 * len(shelves) // JOINTS_MOST)
    sizes = [len(shelves) // count + (at < len(shelves) % count) for at in range(count)]
    return [tuple(shelves[sum(sizes[:at]) : sum(sizes[: at + 1])]) for at in range(count)]


def _evenly_spread(shelves: list[str], count: int) -> list[str]:
    """Return the `count` shelves that, by their numbers, divide the height most evenly."""
    count = min(count, len(shelves))
    places = [(k + 1) * (len(shelves) + 1) // (count + 1) for k in range(count)]
    return [shelves[place - 1] for place in dict.fromkeys(places)]
