"""Sag of every board of a planned case that spans, under what stands on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from solver.carcass.boards_of_case import load_limit
from solver.job.boards import UNKNOWN_WOOD, Board
from solver.job.case import Case
from solver.job.job import Job
from solver.plan.built import (
    Bay,
    CasePlan,
    Limit,
    Mend,
    Opening,
    Placement,
    ShelfStrength,
    Strength,
)
from solver.strength.beams import DISPLAY_FIRST, DISPLAY_LONG, INDUSTRY, SagLimit, long_term
from solver.strength.constants import MM_PER_INCH, millimetres, newtons, ticks_down, ticks_up
from solver.strength.shelf_beams import (
    ASSUMED,
    LipSize,
    ShelfBeam,
    beam_of_shelf,
    board_of,
    lip_of,
    sag_load,
    shelf_beam,
    spans_at_bottom,
    thinnest,
    wood_of,
)
from solver.units import (
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Grams,
    Ticks,
    Unit,
    format_mass,
    round_up,
    with_unit,
)

SIZES_TRIED = 64
"""Sizes tried for a mend, smallest first [-]."""
LIP_THICKNESS = 0.75 * MM_PER_INCH
"""Thickness of the lip that is proposed where there is none, 3/4 in [mm]."""

LIP_STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 8, "mm": 2 * TICKS_PER_MM}
THICKNESS_STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM}
"""Steps in which sizes are proposed [tick]."""

Keeps = Callable[[ShelfBeam], bool]


def mends(
    job: Job, case: Case, board: tuple[Ticks, Ticks, int], load: Grams, keeps: Keeps, most: Grams
) -> tuple[Mend, ...]:
    """Return what would let a shelf keep its limits.

    Parameters
    ----------
    job, case
        What it belongs to.
    board
        (clear span, depth [tick], index, 0 for the bottom board, which has no lip).
    load
        What stands on it [g].
    keeps
        Whether a beam in place of this one would keep them.
    most
        Most load spread evenly that this one may carry [g].
    """
    candidates = (
        _higher_lip(job, case, board, keeps),
        _thicker(job, case, board, keeps),
        _upright(job, case, board, load),
        _less_load(job, load, most),
    )
    return tuple(mend for mend in candidates if mend is not None)


def _higher_lip(job: Job, case: Case, sizes: tuple[Ticks, Ticks, int], keeps: Keeps) -> Mend | None:
    span, depth = millimetres(sizes[0]), millimetres(sizes[1])
    thick, now = thinnest(job, case.material), lip_of(job, case) if sizes[2] else None
    lip = now or LipSize(LIP_THICKNESS, 0.0, 0.0, UNKNOWN_WOOD)
    if depth <= lip.thickness:
        return None
    board, step = board_of(job, case.material), LIP_STEP[job.unit]
    up = thick + round(lip.above * TICKS_PER_MM)
    for high in _steps_over(up + round(lip.below * TICKS_PER_MM), step):
        tried = replace(lip, below=millimetres(high - up))
        if keeps(shelf_beam((span, depth, millimetres(thick)), board, tried)):
            what = "a higher lip" if now else "a lip"
            text = f"{what}, {with_unit(high, job.unit)} high in all, glued to the front edge"
            return Mend(what="lip", text=text, length=high)
    return None


def _thicker(job: Job, case: Case, sizes: tuple[Ticks, Ticks, int], keeps: Keeps) -> Mend | None:
    span, depth = millimetres(sizes[0]), millimetres(sizes[1])
    board, lip = board_of(job, case.material), lip_of(job, case) if sizes[2] else None
    for thick in _steps_over(thinnest(job, case.material), THICKNESS_STEP[job.unit]):
        if keeps(shelf_beam((span, depth, millimetres(thick)), board, lip)):
            text = f"a board at least {with_unit(thick, job.unit)} thick"
            return Mend(what="thickness", text=text, length=thick)
    return None


def _steps_over(over: Ticks, step: Ticks) -> range:
    """Return the sizes above `over` in whole steps, the least first [tick]."""
    first = round_up(over + 1, step)
    return range(first, first + SIZES_TRIED * step, step)


def _upright(job: Job, case: Case, sizes: tuple[Ticks, Ticks, int], load: Grams) -> Mend | None:
    """Propose two bays in place of one; to be safe, one half is to bear all that stands there."""
    half = (sizes[0] - thinnest(job, case.material)) // 2
    if half <= 0:
        return None
    shorter = beam_of_shelf(job, case, half, sizes[1], sizes[2])
    if min(shorter.carries(DISPLAY_FIRST), shorter.carries(DISPLAY_LONG)) < load:
        return None
    text = f"an upright at half the width: it then spans {with_unit(half, job.unit)}"
    return Mend(what="upright", text=text, length=half)


def _less_load(job: Job, load: Grams, most: Grams) -> Mend | None:
    if most <= 0:
        return None
    if most >= load:
        return Mend(
            what="less load",
            text="the same things spread evenly, heavy ones to the ends",
            mass=most,
        )
    return Mend(
        what="less load",
        text=f"not over {format_mass(most, job.unit)}, spread evenly",
        mass=most,
    )


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
    shelf = beam_of_shelf(job, case, width, depth, index)
    things = [_patch_load(item) for item in opening.items]
    first = shelf.under(things)
    display = min(shelf.carries(limit) for limit in DISPLAY)
    over = tuple(name for name, limit in _LIMITS if not _within(limit, shelf, things))
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


def _patch_load(item: Placement) -> tuple[float, float, float]:
    """(weight [N], from, to [mm]) of a thing as it stands."""
    return newtons(item.mass), millimetres(item.x), millimetres(item.x + item.width)


def _display_kept(things: Sequence[tuple[float, float, float]]) -> Callable[[ShelfBeam], bool]:
    return lambda shelf: all(_within(limit, shelf, things) for limit in DISPLAY)


def _within(
    limit: SagLimit, shelf: ShelfBeam, things: Sequence[tuple[float, float, float]]
) -> bool:
    """Whether a limit is kept, by the whole ticks that the plan shows."""
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
