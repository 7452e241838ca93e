"""Cliffs: pieces from a side of a sheet or from a stick, and the sizes at which one is lost."""

from __future__ import annotations

import pytest

from solver.sizing.size_grid import Grid, axes_of, cliffs_of, pieces_per_side
from solver.units import inches
from tests.builders import make_job


def strips(width: str) -> int:
    """Strips from 48 in at 1/8 in kerf, 1/4 in off each factory edge, no margin."""
    return pieces_per_side(inches(48), inches(width), inches("1/8"), trim=inches("1/4"))


@pytest.mark.parametrize(
    ("count", "widest"),
    # (48 - 2 x 1/4 + 1/8) / count - 1/8, down to 1/16
    [(2, "23-11/16"), (3, "15-3/4"), (4, "11-3/4"), (5, "9-3/8"), (6, "7-13/16")],
)
def test_strips_per_sheet_fall_just_over_the_widest_that_gives_them(
    count: int, widest: str
) -> None:
    exact = (inches(48) - 2 * inches("1/4") + inches("1/8")) // count - inches("1/8")
    assert exact - inches("1/16") < inches(widest) <= exact
    assert strips(widest) == count
    assert pieces_per_side(inches(48), exact + 1, inches("1/8"), trim=inches("1/4")) == count - 1


def test_a_margin_is_kept_with_every_strip() -> None:
    # Four strips of 11-7/8 and three cuts of 1/8 are 47-7/8; a margin of 1/32 each makes 48.
    whole, strip, kerf = inches(48), inches("11-7/8"), inches("1/8")
    assert pieces_per_side(whole, strip, kerf, margin=inches("1/32")) == 4
    assert pieces_per_side(whole, strip, kerf, margin=inches("1/32") + 1) == 3


def test_eight_feet_give_three_pieces_of_31_inches_and_15_sixteenths() -> None:
    # 96 = 3 x 31-11/12 + 2 x 1/8: three of 31-7/8 come out, three of 31-15/16 do not.
    assert pieces_per_side(inches(96), inches("31-7/8"), inches("1/8")) == 3
    assert pieces_per_side(inches(96), inches("31-15/16"), inches("1/8")) == 2


def test_a_depth_axis_has_its_cliffs_where_a_strip_is_lost() -> None:
    sheet = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "3/4"}
    case = {"back": "none", "width": "30", "height": "60"}
    depth = {"least": "11", "most": "12", "wish": "12"}
    job = make_job(case={**case, "depth": depth}, sheet=[sheet], shop={"margin": "0"})
    grid = Grid(job, {"case": (3,)}, axes_of(job, {"case": (3,)}))
    (axis,) = grid.axes
    (cliffs,) = cliffs_of(grid)
    # four strips up to 11-25/32, so 11-13/16 is the first with three; along the length
    # seven of 13-1/2, eight of 11-13/16: (96 - 1/2 + 1/8) / 8 - 1/8 = 11-53/64
    assert [axis.values[n] for n in cliffs] == [inches("11-13/16"), inches("11-7/8")]
