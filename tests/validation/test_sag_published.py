"""Sag of shelves against spans and stiffnesses printed elsewhere; each test names its source."""

from __future__ import annotations

import pytest

from solver.job import boards
from solver.strength import beams
from solver.strength.constants import STANDARD_GRAVITY

AWS_SPANS = (
    (950_000, 0.75, 40, 40),
    (950_000, 0.75, 50, 37),
    (950_000, 1.00, 40, 53),
    (950_000, 1.00, 50, 49),
    (1_800_000, 0.75, 40, 49),
    (1_800_000, 0.75, 50, 46),
    (1_800_000, 1.00, 40, 66),
    (1_800_000, 1.00, 50, 61),
    (1_820_000, 0.75, 40, 49),
    (1_820_000, 0.75, 50, 46),
    (1_820_000, 1.00, 40, 66),
    (1_820_000, 1.00, 50, 61),
)
"""Printed: Architectural Woodwork Standards, 1st ed. (2009), 4.4.14.10.11 (veneer core), .12 (with
hardwood faces) and .13 (solid red oak): E [psi], thickness [in], load [lb/ft2], longest shelf
[in]; the limit of L/144 beside them is printed in section 10, 1.2.21.3.1.1."""


def longest(modulus: float, thickness: float, load: float, breadth: float) -> float:
    """Longest shelf at L/144 under so many lb/ft2 [in]."""
    stiffness = modulus * beams.inertia(breadth, thickness)
    return beams.longest_span(load / 144 * breadth, stiffness, beams.INDUSTRY.ratio)


@pytest.mark.parametrize(("modulus", "thickness", "load", "printed"), AWS_SPANS)
@pytest.mark.parametrize("breadth", [7.0, 12.0])
def test_the_twelve_printed_span_limits_are_reproduced_whatever_the_depth(
    modulus: float, thickness: float, load: float, printed: float, breadth: float
) -> None:
    # whole inches are printed; the rows were checked to be within 0.72 in of theory
    assert abs(longest(modulus, thickness, load, breadth) - printed) < 0.75


@pytest.mark.parametrize(("thickness", "load", "printed"), [row[1:] for row in AWS_SPANS[8:]])
def test_a_shelf_of_our_red_oak_is_as_long_as_printed_for_solid_red_oak(
    thickness: float, load: float, printed: float
) -> None:
    oak = boards.BOARDS["northern red oak"].modulus

    assert abs(longest(oak, thickness, load, 12.0) - printed) < 0.75


def test_the_coefficient_of_an_even_load_is_that_of_the_wood_handbook() -> None:
    # Wood Handbook FPL-GTR-190 (2010), Table 9-1, p. 9-2: k_b 5/384, simply supported, at midspan
    assert beams.even_load_sag(384, 1, 1) == pytest.approx(5)


def test_years_double_the_sag() -> None:
    # Wood Handbook FPL-GTR-190 p. 5-38; AWC on NDS 3.5.2: 2.0, and 1.5 for seasoned lumber
    assert beams.long_term(0.1) == pytest.approx(0.1 + 0.1)


@pytest.mark.parametrize(("height", "times"), [(1, 1.13), (1.25, 1.42), (1.5, 1.91), (2, 3.72)])
@pytest.mark.parametrize("stands_up", [True, False])
def test_a_lip_stiffens_a_ten_inch_shelf_as_practice_says_standing_or_hanging(
    height: float, times: float, stands_up: bool
) -> None:
    # a 3/4 in strip on a 10 in shelf of 3/4 in, worked figures of the trade notes
    more = height - 0.75
    lip = (0.75, more if stands_up else 0.0, 0.0 if stands_up else more, 1.0)

    bonded = beams.stiffness(beams.shelf_strips((9.25, 0.75, 1.0), lip))

    assert bonded / beams.inertia(10, 0.75) == pytest.approx(times, abs=0.005)


def test_a_sheet_of_23_32_loses_12_per_cent_of_the_stiffness_of_three_quarters() -> None:
    # trade notes: "23/32 instead of 3/4 costs 12 % of stiffness"
    lost = 1 - beams.inertia(1, 23 / 32) / beams.inertia(1, 3 / 4)

    assert lost == pytest.approx(0.12, abs=0.001)


@pytest.mark.parametrize(
    ("panel", "low", "high"),
    [
        ("mdf", 0.52, 0.52),
        ("particleboard", 0.40, 0.60),
        ("osb", 0.64, 0.91),
        ("veneer-core plywood", 1.00, 1.24),
    ],
)
def test_a_panel_bears_a_span_within_the_printed_range_of_its_stiffness(
    panel: str, low: float, high: float
) -> None:
    # printed: Wood Handbook FPL-GTR-190 (2010), Table 12-1, modulus of elasticity [million psi];
    # plywood from 1.01 there, rounded down to 1.0
    span = longest(boards.BOARDS[panel].modulus, 0.75, 40, 12.0)

    assert longest(low * 1e6, 0.75, 40, 12.0) <= span <= longest(high * 1e6, 0.75, 40, 12.0)


def test_an_unknown_core_counts_as_half_of_veneer_core() -> None:
    # common practice, no source: half of veneer core, 1.0 million psi, where nobody knows the core;
    # printed: Wood Handbook FPL-GTR-190 (2010), Table 12-1: MDF 0.52, particleboard 0.40 and up
    assert longest(boards.UNKNOWN_BOARD.modulus, 0.75, 40, 12.0) == longest(0.5e6, 0.75, 40, 12.0)


def test_the_limits_are_those_named() -> None:
    # 0.02 in per foot is L/600, 1/32 in per foot L/384; AWS 1.2.21.3.1.1: L/144
    assert beams.DISPLAY_FIRST.allows(12) == pytest.approx(0.02)
    assert beams.DISPLAY_LONG.allows(12) == pytest.approx(1 / 32)
    assert beams.INDUSTRY.allows(144) == 1
    assert beams.DISPLAY_LONG.long_term
    assert not beams.DISPLAY_FIRST.long_term


def test_mdf_in_kilograms_gives_the_makers_metric_formula() -> None:
    # mdf-info.eu: 5 W L3 9.81 / (32 E b t3), W [kg], mm and N/mm2
    load, span, modulus, depth, thick = 20.0, 800.0, 3000.0, 250.0, 18.0
    printed = 5 * load * span**3 * 9.81 / (32 * modulus * depth * thick**3)

    ours = beams.even_load_sag(load * STANDARD_GRAVITY, span, modulus * beams.inertia(depth, thick))

    assert ours == pytest.approx(printed, rel=0.001)
