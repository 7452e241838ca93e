"""Flutes, plinths and paint against what others have printed; the source stands beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.costing.finish_materials import millilitres
from solver.job.case_fittings import TrimOrder
from solver.trim.flutes import flutes
from solver.trim.moulding_pieces import trim_cuts
from solver.units import inches, mm
from tests.trims import CLASSICAL, trim_job

LITRES_PER_GALLON = Fraction("3.785411784")


def fluted(count: int) -> TrimOrder:
    found = trim_job("hung", {**CLASSICAL, "flutes": count}).cases[0].trim
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("width", "count", "flute"),
    [("3-1/2", 3, "1/2"), ("3-1/2", 4, "3/8")],
)
def test_flutes_as_published(width: str, count: int, flute: str) -> None:
    """Printed: woodweb.com, Flute Size and Spacing: a 3-1/2 in stile takes three 1/2 in or four
    3/8 in.
    """
    laid = flutes(fluted(count), inches(width), "in")
    assert laid is not None
    assert laid.flute == inches(flute)
    assert laid.space < laid.flute
    assert laid.margin == (
        inches(width) - count * inches(flute) - (count - 1) * laid.space
    ) // 2  # fmt: skip


def test_three_of_three_quarters_go_on_four_inches_as_published() -> None:
    """Printed on the same page: 4 in takes three 3/4 in. Our arithmetic: with 1/2 in between, 3/8
    in is left at each edge.
    """
    asked = fluted(3).model_copy(update={"flute": inches("3/4"), "flute_space": inches("1/2")})
    laid = flutes(asked, inches(4), "in")
    assert laid is not None
    assert laid.margin == (4 - 3 * 0.75 - 2 * 0.5) / 2 * inches(1)


def test_published_metric_plinth_front() -> None:
    """Printed: paperzz.com 7843242, Bookshelf (bronze level): an 800 mm case, plinth front
    850 = 800 + 2 x 25.
    """
    sticks = [{"length": 2400}]
    base = {"name": "base", "width": 105, "thickness": 25, "lengths": sticks}
    job = trim_job(
        "standing",
        {"baseboard": "base"},
        unit="mm",
        case={"width": 800, "height": 2000, "depth": 396, "raised_bottom": 105},
        doorway={"widths": [900], "heights": [2100], "jamb_depth": 120, "pin": {}},
        moulding=[base],
    )
    cuts = {cut.id: cut.length for cut in trim_cuts(job, job.cases[0], (2,), inches(6))}
    assert cuts["case/trim-base-front"] == mm(850)


@pytest.mark.parametrize(
    ("coats", "coverage", "gallons"),
    [(1, 200, Fraction(70, 200)), (2, 350, Fraction(140, 350)), (2, 400, Fraction(140, 400))],
)
def test_paint_by_the_published_coverage(coats: int, coverage: float, gallons: Fraction) -> None:
    """Printed: engineerfix.com, How Much Paint Do You Need for Cabinets: primer 200-300, topcoat
    350-400 ft2 a gallon, two coats, 10-15 % more. Worked from it: 70 ft2, with 15 %."""
    area = 70 * Fraction("0.3048") ** 2
    wanted = gallons * Fraction("1.15") * LITRES_PER_GALLON * 1000
    found = millilitres(area, coats, coverage, 0.15, "in")
    assert 0 <= found - wanted < 1
