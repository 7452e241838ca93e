"""What an option looks like, in figures, computed from its openings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from statistics import median_low

from solver.job.inventory import Item
from solver.job.job import Job
from solver.layout import rhythm_scores
from solver.plan.built import Bay, CasePlan, Opening
from solver.plan.plan import Scores
from solver.plan.stocked import Part, Sheet
from solver.units import Ticks


def bays(cases: Sequence[CasePlan]) -> Iterator[Bay]:
    """All bays."""
    return (bay for case in cases for bay in case.bays)


def scores(
    job: Job, cases: Sequence[CasePlan], parts: Sequence[Part], sheets: Sequence[Sheet]
) -> Scores:
    """Score one option."""
    openings = [opening for bay in bays(cases) for opening in bay.openings]
    rooms = [room for room in map(room_over, openings) if room is not None]
    return Scores(
        rhythm=rounded(rhythm_score(job, cases)),
        headroom_least=min((i.headroom for o in openings for i in o.items), default=None),
        headroom_typical=median_low(rooms) if rooms else None,
        headroom_spread=max(rooms) - min(rooms) if rooms else 0,
        wishes_missed=sum(_missed(job, case, bay) for case in cases for bay in case.bays),
        fill_least=min(o.fill for o in openings),
        fill_most=max(o.fill for o in openings),
        board_used=_used(parts, sheets),
    )


def rounded(score: Fraction) -> Ticks:
    """Round half up to a whole tick [tick]."""
    return int(score + Fraction(1, 2))


def room_over(opening: Opening) -> Ticks | None:
    """Clear height less the highest top of what stands there; None in an empty opening [tick]."""
    tops = [item.y + item.height for item in opening.items]
    return opening.height - max(tops) if tops else None


def rhythm_score(job: Job, cases: Sequence[CasePlan]) -> Fraction:
    """The score of the job's rhythm, summed over bays [tick]."""
    return sum((_bay_rhythm(job, bay) for bay in bays(cases)), Fraction(0))


def _bay_rhythm(job: Job, bay: Bay) -> Fraction:
    look, heights = job.look, [opening.height for opening in bay.openings]
    if look.rhythm == "even":
        return rhythm_scores.even(heights)
    if look.rhythm == "symmetric":
        return rhythm_scores.symmetric(heights)
    if look.rhythm == "graduated":
        least = look.step_least if look.step is None else look.step
        most = look.step_most if look.step is None else look.step
        return rhythm_scores.graduated(heights, least, most)
    rooms = [room_over(opening) for opening in bay.openings]
    return rhythm_scores.to_fit([room for room in rooms if room is not None])


def eye_opening(job: Job, above_floor: Ticks, bay: Bay) -> int:
    """The opening at eye level: the last whose floor is not above it."""
    below = [o.index for o in bay.openings if above_floor + o.floor <= job.look.eye_level]
    return max(below, default=0)


def _missed(job: Job, case: CasePlan, bay: Bay) -> int:
    eye, top = eye_opening(job, case.above_floor, bay), len(bay.openings) - 1
    return sum(
        opening.index != _wished(job.item(thing.item), eye, top, opening.index)
        for opening in bay.openings
        for thing in opening.items
    )


def _wished(item: Item, eye: int, top: int, here: int) -> int:
    if item.where is None:
        return here
    if isinstance(item.where, int):
        return item.where
    return {"low": 0, "eye": eye, "top": top}[item.where]


def _used(parts: Sequence[Part], sheets: Sequence[Sheet]) -> float:
    area = sum(sheet.length * sheet.width for sheet in sheets)
    return round(sum(part.length * part.width for part in parts) / area, 6) if area else 0.0
