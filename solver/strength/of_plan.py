"""Sag of every board of a planned case that spans, under what stands on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from solver.bearing import Limit, ShelfStrength, Strength
from solver.boards import Board
from solver.built import Bay, CasePlan, Opening, Placement
from solver.case import Case
from solver.geometry import load_limit
from solver.job import Job
from solver.strength.amounts import millimetres, newtons, ticks_down, ticks_up
from solver.strength.beam_of import ASSUMED, ShelfBeam
from solver.strength.creep import long_term
from solver.strength.limits import DISPLAY_FIRST, DISPLAY_LONG, INDUSTRY, SagLimit
from solver.strength.mends import mends
from solver.strength.of_job import beam, board_of, sag_load, spans_at_bottom, wood_of

DISPLAY = (DISPLAY_FIRST, DISPLAY_LONG)
_LIMITS: tuple[tuple[Limit, SagLimit], ...] = (
    ("display-first", DISPLAY_FIRST),
    ("display-long", DISPLAY_LONG),
    ("industry", INDUSTRY),
)


def strength_of(job: Job, cases: Sequence[CasePlan]) -> Strength | None:
    """Return the sag of all boards of an option's cases that span; None without any case."""
    if not cases:
        return None
    ordered = {case.name: case for case in job.cases}
    shelves = tuple(
        _shelf(job, ordered[planned.name], bay, opening)
        for planned in cases
        for bay in planned.bays
        for opening in bay.openings
        if opening.index or spans_at_bottom(ordered[planned.name])
    )
    worst = max(
        range(len(shelves)), key=lambda at: shelves[at].sag_first / shelves[at].span, default=None
    )
    return Strength(held=job.ground.sag, shelves=shelves, worst=worst, assumed=_assumed(job))


def _shelf(job: Job, case: Case, bay: Bay, opening: Opening) -> ShelfStrength:
    width, depth, index = bay.inside.width, bay.inside.depth, opening.index
    shelf = beam(job, case, width, depth, index)
    things = [_thing(item) for item in opening.items]
    first = shelf.under(things)
    display = min(shelf.carries(limit) for limit in DISPLAY)
    over = tuple(name for name, limit in _LIMITS if not _keeps(limit, shelf, things))
    return ShelfStrength(
        case=case.name,
        bay=bay.number,
        index=index,
        span=width,
        load=opening.load,
        sag_first=ticks_up(first),
        sag_long=ticks_up(long_term(first)),
        sag_standard=ticks_up(
            shelf.first_day(newtons(load_limit(job, width, depth))) + shelf.own_sag()
        ),
        ratio=int(shelf.span / first),
        allowed_first=ticks_down(DISPLAY_FIRST.allows(shelf.span)),
        allowed_long=ticks_down(DISPLAY_LONG.allows(shelf.span)),
        allowed_industry=ticks_down(INDUSTRY.allows(shelf.span)),
        sag_load=sag_load(job, case, width, depth, index),
        display_load=display,
        longest=ticks_down(min(shelf.longest(newtons(opening.load), limit) for limit in DISPLAY)),
        over=over,
        mends=mends(job, case, (width, depth, index), opening.load, _display_kept(things), display)
        if over
        else (),
    )


def _thing(item: Placement) -> tuple[float, float, float]:
    """(weight [N], from, to [mm]) of a thing as it stands."""
    return newtons(item.mass), millimetres(item.x), millimetres(item.x + item.width)


def _display_kept(things: Sequence[tuple[float, float, float]]) -> Callable[[ShelfBeam], bool]:
    return lambda shelf: all(_keeps(limit, shelf, things) for limit in DISPLAY)


def _keeps(limit: SagLimit, shelf: ShelfBeam, things: Sequence[tuple[float, float, float]]) -> bool:
    """Whether a limit is kept, to the tick: as the plan shows both figures."""
    sag = shelf.under(things)
    shown = ticks_up(long_term(sag) if limit.long_term else sag)
    return shown <= ticks_down(limit.allows(shelf.span))


def _assumed(job: Job) -> tuple[str, ...]:
    """Say what the figures rest on, the boards first."""
    boards: dict[str, Board] = {case.material: board_of(job, case.material) for case in job.cases}
    boards |= {
        case.lip.moulding: wood_of(job, case.lip.moulding)
        for case in job.cases
        if case.lip is not None
    }
    named = (
        f"{name}: E {board.modulus / 1e6:.2f} million psi, {board.name} ({board.source})"
        for name, board in boards.items()
    )
    years = "long-term is twice the first day (Wood Handbook FPL-GTR-190 p. 5-38)"
    weight = "own weight of the shelf counted; a weight not given as the standard shelf load"
    return (*named, *ASSUMED, weight, years)
