"""Flutes on a pilaster: how many, how wide, how far apart, the same from both edges.

As they are laid out symmetrically, the board can be turned end for end and two flutes cut at each
setting of the fence (woodweb.com Making_Fluted_Pilasters).
"""

from __future__ import annotations

from solver.job.case_fittings import TrimOrder
from solver.plan.trimming import FluteLayout
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

STEP: dict[Unit, Ticks] = {"in": TICKS_PER_INCH // 8, "mm": TICKS_PER_MM}
"""Flutes left to the program are whole eighths of an inch, or millimetres [tick]."""


def flute_width(width: Ticks, count: int, unit: Unit) -> Ticks:
    """Width of a flute on a board, width / (2 count + 1), rounded down [tick].

    Three on 3-1/2 in come out at 1/2 in and four at 3/8 in, as published
    (woodweb.com Flute_Size_and_Spacing).
    """
    step = STEP[unit]
    return max(width // (2 * count + 1) // step * step, step)


def flute_space(flute: Ticks, unit: Unit) -> Ticks:
    """Space between flutes, three quarters of a flute, rounded down: less than a flute [tick]."""
    return max(flute * 3 // 4 // STEP[unit] * STEP[unit], STEP[unit] // 2)


def margin(width: Ticks, count: int, flute: Ticks, space: Ticks) -> Ticks:
    """Flat at each edge, (width - m flute - (m - 1) space) / 2, rounded down [tick]."""
    return (width - count * flute - (count - 1) * space) // 2


def flutes(order: TrimOrder, width: Ticks, unit: Unit) -> FluteLayout | None:
    """Return the flutes of a board [tick]; None where none are asked for."""
    count = order.flutes
    if not count:
        return None
    flute = order.flute or flute_width(width, count, unit)
    space = order.flute_space or flute_space(flute, unit)
    flat = margin(width, count, flute, space)
    return FluteLayout(
        width=width,
        count=count,
        flute=flute,
        space=space,
        margin=flat,
        settings=tuple(flat + flute // 2 + k * (flute + space) for k in range((count + 1) // 2)),
        stop=order.flute_stop,
    )


def flutes_fault(order: TrimOrder, width: Ticks, unit: Unit) -> str | None:
    """Say why the flutes do not go on a board of that width [tick], and what would do."""
    laid = flutes(order, width, unit)
    if laid is None or laid.margin >= order.flute_margin:
        return None
    count, flute, space = laid.count, laid.flute, laid.space
    needs = count * flute + (count - 1) * space + 2 * order.flute_margin
    fits = (width - 2 * order.flute_margin + space) // (flute + space)
    room = width - 2 * order.flute_margin - (count - 1) * space
    narrower = room // count // (STEP[unit] // 2) * (STEP[unit] // 2)
    ways = [f"{fits} of them"] if fits > 0 else []
    ways += [f"flutes {with_unit(narrower, unit)} wide"] if narrower > 0 else []
    would = f"; {' or '.join(ways)} would do" if ways else "; a wider casing would do"
    return (
        f"{count} flutes of {with_unit(flute, unit)}, {count - 1} spaces of "
        f"{with_unit(space, unit)} and a flat of {with_unit(order.flute_margin, unit)} at each "
        f"edge need {with_unit(needs, unit)}; the casing is {with_unit(width, unit)} wide{would}"
    )
