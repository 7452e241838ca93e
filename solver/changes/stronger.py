"""Changes that let shelves bear more: a lip, thicker boards, an upright; each solved again.

A lip takes height below its shelf, thicker boards take height too: so whether everything then fits
is asked of the whole layout, with the beam formula of :mod:`solver.strength.shelf_beams` in it.
Sizes are those that are had, the least that does is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.carcass.outline import outside_height, outside_width
from solver.changes.situation import Situation, altered
from solver.changes.trials import Fitter
from solver.doorway.swing_of_job import doorway_of
from solver.intake.sizes_from_place import sizes_from_place
from solver.job.case import UPRIGHTS_MOST, Case
from solver.outcome import Verdict
from solver.plan.slack_and_advice import Alteration, Binding
from solver.units import Ticks, Unit, inches, mm

LIPS: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(map(inches, ("1-1/2", "2", "2-1/2", "3"))),
    "mm": tuple(map(mm, ("40", "50", "60", "75"))),
}
"""Heights of a lip in all that are tried: common practice, no source [tick]."""
BOARDS_TRIED: dict[Unit, tuple[Ticks, ...]] = {
    "in": tuple(map(inches, ("1", "1-1/4", "1-1/2"))),
    "mm": tuple(map(mm, ("25", "30", "36"))),
}
"""Thicknesses of boards that are tried, the last two glued up of two: common practice, no source
[tick]."""


def stronger(asked: Situation, fitter: Fitter, binds: Sequence[Binding]) -> list[Alteration]:
    """Return the least lip, the least thickness and the upright with which everything fits.

    Nothing where no limit of what shelves bear is among those that bind.
    """
    limits = {limit for one in binds for limit in one.limits}
    ways = [*([_lips, _thicker] if "sag" in limits else []), _upright]
    found = []
    for way in ways if limits & {"sag", "load"} else []:
        does = (one for one in way(asked) if _does(asked, one, fitter))
        if (first := next(does, None)) is not None:
            found.append(first)
    return found


def _does(asked: Situation, change: Alteration, fitter: Fitter) -> bool:
    after = altered(asked, [change])
    return _goes_in(after) and fitter.fits(after) is Verdict.YES


def _goes_in(after: Situation) -> bool:
    """Whether every case still goes into the place that was measured for it."""
    return all(_case_goes_in(after, case) for case in after.job.cases if case.doorway is not None)


def _case_goes_in(after: Situation, case: Case) -> bool:
    place = sizes_from_place(after.job, case)
    most = min(place.height.size, doorway_of(after.job, case).clear_height - case.above_floor)
    return (
        outside_width(after.job, case) <= place.width.size
        and outside_height(after.job, case) <= most
    )


def _names(asked: Situation) -> list[str | None]:
    """Return each case alone, then None for all of them together."""
    cases = asked.job.cases
    return [None] if len(cases) == 1 else [*(case.name for case in cases), None]


def _cases(asked: Situation, name: str | None) -> list[Case]:
    return [case for case in asked.job.cases if name in (None, case.name)]


def _lips(asked: Situation) -> Iterator[Alteration]:
    for name in _names(asked):
        now = max(_lip_height(asked, case) for case in _cases(asked, name))
        for high in LIPS[asked.job.unit]:
            if high > now:
                yield Alteration(what="lip", case=name, to=high)


def _lip_height(asked: Situation, case: Case) -> Ticks:
    """Height in all of a case's lip, or the thickness of its shelves where it has none [tick]."""
    if case.lip is None:
        return asked.job.thickness(case.material)
    return asked.job.moulding(case.lip.moulding).width


def _thicker(asked: Situation) -> Iterator[Alteration]:
    for material in dict.fromkeys(case.material for case in asked.job.cases):
        now = asked.job.thickness(material)
        lips = [_lip_height(asked, c) for c in asked.job.cases if c.lip and c.material == material]
        for thick in BOARDS_TRIED[asked.job.unit]:
            if now < thick <= min(lips, default=thick):
                yield Alteration(what="thickness", item=material, to=thick)


def _upright(asked: Situation) -> Iterator[Alteration]:
    for name in _names(asked):
        if all(case.bay_count <= UPRIGHTS_MOST for case in _cases(asked, name)):
            yield Alteration(what="uprights", case=name, number=1)
