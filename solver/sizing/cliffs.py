"""Cliffs: sizes at which one strip or one piece fewer comes out of a sheet or a stick."""

from __future__ import annotations

from itertools import pairwise

from solver.carcass.outline import boards_added, boards_around
from solver.job.case import Case
from solver.job.job import Job
from solver.sizing.axes import Axis, Grid
from solver.units import Ticks


def pieces_of(
    whole: Ticks, piece: Ticks, kerf: Ticks, *, trim: Ticks = 0, margin: Ticks = 0
) -> int:
    """Return how many pieces of a size come out of a side of a sheet, or of a stick [-].

    Parameters
    ----------
    whole, piece
        The side of the sheet, and what is wanted of each strip or piece [tick].
    kerf, trim, margin
        Width of a cut, lost at each end, slack kept with each piece [tick].
    """
    return max(0, (whole - 2 * trim + kerf) // (piece + margin + kerf))


def cliffs_of(grid: Grid) -> tuple[tuple[int, ...], ...]:
    """Return for each axis the indices of the values at which some count falls."""
    return tuple(_cliffs(grid, axis) for axis in grid.axes)


def _cliffs(grid: Grid, axis: Axis) -> tuple[int, ...]:
    counts = [_counts(grid, axis, value) for value in axis.values]
    return tuple(n for n, (a, b) in enumerate(pairwise(counts), start=1) if a != b)


def _counts(grid: Grid, axis: Axis, value: Ticks) -> tuple[int, ...]:
    """Return the counts of everything that is cut to a size: strips, boards, a back, lips."""
    job, shop = grid.job, grid.job.shop
    case = job.case(axis.case)
    made = {
        material: _cut_to(job, case, axis, value, len(grid.counts[case.name]), material)
        for material in dict.fromkeys((case.material, case.back))
    }
    return tuple(
        pieces_of(side, size, shop.kerf, trim=shop.edge_trim, margin=shop.margin)
        for sheet in job.sheets
        for size in made.get(sheet.material, ())
        for side in (sheet.length, sheet.width)
    )


def _cut_to(
    job: Job, case: Case, axis: Axis, value: Ticks, bays: int, material: str
) -> tuple[Ticks, ...]:
    """Return the sizes that parts of a material get from one size of the case [tick]."""
    t, side = job.thickness(case.material), 1 if axis.what == "height" else 0
    if axis.what == "depth":
        return (value,) if material == case.material else ()
    whole = value + boards_added(job, case)[side]
    inside = whole - boards_around(job, case)[side]
    if material != case.material:
        return (max(1, whole - case.back_inset),)
    dado = 2 * case.dado_depth
    if axis.what == "height":
        return (whole, inside + dado) if bays > 1 else (whole,)
    bay = (inside - (bays - 1) * t) // bays
    ends = dado if case.fixing == "fixed" else -case.pin_clearance
    return inside + dado, max(1, bay + ends)
