"""Published cases and tables of shelf spacing, worked through the case geometry and the planner.

Each test names its source. Sizes printed there are typed as printed; everything else is the sum
that they must give.
"""

from __future__ import annotations

from typing import Any

import pytest

from solver.carcass.boards_of_case import Box, box, case_parts
from solver.job.job import Job
from solver.outcome import Status
from solver.plan.plan import Option
from solver.plan.stocked import Part
from solver.planning.plan_job import plan_job
from solver.units import inches, mm, parse_length, round_down
from tests.builders import make_job


def inch_case(thickness: str, items: list[dict[str, Any]] | None = None, **case: Any) -> Job:
    """A case of one sheet material of that thickness, without a back unless one is asked for."""
    look = case.pop("look", {})
    sheets = [
        {"name": "board", "material": "board", "length": 200, "width": 60, "thickness": thickness},
        {"name": "thin", "material": "thin", "length": 120, "width": 60, "thickness": "1/8"},
    ]
    plain = {"material": "board", "back": "none", "depth": "12", **case}
    return make_job(case=plain, items=items, sheet=sheets, look=look)


def sizes(job: Job) -> Box:
    depth = job.cases[0].depth
    assert isinstance(depth, int)
    return box(job, job.cases[0], depth)


def parts(job: Job) -> dict[str, Part]:
    """Parts by id, without the case's name."""
    case = job.cases[0]
    found = case_parts(job, case, case.shelf_counts, sizes(job).depth)
    return {part.id.removeprefix(f"{case.name}/"): part for part in found}


def only_option(job: Job) -> Option:
    (option,) = plan_job(job).options
    return option


def clear_heights(option: Option) -> list[int]:
    (case,) = option.cases
    (bay,) = case.bays
    return [opening.height for opening in bay.openings]


def thing(width: str, height: str, name: str = "thing", count: int = 1) -> dict[str, Any]:
    return {"name": name, "width": width, "height": height, "depth": "4", "count": count,
            "weight": "1 lb"}  # fmt: skip


# --- Published cases ----------------------------------------------------------------------


def graduated_plywood_case(height: str = "54-3/4") -> Job:
    # Each of four things is too wide to share a shelf of 28-1/2 in.
    things = [thing("20", "15", "tall"), thing("20", "12", "short", count=3)]
    look = {"headroom": "0", "gap": "0", "end_margin": "0", "rhythm": "graduated"}
    return inch_case("3/4", things, width="30", height=height, shelves=3, look=look)


def test_graduated_plywood_case_has_the_published_sizes() -> None:
    """30 W x 54-3/4 H of 3/4 ply: bottom and shelves 28-1/2.

    home.howstuffworks.com/home-improvement/home-diy/furniture-restoration/how-to-build-furniture1.htm
    """
    job = graduated_plywood_case()
    assert parts(job)["bottom"].length == parts(job)["shelf-1"].length == inches("28-1/2")
    # There the top lies on sides of 54 in.; in the plain case it stands between longer ones.
    assert parts(job)["side-left"].length == inches(54) + inches("3/4")


def test_graduated_plywood_case_closes_at_54_inches() -> None:
    """Same source: 3/4 + 15 + 3/4 + 12 + 3/4 + 12 + 3/4 + 12 = 54, openings 15, 12, 12, 12."""
    option = only_option(graduated_plywood_case())
    openings = [inches(15), inches(12), inches(12), inches(12)]
    assert option.fits_all
    assert clear_heights(option) == openings
    assert sum(openings) + 4 * inches("3/4") == inches(54)
    assert option.cases[0].bays[0].shelves[-1].top + inches(12) == inches(54)


def test_graduated_plywood_case_has_no_sixteenth_to_spare() -> None:
    option = only_option(graduated_plywood_case(height="54-11/16"))
    assert option.status is Status.INFEASIBLE
    assert sum(one.count for one in option.left_out) == 1


def test_metric_case_with_pinned_shelves_has_the_published_sizes() -> None:
    """25 mm MDF, sides 2000: top and fixed shelf 750, four adjustable shelves of 748 x 385.

    paperzz.com/doc/7843242/bookshelf--bronze-level; outside 800 = 750 + 2 x 25.
    """
    sheet = {"name": "MDF 25", "material": "MDF 25", "length": 2400, "width": 1200,
             "thickness": 25, "grain": "any"}  # fmt: skip
    case = {"width": 800, "height": 2000, "depth": 385, "shelves": 4, "fixing": "pins",
            "back": "none"}  # fmt: skip
    found = parts(make_job(unit="mm", case=case, sheet=[sheet]))
    shelves = [part for name, part in found.items() if name.startswith("shelf-")]
    assert found["side-left"].length == mm(2000)
    assert (found["top"].length, found["top"].width) == (mm(750), mm(385))
    assert [(s.length, s.width) for s in shelves] == 4 * [(mm(748), mm(385))]


def test_one_sheet_hardwood_case_has_the_published_sizes() -> None:
    """Bottom and subtop 29, shelf 28-1/2 without end clearance, joints 1/4 deep.

    issuhub.com/view/index/5674?pageIndex=20
    """
    job = inch_case(
        "3/4", width="30", height="42-1/2", depth="10", shelves=1,
        joint="dado", dado="1/4", fixing="pins", pin_clearance="0",
    )  # fmt: skip
    assert sizes(job).inside_width == inches("28-1/2")
    assert parts(job)["bottom"].length == parts(job)["top"].length == inches(29)
    assert parts(job)["shelf-1"].length == inches("28-1/2")


def test_hung_magazine_case_has_the_published_shelf() -> None:
    """Opening 36: frame 35, shelf = frame - 2-5/8 = 32-3/8 with dadoes 3/8 deep in 3/4 sides.

    issuhub.com/view/index/12912?pageIndex=32 to 34; outside 33-1/8 = 32-3/8 + 2 x 3/8.
    """
    job = inch_case("3/4", width="33-1/8", height="78", depth="7", shelves=4,
                    joint="dado", dado="3/8")  # fmt: skip
    assert parts(job)["shelf-1"].length == inches(36 - 1) - inches("2-5/8") == inches("32-3/8")


def train_case(thickness: str, shelves: int) -> Job:
    look = {"headroom": "0", "clear_least": "4-1/2"}
    return inch_case(thickness, [thing("10", "4")], width="26-1/2", height="34", depth="4",
                     shelves=shelves, look=look)  # fmt: skip


def test_train_case_takes_five_shelves_and_not_six() -> None:
    """34 H, at least 4-1/2 between shelves of 3/4: six openings of 4.79 go, seven of 4.00 do not.

    toytrains1.com/display_case_construction.htm
    """
    assert only_option(train_case("3/4", 5)).fits_all
    none = only_option(train_case("3/4", 6))
    assert none.status is Status.INFEASIBLE
    assert none.cases == ()


def test_most_shelves_of_the_train_case_by_the_rule() -> None:
    """Most shelves = floor((inside + t) / (least clear + t)) - 1, same source."""
    job = train_case("3/4", 5)
    inside, t = sizes(job).inside_height, sizes(job).thickness
    assert inside == inches("32-1/2")
    assert (inside + t) // (inches("4-1/2") + t) - 1 == 5


def test_eight_openings_of_two_heights_leave_87_inches_of_96() -> None:
    """Nine 1 in. boards in 96: 4 x 12-1/2 + 4 x 9-1/4 = 87 (a home plan; plain arithmetic)."""
    things = [thing("20", "12-1/2", "tall", count=4), thing("20", "9-1/4", "short", count=4)]
    look = {"headroom": "0", "gap": "0", "end_margin": "0"}
    job = inch_case("1", things, width="30", height="96", shelves=7, look=look)
    assert sizes(job).inside_height - 7 * inches(1) == inches(87)
    option = only_option(job)
    assert option.fits_all
    assert sorted(clear_heights(option)) == 4 * [inches("9-1/4")] + 4 * [inches("12-1/2")]


@pytest.mark.parametrize(("width", "left_out"), [("31", 0), ("30-31/32", 1)])
def test_row_of_three_units_and_four_gaps(width: str, left_out: int) -> None:
    """Three 9-1/2 units + four 1/4 gaps = 29-1/2, with two 3/4 sides 31.

    familywoodworking.org/forums/showthread.php?9624-paperback-book-organizer-planning
    """
    look = {"gap": "1/4", "end_margin": "1/4"}
    job = inch_case("3/4", [thing("9-1/2", "8", count=3)], width=width, height="20", shelves=0,
                    look=look)  # fmt: skip
    assert sum(one.count for one in only_option(job).left_out) == left_out


# --- The rounding trap --------------------------------------------------------------------


def test_six_openings_rounded_one_by_one_lose_five_thirty_seconds() -> None:
    """Round the running positions, never the openings.

    Printed, jlconline.com/how-to/interiors/avoiding-accumulated-errors_o: the failure, built. Our
    arithmetic: what six openings of 11.901 in lose.
    """
    each = parse_length("11.901", "in")
    rounded = round_down(each, inches("1/16"))
    assert rounded == inches("11-7/8")
    assert abs(6 * (each - rounded) - inches("5/32")) <= inches("1/64")


def test_six_openings_marked_from_one_end_close_exactly() -> None:
    # 6 x 11.901 and five shelves of 3/4; no opening of it is a whole number of sixteenths.
    clear = 6 * parse_length("11.901", "in")
    height = f"{(clear + 7 * inches('3/4')) / 320} mm"
    look = {"rhythm": "even"}
    job = inch_case("3/4", [thing("10", "8")], width="30", height=height, shelves=5, look=look)
    option = only_option(job)
    found, bay = clear_heights(option), option.cases[0].bays[0]
    assert sum(found) == clear
    assert sum(found) + sum(shelf.thickness for shelf in bay.shelves) == bay.inside.height
    assert all(shelf.underside % inches("1/16") == 0 for shelf in bay.shelves)
    assert max(found) - min(found) <= inches("1/16")


# --- Spacing schemes: five openings, 75 in. of clear height -------------------------------


def five_openings(heights: list[str] | None = None, **look: Any) -> Option:
    """75 in. in five openings; `heights`: things that each need an opening of their own."""
    things = [thing("20", h, f"thing {i}") for i, h in enumerate(heights or ["8"])]
    wishes = {"headroom": "0", "rhythm": "even", **look}
    job = inch_case("3/4", things, width="30", height="79-1/2", shelves=4, look=wishes)
    assert sizes(job).inside_height - 4 * inches("3/4") == inches(75)
    return only_option(job)


def stage(option: Option, name: str) -> float | str | None:
    return {stage.name: stage.value for stage in option.stages}[name]


def test_even_openings_are_fifteen_inches_each() -> None:
    option = five_openings(rhythm="even")
    assert stage(option, "even") == 0
    assert clear_heights(option) == 5 * [inches(15)]


def test_steps_of_an_inch_and_a_half_fall_from_eighteen_to_twelve() -> None:
    """Step between openings: 98905.com/hobbies/furniture-making/114888.html."""
    option = five_openings(rhythm="graduated", step="1-1/2")
    assert stage(option, "graduated") == 0
    assert clear_heights(option) == [inches(h) for h in ("18", "16-1/2", "15", "13-1/2", "12")]


def test_symmetric_openings_mirror_about_the_middle_one() -> None:
    # Five things fill 75 in. to the last: 19 in the middle, the two pairs about it.
    option = five_openings(["13", "15", "19", "15", "13"], rhythm="symmetric")
    found = clear_heights(option)
    assert option.fits_all
    assert stage(option, "symmetric") == 0
    assert found == found[::-1]
    assert sorted(found) == [inches(h) for h in ("13", "13", "15", "15", "19")]
    assert found[2] == inches(19)


def test_pinned_openings_are_whole_pitches_less_a_shelf() -> None:
    """Grid: shelves on multiples of 32 mm, davelers.com/32mm/4988.html."""
    job = inch_case("18 mm", [thing("10", "8")], width="30", height="1500 mm", shelves=3,
                    fixing="pins")  # fmt: skip
    option = only_option(job)
    shelves = option.cases[0].bays[0].shelves
    assert all((shelf.underside - mm(96)) % mm(32) == 0 for shelf in shelves)
    assert all((height + mm(18)) % mm(32) == 0 for height in clear_heights(option)[1:-1])
