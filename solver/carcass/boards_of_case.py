"""The box of a case at one inside depth, its parts out of sheets, its lips, and load limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from solver.carcass.outline import back_thickness, boards_around, floor_height, outside_outline
from solver.job.case import Case
from solver.job.defaults import SHELF_LOAD_MOST_POUNDS, SHELF_LOAD_POUNDS_PER_SQUARE_FOOT
from solver.job.inventory import Item
from solver.job.job import Job, size_allowance
from solver.plan.stocked import Allowance, Part
from solver.units import GRAMS_PER_POUND, TICKS_PER_INCH, Grams, Ticks

SQUARE_FOOT = (12 * TICKS_PER_INCH) ** 2
"""Square ticks in a square foot."""


@dataclass(frozen=True)
class Box:
    """A case's sizes for one inside depth; all in ticks [tick].

    Attributes
    ----------
    outside_width, outside_height, outside_depth
        Overall sizes; the planted back is part of the depth [tick].
    inside_height
        Clear height from the bottom board to the top [tick].
    depth
        Inside depth, that of a finished shelf with its lip [tick].
    floor
        Upper face of the bottom board above the bottom end of the sides [tick].
    bays
        (x of the left inside face from the left outside, clear width) of each bay [tick].
    thickness, back
        Of the carcass boards, and of the back (0: none) [tick].
    """

    outside_width: Ticks
    outside_height: Ticks
    outside_depth: Ticks
    inside_height: Ticks
    depth: Ticks
    floor: Ticks
    bays: tuple[tuple[Ticks, Ticks], ...]
    thickness: Ticks
    back: Ticks

    @property
    def inside_width(self) -> Ticks:
        """Clear width between the sides, uprights included [tick]."""
        return self.outside_width - 2 * self.thickness


def box(job: Job, case: Case, depth: Ticks) -> Box:
    """Work out a case's sizes for one inside `depth` [tick]."""
    t, back = job.thickness(case.material), back_thickness(job, case)
    (width, height), (across, up) = outside_outline(job, case), boards_around(job, case)
    return Box(
        outside_width=width,
        outside_height=height,
        outside_depth=depth + back,
        inside_height=height - up,
        depth=depth,
        floor=floor_height(job, case),
        bays=_bays(width - across, t, case.bay_count),
        thickness=t,
        back=back,
    )


def _bays(inside: Ticks, t: Ticks, count: int) -> tuple[tuple[Ticks, Ticks], ...]:
    """Share the width between the sides equally; the last bay takes the few ticks left."""
    clear = inside - (count - 1) * t
    each = clear // count
    widths = [each] * (count - 1) + [clear - each * (count - 1)]
    return tuple((t + i * (each + t), width) for i, width in enumerate(widths))


def lip_sizes(job: Job, case: Case) -> tuple[Ticks, Ticks, Ticks]:
    """Return (thickness, above the shelf, below the shelf) of the lip, zeros without one [tick]."""
    if case.lip is None:
        return 0, 0, 0
    moulding = job.moulding(case.lip.moulding)
    below = moulding.width - job.thickness(case.material) - case.lip.above
    return moulding.thickness, case.lip.above, below


def load_limit(job: Job, width: Ticks, depth: Ticks) -> Grams:
    """Most load on a shelf of that clear width and depth [tick]: grams, rounded down [g].

    The job's `shelf_load`, else 40 lb/ft2 and never over 200 lb (Architectural
    Woodwork Standards 1st ed., section 10, 1.2.21.2). It is a limit on what is
    stood there, not a proof of strength: sag depends on span, thickness and material.
    """
    if job.look.shelf_load is not None:
        return job.look.shelf_load
    pounds = min(
        SHELF_LOAD_POUNDS_PER_SQUARE_FOOT * width * depth, SHELF_LOAD_MOST_POUNDS * SQUARE_FOOT
    )
    return int(pounds * GRAMS_PER_POUND / SQUARE_FOOT)


def mass_of(job: Job, item: Item) -> tuple[Grams, bool]:
    """Return (mass of one thing [g], whether assumed).

    Without a weight the standard shelf load on its footprint counts, rounded down so
    that a shelf filled with such things is never over its own limit; at least 1 g.
    """
    if item.weight is not None:
        return item.weight, False
    extra = size_allowance(job, item)
    area = (item.width + extra) * (item.depth + extra)
    pounds = SHELF_LOAD_POUNDS_PER_SQUARE_FOOT * area * GRAMS_PER_POUND / SQUARE_FOOT
    return max(1, int(pounds)), True


def case_parts(job: Job, case: Case, counts: Sequence[int], depth: Ticks) -> tuple[Part, ...]:
    """Return the sheet parts of a case with `counts` shelves in its bays, for one inside depth.

    Sides, then top and bottom, uprights, toe, shelves bay by bay from the lowest, back.
    Joint allowances are in the sizes and stated beside them.
    """
    sizes, dado = box(job, case, depth), case.dado_depth

    def part(ident: str, name: str, length: Ticks, width: Ticks, *extra: Allowance) -> Part:
        return _part(job, case, (ident, name), case.material, (length, width), extra)

    both = Allowance(what="dado", length=2 * dado)
    parts = [part(f"side-{s}", "side", sizes.outside_height, depth) for s in ("left", "right")]
    parts += [part(n, n, sizes.inside_width, depth, both) for n in ("top", "bottom")]
    parts += [
        part(f"upright-{i + 1}", "upright", sizes.inside_height, depth, both)
        for i in range(case.bay_count - 1)
    ]
    if case.raised_bottom:
        parts.append(part("toe", "toe", sizes.inside_width, case.raised_bottom))
    ends = (
        both
        if case.fixing == "fixed"
        else Allowance(what="pin clearance", length=-case.pin_clearance)
    )
    lip = Allowance(what="lip", length=0, width=-lip_sizes(job, case)[0])
    for bay, ((_, width), count) in enumerate(zip(sizes.bays, counts, strict=True), start=1):
        parts += [
            part(shelf_id(case, bay, k), "shelf", width, depth, ends, lip)
            for k in range(1, count + 1)
        ]
    return tuple(parts) + _back(job, case, sizes)


def shelf_id(case: Case, bay: int, index: int) -> str:
    """Return the id of a shelf's part within its case."""
    return f"shelf-{index}" if case.bay_count == 1 else f"bay-{bay}-shelf-{index}"


def _part(
    job: Job,
    case: Case,
    called: tuple[str, str],
    material: str,
    finished: tuple[Ticks, Ticks],
    allowances: Sequence[Allowance],
) -> Part:
    """Make a part of its finished (length, width); without grain the longer side is the length."""
    used = [a for a in allowances if a.length or a.width]
    length = finished[0] + sum(a.length for a in used)
    width = finished[1] + sum(a.width for a in used)
    grain = job.grain(material)
    if grain == "any" and width > length:
        length, width = width, length
        used = [Allowance(what=a.what, length=a.width, width=a.length) for a in used]
    return Part(
        id=f"{case.name}/{called[0]}",
        name=called[1],
        case=case.name,
        material=material,
        length=length,
        width=width,
        thickness=job.thickness(material),
        grain=grain,
        allowances=tuple(used),
    )


def _back(job: Job, case: Case, sizes: Box) -> tuple[Part, ...]:
    """The planted back: whole where a sheet is large enough, else a piece a bay."""
    if case.back == "none":
        return ()
    if case.bay_count > 1 and not fits_a_sheet(
        job,
        case.back,
        sizes.outside_height - case.back_inset,
        sizes.outside_width - case.back_inset,
    ):
        return _back_pieces(job, case, sizes)
    inset = Allowance(what="planted back inset", length=-case.back_inset, width=-case.back_inset)
    size = sizes.outside_height, sizes.outside_width
    return (_part(job, case, ("back", "back"), case.back, size, (inset,)),)


def _back_pieces(job: Job, case: Case, sizes: Box) -> tuple[Part, ...]:
    """One piece a bay; neighbours meet on the middle of the upright between them."""
    left, t = case.back_inset // 2, sizes.thickness
    joints = [x - t + t // 2 for x, _ in sizes.bays[1:]]
    edges = [left, *joints, sizes.outside_width - (case.back_inset - left)]
    inset = Allowance(what="planted back inset", length=-case.back_inset)
    return tuple(
        _part(
            job,
            case,
            (f"back-{i}", "back"),
            case.back,
            (sizes.outside_height, high - low),
            (inset,),
        )
        for i, (low, high) in enumerate(pairwise(edges), start=1)
    )


def fits_a_sheet(job: Job, material: str, length: Ticks, width: Ticks) -> bool:
    """Whether a piece [tick] comes out of a sheet of the material, trim and margin off."""
    lost = 2 * job.shop.edge_trim + job.shop.margin
    ways = [(length, width)] + ([(width, length)] if job.grain(material) == "any" else [])
    return any(
        a <= sheet.length - lost and b <= sheet.width - lost
        for sheet in job.sheets
        if sheet.material == material
        for a, b in ways
    )


def lip_pieces(job: Job, case: Case, counts: Sequence[int]) -> tuple[tuple[str, str, Ticks], ...]:
    """Return (part id, moulding name, length [tick]) of each shelf's lip."""
    if case.lip is None:
        return ()
    sizes = box(job, case, depth=1)
    clearance = case.pin_clearance if case.fixing == "pins" else 0
    return tuple(
        (
            f"{case.name}/lip-{shelf_id(case, bay, k).removeprefix('shelf-')}",
            case.lip.moulding,
            width - clearance,
        )
        for bay, ((_, width), count) in enumerate(zip(sizes.bays, counts, strict=True), start=1)
        for k in range(1, count + 1)
    )
