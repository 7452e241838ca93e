"""The back seen from behind, with the lines on which it is fastened to the boards before it.

Planted backs only. `x` runs from the left as one looks at the back from behind, so the case's right
side is on the left; heights are from the back's own lower end.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from cli.drawings.elevation import FIRST
from cli.drawings.fonts import printable
from cli.drawings.running import running
from cli.drawings.scene import Path, Scene, Shape, line, rectangle
from solver.built import CasePlan
from solver.front_boards import board_thickness, ceiling
from solver.plan import Option, Plan
from solver.strength.sheet import hanging_of
from solver.units import Ticks, to_mm, with_unit


def back_marking(plan: Plan, option: Option, case: CasePlan, scale: int) -> Scene:
    """Return the drawing of the back of a case that has one."""
    fixing = hanging_of(plan.job, option).of(case.name).back
    assert fixing is not None
    ordered = plan.job.case(case.name)
    low = ordered.back_inset // 2
    wide = case.outside.width - ordered.back_inset
    high = case.outside.height - ordered.back_inset
    shapes: list[Shape] = [
        rectangle((0.0, to_mm(wide)), (0.0, to_mm(high)), "outline", filled=True)
    ]
    shapes += [
        line((to_mm(x), 0.0), (to_mm(x), to_mm(high)), "outline")
        for x in _joints(option, case, low, wide)
    ]
    fixed = ordered.fixing == "fixed"
    shapes += [_moved(path, low, (wide, high)) for path in _lines(case, fixed=fixed)]
    ups = sorted({0, high, *(up - low for up in _heights(case, fixed=fixed))})
    across = sorted({0, wide, *(wide - (x - low) for x in _uprights(case))})
    shapes.append(running((0.0, 0.0), "y", -FIRST * scale, ups, plan.unit, scale))
    shapes.append(running((0.0, 0.0), "x", -FIRST * scale, across, plan.unit, scale))
    title = f"Marking out, {printable(case.name)}: back, from behind"
    note = (
        "Heights from the lower end of the back. Chain lines: glue and a fastener every"
        f" {with_unit(fixing.spacing, plan.unit)} at most, on the middle of each board."
    )
    return Scene("back", title, scale, tuple(shapes), note)


def _heights(case: CasePlan, *, fixed: bool) -> list[Ticks]:
    """Middles of bottom, top and fixed shelves above the bottom end of the sides [tick]."""
    t = board_thickness(case)
    ends = [case.bays[0].openings[0].floor - t // 2, ceiling(case.bays[0]) + t // 2]
    shelves = [s for bay in case.bays for s in bay.shelves if fixed]
    return ends + [(s.underside + s.top) // 2 for s in shelves]


def _uprights(case: CasePlan) -> list[Ticks]:
    """Middles of sides and uprights from the case's left side [tick]."""
    t = board_thickness(case)
    between = [(a.x + a.inside.width + b.x) // 2 for a, b in pairwise(case.bays)]
    return [t // 2, *between, case.outside.width - t // 2]


def _lines(case: CasePlan, *, fixed: bool) -> Iterator[Path]:
    """The lines of fasteners, seen from the front: x from the case's left side [mm]."""
    t, high = board_thickness(case), case.outside.height
    sides = 0, case.outside.width
    for at in (case.bays[0].openings[0].floor - t // 2, ceiling(case.bays[0]) + t // 2):
        yield line((to_mm(sides[0]), to_mm(at)), (to_mm(sides[1]), to_mm(at)), "fixing")
    for x in _uprights(case):
        yield line((to_mm(x), 0.0), (to_mm(x), to_mm(high)), "fixing")
    for bay in case.bays if fixed else ():
        for shelf in bay.shelves:
            y = to_mm((shelf.underside + shelf.top) // 2)
            yield line((to_mm(bay.x), y), (to_mm(bay.x + bay.inside.width), y), "fixing")


def _moved(path: Path, inset: Ticks, size: tuple[Ticks, Ticks]) -> Path:
    """Turn a line round to be seen from behind, and cut it off at the back's edges."""
    wide, high = map(to_mm, size)
    points = []
    for x, y in path.points:
        turned = wide - (x - to_mm(inset))
        points.append((min(max(turned, 0.0), wide), min(max(y - to_mm(inset), 0.0), high)))
    return Path(tuple(points), path.layer)


def _joints(option: Option, case: CasePlan, inset: Ticks, wide: Ticks) -> list[Ticks]:
    """Where pieces of the back meet, from the left as seen from behind [tick]."""
    pieces = [part for part in option.parts if part.case == case.name and part.name == "back"]
    if len(pieces) < 2:
        return []
    return [wide - (x - inset) for x in _uprights(case)[1:-1]]
