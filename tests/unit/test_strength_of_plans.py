"""Strength of planned cases: mends that mend, hinges where they belong, figures, cautions."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.errors import CannotBeDoneError
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.built import Strength
from solver.plan.hanging import HangSheet
from solver.plan.plan import Option
from solver.planning.plan_job import plan_job
from solver.strength.cautions import cautions_of, refusals
from solver.strength.hang_sheet import hang_sheet
from solver.strength.hinges import hinge_tops, leaf_of
from solver.tradeoff.trade_off import trade_off
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, inches
from tests.builders import make_job
from tests.doorways import doorway

DOORWAY = {
    "name": "door",
    "widths": ["31"],
    "heights": ["80"],
    "hinge_side": "left",
    "swing": "out",
    "old_mortises": ["7-1/8", "65"],
    "mortise_height": "3-1/2",
}
HUNG = {
    "kind": "hung",
    "doorway": "door",
    "width": "28",
    "height": "78",
    "depth": "7",
    "shelves": 5,
    "above_floor": "3/4",
}


def hung_job(door: dict[str, Any] | None = None, **tables: Any) -> Job:
    jug = {"name": "jug", "width": "4", "height": "9", "depth": "4", "weight": "3 lb", "count": 6}
    return make_job(
        case={**HUNG, **tables.pop("case", {})},
        items=tables.pop("items", [jug]),
        doorway=[{**DOORWAY, **(door or {})}],
        **tables,
    )


_PLANNED: dict[str, Option] = {}


def planned(job: Job) -> Option:
    """The job's first option; strength needs no near misses, and no good cutting."""
    if job.hash not in _PLANNED:
        limits = Limits(seed=1, work=0.05, seconds=20)
        _PLANNED[job.hash] = plan_job(job, limits, near=False).options[0]
    return _PLANNED[job.hash]


def sheet_of(job: Job) -> HangSheet:
    option = planned(job)
    return hang_sheet(job, option, option.cases[0])


def strength_of(job: Job) -> Strength:
    found = planned(job).strength
    assert found is not None
    return found


def figures(sheet: HangSheet) -> dict[str, float]:
    return {one.key: one.value for one in sheet.figures}


def long_shelf(sheets: list[dict[str, Any]] | None = None, **case: Any) -> Job:
    """A shelf of 40 in with 20 lb on it, over the display limits."""
    stone = {"name": "stone", "width": "5", "height": "5", "depth": "5", "weight": "20 lb"}
    plain = {"width": "41-7/16", "height": "20", "depth": "8", "shelves": 1, "kind": "wall"}
    more: dict[str, Any] = {} if sheets is None else {"sheet": sheets}
    return make_job(case={**plain, **case}, items=[stone], **more)


def test_a_shelf_over_its_limits_says_what_mends_it() -> None:
    loaded = max(strength_of(long_shelf()).shelves, key=lambda one: one.load)

    assert loaded.over == ("display-first", "display-long")
    assert {mend.what for mend in loaded.mends} >= {"lip", "thickness", "less load"}


def test_a_board_as_thick_as_proposed_keeps_the_display_limits() -> None:
    loaded = max(strength_of(long_shelf()).shelves, key=lambda one: one.load)
    thick = next(mend.length for mend in loaded.mends if mend.what == "thickness")
    assert thick is not None

    def over(thickness: int) -> int:
        sheet = {"name": "s", "material": "m", "length": "96", "width": "48"}
        board = {**sheet, "thickness": f"{thickness / TICKS_PER_MM} mm"}
        back = {**sheet, "name": "b", "material": "b", "thickness": "1/4"}
        # the clear span stays 40 in
        wide = f"{(inches(40) + 2 * thickness) / TICKS_PER_MM} mm"
        job = long_shelf([board, back], material="m", back="b", width=wide)
        return len(max(strength_of(job).shelves, key=lambda one: one.load).over)

    assert over(thick) == 0
    assert over(thick - TICKS_PER_INCH // 32) > 0


def test_old_mortises_are_used_first_and_a_third_hinge_goes_between() -> None:
    sheet = sheet_of(hung_job())

    gap = inches("1/8")
    ends = [inches("7-1/8") - gap, inches(65) - gap]
    assert [one.old for one in sheet.hinges] == [True, False, True]
    assert [sheet.hinges[0].from_top, sheet.hinges[-1].from_top] == ends
    assert abs(sheet.hinges[1].from_top - sum(ends) // 2) <= inches(3)


def test_old_mortises_close_together_get_a_third_hinge_far_from_them() -> None:
    """Two within 13 in would leave the case hanging on 13 in: the third goes to the foot."""
    sheet = sheet_of(hung_job({"old_mortises": ["7", "20"]}))

    gap, foot = inches("1/8"), inches(78) - inches(11) - inches("3-1/2")
    assert [one.old for one in sheet.hinges] == [True, True, False]
    assert [one.from_top for one in sheet.hinges[:2]] == [inches(7) - gap, inches(20) - gap]
    assert abs(sheet.hinges[2].from_top - foot) <= inches(3)


def test_a_new_hinge_moves_clear_of_a_shelf_and_an_old_mortise_stays() -> None:
    """A hinge 3-1/2 in high with an inch on either side goes into the openings of 10 in."""
    new, old = sheet_of(hung_job({"old_mortises": []})), sheet_of(hung_job())

    assert not any(one.near_shelf for one in new.hinges)
    usual = (inches(7), inches(78) - inches(11) - inches("3-1/2"))
    assert all(
        abs(one.from_top - at) <= inches(3)
        for one, at in zip((new.hinges[0], new.hinges[-1]), usual, strict=True)
    )
    assert old.hinges[0].from_top == inches("7-1/8") - inches("1/8")


@given(
    marks=st.lists(st.integers(2, 90), max_size=5),
    high=st.integers(9, 96),
    leaf=st.sampled_from(["2", "3-1/2", "5"]),
)
def test_hinges_never_overlap_and_lie_on_the_case(marks: list[int], high: int, leaf: str) -> None:
    spaced = [str(one) for one in sorted(set(marks)) if one % 6 == 0]
    door = doorway(heights=["100"], old_mortises=spaced, mortise_height=leaf)
    tops = hinge_tops(door, inches(28), inches(high))
    own = leaf_of(door, inches(28), inches(high))

    assert len(tops) >= 3
    assert tops[0] >= 0
    assert tops[-1] + own <= inches(high)
    assert all(below - above >= own for above, below in pairwise(tops))


def test_without_mortises_hinges_go_seven_inches_down_and_eleven_up() -> None:
    door = doorway(heights=["80"], mortise_height="3-1/2")
    tops = hinge_tops(door, inches(28), inches(78))

    # leaf 3-1/2 in high, case 78 in
    assert tops[0] == inches(7)
    assert tops[-1] == inches(78) - inches(11) - inches("3-1/2")
    assert len(tops) == 3


def test_the_pull_grows_with_what_stands_in_the_case_and_with_somebody_hanging_on_it() -> None:
    found = figures(sheet_of(hung_job()))

    assert found["pull-empty"] < found["pull-loaded"] < found["pull-full"]
    assert found["abuse"] > found["pull-loaded"]


def test_the_abuse_load_is_the_users() -> None:
    light = figures(sheet_of(hung_job(site={"abuse_load": "60 lb"})))
    heavy = figures(sheet_of(hung_job(site={"abuse_load": "120 lb"})))

    more = heavy["abuse"] - light["abuse"]
    assert more == pytest.approx(light["abuse"] - light["pull-loaded"], rel=0.001)


def test_a_missing_weight_counts_as_the_standard_load_and_is_named() -> None:
    bare = {"name": "urn", "width": "6", "height": "8", "depth": "6"}
    sheet = sheet_of(hung_job(items=[bare]))

    # 6 x 6 in at 40 lb/ft2 is 10 lb
    assert sheet.assumed == ("urn",)
    assert sheet.contents == pytest.approx(10 * 453.59237, abs=1)


def test_guessed_sizes_are_told_apart() -> None:
    jug = {"name": "jug", "width": "4", "height": "9", "depth": "4", "weight": "3 lb"}
    sheet = sheet_of(hung_job(items=[jug, {**jug, "name": "vase", "guessed": True}]))

    assert sheet.guessed == ("vase",)


def test_every_figure_has_formula_numbers_and_source() -> None:
    for job in (hung_job(), long_shelf(), long_shelf(kind="standing"), long_shelf(kind="built-in")):
        for one in sheet_of(job).figures:
            assert one.formula, one.key
            assert one.numbers, one.key
            assert one.source, one.key


def test_a_hung_case_without_a_back_is_told_that_it_needs_one() -> None:
    sheet = sheet_of(hung_job(case={"back": "none"}))

    assert next(one.ok for one in sheet.figures if one.key == "back") is False


def test_limit_stop_catch_and_bumper_are_on_the_list() -> None:
    words = " ".join(sheet_of(hung_job()).to_get)

    assert all(word in words for word in ("limit stop", "catches", "bumper", "load rating"))


def test_a_hung_box_of_that_size_weighs_what_practice_says() -> None:
    # 28 x 78 x 9 in bare: 54 to 66 lb, worked figure of the trade notes; plywood at 2.3 lb/ft2
    boards = {"plywood 3/4": "veneer-core plywood", "plywood 1/4": "veneer-core plywood"}
    sheet = sheet_of(hung_job(case={"depth": "9"}, site={"boards": boards}))

    assert 54 <= sheet.empty / 453.59237 <= 66


REFUSED = [
    ({"appliance": "yes", "louvred": "yes"}, "combustion-air"),
    ({"appliance": "unknown", "louvred": "yes"}, "combustion-air"),
    ({"return_air": "yes"}, "return-air"),
    ({"entered": "yes"}, "opens-inside"),
    ({"exit": "yes"}, "exit"),
    ({"fire_door": "yes"}, "fire-door"),
]


@pytest.mark.parametrize(("did", "key"), REFUSED)
def test_what_the_old_door_did_may_forbid_the_case(did: dict[str, str], key: str) -> None:
    job = hung_job({"old_door": did})

    assert [one.key for one in refusals(job)] == [key]
    with pytest.raises(CannotBeDoneError, match="not planned"):
        plan_job(job)
    with pytest.raises(CannotBeDoneError, match="not planned"):
        trade_off(job)


@pytest.mark.parametrize(
    ("did", "site"),
    [
        ({"appliance": "yes", "louvred": "yes"}, {"air": "grille over the door, by the fitter"}),
        ({"return_air": "yes"}, {"air": "grille over the door, by the fitter"}),
        ({"entered": "yes"}, {"opens_inside": True}),
        ({"exit": "yes", "cleared_by": "the building office"}, {}),
        ({"fire_door": "yes", "cleared_by": "the building office"}, {}),
    ],
)
def test_what_is_provided_or_cleared_is_planned(did: dict[str, str], site: dict[str, Any]) -> None:
    assert refusals(hung_job({"old_door": did}, site=site)) == ()


def keys(job: Job) -> set[str]:
    return {one.key for one in cautions_of(job, planned(job))}


def test_cautions_are_chosen_by_the_job() -> None:
    old = hung_job(job={"house_built": 1931}, site={"country": "US", "glass": "ordinary"})
    new = hung_job(job={"house_built": 2015}, site={"country": "DE", "children": False})

    assert {"asbestos", "glass", "pinch", "swinging", "not-asked"} <= keys(old)
    assert "country" in keys(new)
    assert keys(new).isdisjoint({"asbestos", "glass", "swinging"})


def test_a_panel_behind_is_cautioned_about() -> None:
    assert "panel" in keys(hung_job({"old_door": {"panel": "yes"}}))


def test_what_the_old_door_did_is_cautioned_about_and_what_nobody_knows_is_named() -> None:
    did = {"switch": "yes", "privacy": "yes", "shut_off": "yes", "exit": "unknown"}
    job = hung_job({"old_door": did})
    said = {one.key: one.text for one in cautions_of(job, planned(job))}

    assert {"switch", "privacy", "shut-off", "not-known"} <= said.keys()
    assert "exit" in said["not-known"]
    assert "not-asked" not in said


def test_saws_and_old_paint_are_cautioned_about_by_the_year_and_kind() -> None:
    assert {"saws", "lead-paint"} <= keys(hung_job(job={"house_built": 1931}))
    assert "lead-paint" not in keys(hung_job(job={"house_built": 1985}))


def test_top_heavy_things_on_a_moving_case_are_named() -> None:
    tall = {"name": "tall vase", "width": "3", "height": "12", "depth": "3", "weight": "2 lb"}
    job = hung_job(items=[tall])

    texts = [one.text for one in cautions_of(job, planned(job)) if one.key == "top-heavy"]
    assert len(texts) == 1
    assert "tall vase" in texts[0]


def test_every_caution_names_its_source() -> None:
    job = hung_job({"old_door": {"panel": "yes", "shut_off": "yes"}}, site={"earthquakes": True})

    assert all(one.source for one in cautions_of(job, planned(job)))
