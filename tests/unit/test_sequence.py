"""The order of cuts: which saw makes each, and equal settings together."""

from __future__ import annotations

from typing import Any

from solver.checking.check import check_cut
from solver.plan.plan import CutPlan
from solver.plan.saw_cuts import Cut
from solver.units import inches
from tests.cutting_checks import problem
from tests.sequences import a_shop, cut_plan

KERF, TRIM = inches("1/8"), inches("1/4")
SHEET = inches(96), inches(48)


def planned(*parts: tuple[str, str, int], first: str = "rip", **shop: Any) -> CutPlan:
    """Parts as (length, width, quantity) in inches, on 8 x 4 ft sheets, rips first."""
    listed = [(inches(a), inches(b), n) for a, b, n in parts]
    rules: dict[str, Any] = {"edge_trim": TRIM, "margin": inches("1/32"), "first_cut": first}
    asked = problem(listed, SHEET, kerf=KERF, **rules)
    plan = cut_plan(asked, a_shop(asked, **shop))
    assert check_cut(plan) == ()
    return plan


def cuts(plan: CutPlan, kind: str = "") -> list[Cut]:
    """All cuts of all sheets, or those of one kind."""
    found = [cut for sheet in plan.sheets or () for cut in sheet.cuts]
    return [cut for cut in found if kind in ("", cut.kind)]


def settings_of(plan: CutPlan, guide: str) -> list[int]:
    """What a guide is set to, in the order of the work."""
    return [one.setting for one in plan.settings if one.guide == guide]


def test_strips_of_equal_width_on_all_sheets_are_ripped_with_one_fence_setting() -> None:
    plan = planned(("40", "11-1/2", 14))
    assert len(plan.sheets or ()) == 2
    assert settings_of(plan, "fence") == [inches("11-1/2")]
    assert settings_of(plan, "stop") == [inches(40)]


def test_a_setting_is_the_size_of_the_part_and_not_the_place_on_the_sheet() -> None:
    rips = cuts(planned(("40", "11-1/2", 8)), "rip")
    assert {cut.setting for cut in rips} == {inches("11-1/2")}
    first = rips[0]
    assert first.at == TRIM + inches("11-1/2") + inches("1/32")


def test_the_longest_parts_are_crosscut_first() -> None:
    plan = planned(("60", "11", 2), ("34", "11", 2), ("30", "11", 2), ("20", "11", 3))
    stops = settings_of(plan, "stop")
    assert stops == sorted(stops, reverse=True)
    assert stops[0] == inches(60)


def test_strips_too_wide_for_the_mitre_saw_are_crosscut_on_the_sled_once_short_enough() -> None:
    """95-3/4 in of strip is too long for a sled; the 55-5/8 in left after one part are not."""
    crosscuts = cuts(planned(("40", "13", 1), ("30", "13", 1)), "crosscut")
    assert [cut.guide for cut in crosscuts] == ["track", "sled"]
    wide = cuts(planned(("40", "13", 2), mitre_capacity=inches("13-1/2")), "crosscut")
    assert [cut.guide for cut in wide] == ["stop", "stop"]


def test_equal_parts_of_one_strip_are_cut_to_length_by_one_saw() -> None:
    crosscuts = cuts(planned(("40", "13", 2)), "crosscut")
    assert [cut.guide for cut in crosscuts] == ["track", "track"]


def test_a_strip_wider_than_mitre_saw_and_sled_is_crosscut_along_the_track() -> None:
    assert {c.guide for c in cuts(planned(("80", "30", 1)), "crosscut")} == {"track"}


def test_no_crosscut_is_made_against_the_rip_fence() -> None:
    plan = planned(("10", "30", 6), ("5", "6", 9), first="either")
    assert not [cut for cut in cuts(plan) if cut.guide == "fence" and cut.direction == "crosscut"]


def test_rips_longer_than_the_supports_allow_are_made_along_the_track() -> None:
    rips = cuts(planned(("40", "11-1/2", 6), longest_rip=inches(60)), "rip")
    assert {cut.saw for cut in rips} == {"guided saw"}


def test_a_sheet_too_large_to_lift_is_broken_down_along_the_track_first() -> None:
    plan = planned(("90", "11-1/2", 4), largest_panel=(inches(96), inches(30)))
    saws = [cut.saw for cut in cuts(plan, "rip")]
    assert saws == ["guided saw", "guided saw", "table saw", "table saw"]
    for cut in cuts(plan, "rip")[2:]:
        whole = cut.goes_on.width + KERF + cut.setting if cut.goes_on else cut.setting
        assert whole <= inches(30)


def test_on_site_a_whole_sheet_is_not_lifted_onto_a_bench_saw() -> None:
    rips = cuts(planned(("40", "11-1/2", 8), place="site"), "rip")
    assert "table saw" not in {cut.saw for cut in rips}


def test_the_yard_makes_the_first_cuts_of_all_sheets_before_anything_else() -> None:
    plan = planned(("40", "11-1/2", 14), saws=("panel saw", "mitre saw"))
    saws = [one.saw for one in plan.settings]
    yard = saws.count("panel saw")
    assert saws == ["panel saw"] * yard + ["mitre saw"] * (len(saws) - yard)
    assert {cut.panel for cut in cuts(plan) if cut.saw == "panel saw"} == {"sheet"}


def test_without_a_saw_for_whole_ends_each_strip_has_its_end_trimmed() -> None:
    plan = planned(("40", "11-1/2", 6), saws=("table saw", "mitre saw"))
    trims = cuts(plan, "trim")
    assert [cut.panel for cut in trims] == ["sheet", "A", "B", "C"]
    assert [cut.saw for cut in trims] == ["table saw", *["mitre saw"] * 3]


def test_a_fence_trims_an_edge_by_what_it_keeps_from_the_far_edge() -> None:
    first = cuts(planned(("40", "11-1/2", 2), saws=("table saw",)))[0]
    assert (first.kind, first.guide) == ("trim", "fence")
    assert first.setting == inches(48) - TRIM
    assert first.measured_from == "far factory edge"


def test_a_cut_that_no_saw_of_the_shop_makes_is_said_so() -> None:
    plan = planned(("40", "11-1/2", 2), saws=("mitre saw",))
    rips = cuts(plan, "rip")
    assert [cut.saw for cut in rips] == [None]
    assert all("no saw" in cut.cautions for cut in rips)


def test_a_rip_below_the_least_safe_width_leaves_the_fence() -> None:
    plan = planned(("40", "7/8", 2))
    narrow = [cut for cut in cuts(plan, "rip") if cut.setting == inches("7/8")]
    assert {cut.guide for cut in narrow} == {"track"}
    assert all("narrow" in cut.cautions for cut in narrow)


def test_short_pieces_are_not_run_along_the_fence() -> None:
    plan = planned(("10", "30", 1), ("10", "6", 4), first="crosscut")
    assert all(
        cut.guide != "fence" for cut in cuts(plan, "rip") if cut.end - cut.start < inches(11)
    )
    assert [cut for cut in cuts(plan, "rip") if cut.end - cut.start < inches(11)]


def test_offcuts_are_named_with_size_and_place_and_what_they_are_enough_for() -> None:
    (sheet,) = planned(("80", "11-1/2", 2)).sheets or ()
    first = sheet.offcuts[0]
    beside = 2 * (inches("11-1/2") + inches("1/32") + KERF)
    assert (first.name, first.x, first.y) == ("offcut 1", TRIM, TRIM + beside)
    assert first.width == inches(48) - TRIM - beside
    assert first.length == inches(96) - TRIM
    assert first.enough_for == "p0"


def test_leftovers_below_three_by_two_feet_are_waste() -> None:
    """Strips of 3 x 24 in are kept; 15 x 11-1/2 at the strips' ends is not."""
    (sheet,) = planned(("80", "15-1/4", 3)).sheets or ()
    assert sheet.offcuts == ()


def test_a_saw_that_stands_as_it_was_is_not_set_again() -> None:
    plan = planned(("40", "11-1/2", 4), ("40", "9", 1), ("40", "5", 1))
    again = [one for one in plan.settings if one.as_it_stands]
    before = {(one.saw, one.setting) for one in plan.settings if not one.as_it_stands}
    assert all((one.saw, one.setting) in before for one in again)


def test_what_is_left_is_what_the_settings_leave() -> None:
    plan = planned(("40", "11-1/2", 6))
    left = [cut.goes_on for cut in cuts(plan, "rip")]
    whole = inches(48) - TRIM
    widths = [whole - n * (inches("11-1/2") + KERF) for n in (1, 2, 3)]
    assert [panel.width for panel in left if panel] == widths
