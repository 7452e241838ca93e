"""Strength formulas against figures printed elsewhere; each test names its source.

Where a figure is known from memory only, the test's name ends in `from_memory`.
"""

from __future__ import annotations

from math import hypot

import pytest

from solver.carcass.boards_of_case import load_limit
from solver.job import boards
from solver.job.defaults import DEFAULTS
from solver.strength import cautions, fasteners, hinges, stability
from solver.strength.constants import MM_PER_INCH, MPA_PER_PSI, NEWTONS_PER_POUND
from solver.units import inches
from tests.builders import make_job


@pytest.mark.parametrize(
    ("gravity", "pounds"),
    [(0.35, 315), (0.42, 454), (0.55, 779), (0.62, 990), (0.63, 1021.9)],
)
def test_screw_withdrawal_is_that_of_the_wood_handbook(gravity: float, pounds: float) -> None:
    # quoted: FPL-GTR-282 (2021) Eq. 8-10b, 15,700 G2 D L; worked from it for a #8, 0.164 in by
    # ASME B18.6.1 as quoted by l-36.com, with 1 in of thread
    shank = fasteners.SCREWS["#8"].shank

    assert fasteners.withdrawal_ultimate(gravity, shank, 1.0) == pytest.approx(pounds, rel=0.005)


@pytest.mark.parametrize(
    ("size", "shank"),
    [("#6", 0.138), ("#8", 0.164), ("#10", 0.190), ("#12", 0.216), ("#14", 0.242)],
)
def test_every_screw_of_ours_holds_by_its_quoted_shank(size: str, shank: float) -> None:
    # quoted: ASME B18.6.1 sizes, l-36.com; worked from them by Eq. 8-10b in poplar, 1 in of thread
    held = fasteners.withdrawal_ultimate(0.42, fasteners.SCREWS[size].shank, 1.0)

    assert held == pytest.approx(15_700 * 0.42**2 * shank * 1.0)


def test_the_published_allowable_withdrawal_of_a_number_ten_is_met() -> None:
    # engineeringtoolbox.com, NDS form: G 0.45, #10 gives 109 lb per in (109.65 exactly)
    shank = fasteners.SCREWS["#10"].shank

    assert int(fasteners.withdrawal_allowable(0.45, shank, 1.0)) == 109


def test_the_allowable_load_is_a_fifth_and_a_half_of_the_ultimate() -> None:
    # NDS against Wood Handbook: 15,700 / 2,850 = 5.5
    ultimate = fasteners.withdrawal_ultimate(0.42, 0.164, 1.0)

    assert ultimate / fasteners.withdrawal_allowable(0.42, 0.164, 1.0) == pytest.approx(
        5.51, abs=0.01
    )


@pytest.mark.parametrize(
    ("weight", "arm", "spread", "printed"),
    [
        (400.0, 0.500, 2.00, 100),  # OpenStax University Physics vol. 1, Example 12.6
        (13.0 * 9.8, 0.65, 1.50, 55.2),  # giancolianswers.com chapter 9 problem 29
        (27 * 9.8, 0.455, 2.1 - 2 * 0.30, 80.3),  # coursehero.com 6255194 ch12-p031
        (120 * 9.81, 0.500, 1.540, 382),  # EN 1935 geometry, techgoggler.com
    ],
)
def test_the_four_printed_hinge_pulls_are_met(
    weight: float, arm: float, spread: float, printed: float
) -> None:
    assert hinges.pull(weight, arm, spread) == pytest.approx(printed, rel=0.005)


def test_the_pull_of_the_trade_notes_is_met() -> None:
    # 120 lb, 28 in wide, hinges 62 in apart: 27 lb; half the spread doubles it
    assert hinges.pull(120, 14, 62) == pytest.approx(27, abs=0.5)
    assert hinges.pull(120, 14, 31) == 2 * hinges.pull(120, 14, 62)


@pytest.mark.parametrize(
    ("height", "count"),
    [(48, 2), (60, 2), (61, 3), (78, 3), (80, 3), (90, 3), (91, 4), (96, 4), (120, 4)],
)
def test_hinges_are_counted_as_for_fire_doors(height: float, count: int) -> None:
    # NFPA 80 6.4 as quoted by flslock.com
    assert hinges.hinge_count(height) == count


def test_a_loaded_case_never_has_fewer_than_three_hinges() -> None:
    assert hinges.case_hinge_count(48) == 3
    assert hinges.case_hinge_count(91) == 4


@pytest.mark.parametrize(
    ("width", "leaf"), [(30, 4.5), (36, 4.5), (36.5, 5.0), (48, 5.0), (48.5, None)]
)
def test_leaf_heights_are_those_of_the_trade_table(width: float, leaf: float | None) -> None:
    # bigsurspiritgarden.com, doors of 1-3/4 in
    assert hinges.leaf_height(width) == leaf


def test_a_case_shaped_like_the_tested_door_asks_for_the_margin_alone() -> None:
    # EN 1935: 1000 mm wide, hinges 1540 mm apart, H = 0.3247 W
    assert hinges.rated_weight(60, 500, 1540, 2.0) == pytest.approx(2 * 60)
    assert hinges.rated_weight(60, 500, 770, 2.0) == pytest.approx(2 * 2 * 60)


@pytest.mark.parametrize(
    ("wood", "width", "change", "moved"),
    [
        ("yellow-poplar", 3.0, 4, 0.0347),
        ("sugar maple", 2.25, 4, 0.0318),
        ("eastern white pine", 3.5, 4, 0.0297),
        ("northern red oak", 6.0, 6, 0.133),
    ],
)
def test_flat_sawn_trim_moves_as_the_coefficients_say(
    wood: str, width: float, change: float, moved: float
) -> None:
    # Wood Handbook FPL-GTR-190 Table 13-5, worked by hand in the notes
    tangential = boards.MOVEMENT[wood][1]

    assert boards.movement(width, tangential, change) == pytest.approx(moved, rel=0.005)


@pytest.mark.parametrize(
    ("width", "coefficient", "change", "printed"),
    [
        (5, 0.00129, 3, 0.0194),  # mesquite, flooringartists.com dimensional-change
        (8, 0.0026, 6, 0.1248),  # red alder, pressreader.com Wood 2021
    ],
)
def test_printed_examples_of_movement_are_met(
    width: float, coefficient: float, change: float, printed: float
) -> None:
    assert boards.movement(width, coefficient, change) == pytest.approx(printed, rel=0.005)


def test_density_follows_from_specific_gravity_from_memory() -> None:
    # Wood Handbook ch. 4, from memory: 62.4 x 0.42 x 1.12
    assert boards.density_of(0.42) == pytest.approx(29.35, abs=0.01)


def test_tip_over_yardsticks_are_those_of_the_published_test() -> None:
    # ASTM F2057-23 as quoted in 88 FR 28408: 10 lb at most 56 in up, 60 lb, 0.43 in
    assert pytest.approx(10 * 4.448, rel=0.001) == stability.TEST_PULL
    assert pytest.approx(56 * 25.4) == stability.TEST_HEIGHT
    assert pytest.approx(60 * 4.448, rel=0.001) == stability.TEST_EDGE_LOAD
    assert pytest.approx(10.922) == stability.TEST_TILT


def test_the_plan_arm_counts_the_depth_of_a_case() -> None:
    assert hinges.plan_arm(14, 4.5) == hypot(14, 4.5)


def test_conversions_are_the_exact_ones() -> None:
    # pound 0.45359237 kg, inch 25.4 mm, standard gravity 9.80665 m/s2
    assert pytest.approx(4.4482216152605) == NEWTONS_PER_POUND
    assert pytest.approx(0.006894757293168) == MPA_PER_PSI
    assert MM_PER_INCH == 25.4


def test_sheets_weigh_what_the_trade_says_from_memory_for_mdf() -> None:
    # 4 x 8 ft, 3/4 in: softwood plywood 72 lb (APA, as quoted), MDF about 96 lb
    cubic_feet = 4 * 8 * 0.75 / 12

    assert boards.BOARDS["softwood plywood"].density * cubic_feet == pytest.approx(72)
    assert boards.BOARDS["mdf"].density * cubic_feet == pytest.approx(96)


def test_a_wall_case_that_a_cane_misses_is_told_at_the_published_sizes() -> None:
    # 2010 ADA 307.2 as quoted: over 27 in up, at most 4 in out
    assert (inches(27), inches(4)) == (cautions.CANE, cautions.PROJECTS_MOST)


def test_the_default_eye_level_lies_in_the_published_band() -> None:
    # MIL-STD-1472G App. B via NUREG-0700: 59.1 (5th percentile woman) to 69.1 in (95th man)
    (eye,) = [one for one in DEFAULTS if one.key == "eye_level"]

    assert 59.1 <= float(eye.inch) <= 69.1
    assert 59.1 * 25.4 <= float(eye.metric) <= 69.1 * 25.4


def test_the_accessible_way_is_the_published_one() -> None:
    # 2010 ADA 404.2.3, IRC R311.2 as quoted: 32 in clear, from the open leaf to the stop
    assert inches(32) == cautions.ACCESSIBLE


def test_lead_and_asbestos_go_by_the_published_years() -> None:
    # 40 CFR 745: homes built before 1978; EPA and OSHA: asbestos before 1980, as quoted
    assert (cautions.LEAD_YEAR, cautions.ASBESTOS_YEAR) == (1978, 1980)


def test_hinges_stand_where_the_trade_puts_them() -> None:
    # woodweb.com Hinge Placement Rules, engineerfix.com: 7 in down to the top hinge's top, 11 in
    # up to the bottom one's bottom, third midway; on an 80 in leaf with 4-1/2 in hinges
    leaf, high = inches("4-1/2"), inches(80)
    ends = [inches(7), high - inches(11) - leaf]

    tops = hinges.hinge_tops(None, inches(30), high)

    assert tops == [ends[0], sum(ends) // 2, ends[1]]


def test_screws_go_as_many_to_a_joint_as_practice_says_with_no_source() -> None:
    # common practice, no source: three to 10 in of depth, four to 14 in, 4 to 6 in apart
    assert [fasteners.screws_in_joint(depth) for depth in (6, 10, 12, 14)] == [3, 3, 4, 4]


def test_a_bare_case_weighs_what_practice_says_by_its_boards() -> None:
    # 3/4 hardwood plywood 2.3 lb/ft2, answersonweb.com; 1/4 softwood sheet 22 lb per 4 x 8 there
    plywood, softwood = (boards.BOARDS[f"{one} plywood"] for one in ("veneer-core", "softwood"))

    assert plywood.density * 0.75 / 12 == pytest.approx(2.3, rel=0.001)
    assert softwood.density * 0.25 / 12 * 32 == pytest.approx(22, rel=0.1)


def test_a_shelf_carries_forty_pounds_a_square_foot() -> None:
    """Printed: Architectural Woodwork Standards, 1st ed. (2009), section 10, 1.2.21.2.2,
    p. 253: 40 lb/ft2 for shelves other than of schools and libraries. Worked from it: 36 x 12 in
    is 3 square feet: 120 lb.
    """
    assert load_limit(make_job(), inches(36), inches(12)) == int(120 * 453.59237)


def test_no_shelf_carries_more_than_two_hundred_pounds() -> None:
    """Printed: the same, 1.2.21.2: at most 200 lb on a shelf. Worked from it: 72 x 12 in
    would be 240 lb.
    """
    assert load_limit(make_job(), inches(72), inches(12)) == int(200 * 453.59237)
