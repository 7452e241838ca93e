"""Drawers that fall by one steady step, as cabinetmakers publish them, against the planner.

Drawers are openings without a thing to reach: only the wish for the fall sets them. Walker's rule
is *quoted*: seen as a reader of Popular Woodworking 176 (June 2009) told it
(lumberjocks.com/JeremyPringle/blog/25765); the article itself was not seen. The chest of four is
*quoted* from a copy of Becksvoort's Graduated Drawers
(furnituremaking.us/designing/graduated-drawers.html), whose fractions the copy garbles; they are
read by the sums that they stand in.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from solver.units import inches
from tests.builders import make_job

DIVIDER = inches("3/4")


def openings(clear: int, count: int, step: str) -> list[int]:
    """Clear heights that the planner gives a chest, from the lowest up [tick].

    `clear` is the height between bottom and top [tick], dividers and all; nothing in the chest
    asks for any height.
    """
    sheet = {"name": "board", "material": "board", "length": 96, "width": 48, "thickness": "3/4"}
    plain = {"material": "board", "back": "none", "depth": "12", "width": "30"}
    case = {**plain, "height": f"{(clear + 2 * DIVIDER) // inches('1/4')}/4", "shelves": count - 1}
    thing = {"name": "thing", "width": "2", "height": "2", "depth": "2", "count": count,
             "weight": "1 oz"}  # fmt: skip
    look = {"rhythm": "graduated", "step": step, "clear_least": "3"}
    job = make_job(case=case, items=[thing], sheet=[sheet], look=look)
    option: Option = plan_job(job).options[0]
    assert option.fits_all
    return [opening.height for opening in option.cases[0].bays[0].openings]


def test_each_drawer_is_lower_by_one_divider_as_walker_has_it() -> None:
    """Five drawers and four dividers: 4 + 1 + 2 + 3 + 4 = 14 thicknesses, the rest in five."""
    least = inches(5)
    clear = 5 * least + 14 * DIVIDER
    expected = [least + rank * DIVIDER for rank in (4, 3, 2, 1, 0)]
    assert sum(expected) + 4 * DIVIDER == clear
    assert openings(clear, 5, "3/4") == expected


def test_chest_of_four_drawers_has_the_published_heights() -> None:
    """27 in of drawers in four, 6-3/4 on average, 1 in steps: 7-1/4 below the middle, 8-1/4."""
    usable, step = inches(36) - inches(9), inches(1)
    average = usable // 4
    below = average + step // 2
    assert (average, below) == (inches("6-3/4"), inches("7-1/4"))
    expected = [below + step, below, below - step, below - 2 * step]
    assert sum(expected) == usable
    assert openings(usable + 3 * DIVIDER, 4, "1") == expected


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_steps_are_all_alike_wherever_the_rest_divides(count: int) -> None:
    step = inches("1/2")
    clear = count * inches(6) + step * count * (count - 1) // 2 + (count - 1) * DIVIDER
    heights = openings(clear, count, "1/2")
    assert {low - high for low, high in pairwise(heights)} == {step}
