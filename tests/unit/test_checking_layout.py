"""Rules of the checker that the good plan of two bays has no room for."""

from __future__ import annotations

import pytest

from solver.checking.check import check
from solver.checking.findings import Code
from solver.checking.heights_lines import Bays
from solver.checking.views import length_pair
from solver.job.case import SizeRange
from solver.plan.built import LinesApart, SharedLines
from solver.plan.plan import Plan
from tests.edits import both, in_job, in_option, more, put
from tests.mutations import BAY_1, BAY_2, BAYS, EMPTY, NOT_SHARED
from tests.mutations_cutting import Change
from tests.sample_plans import good_plan
from tests.two_bays_job import BAY, DEPTH, FLOORS, INSIDE_HEIGHT, INSIDE_WIDTH, MARK_1, T, mm


def codes(change: Change) -> set[Code]:
    return {finding.code for finding in check(change(good_plan()))}


def test_inside_sizes_ask_for_the_same_case() -> None:
    change = both(
        in_job("cases.0.sizes", "inside"),
        in_job("cases.0.width", mm(INSIDE_WIDTH)),
        in_job("cases.0.height", mm(INSIDE_HEIGHT)),
        in_job("cases.0.depth", mm(DEPTH - 6)),
    )

    assert codes(change) == set()


def test_a_depth_left_out_follows_from_the_deepest_thing() -> None:
    change = both(in_job("cases.0.depth", None), in_job("items.6.depth", mm(203.5)))

    # 203.5 mm and the 8 mm of the lip that stands up are 211.5 mm: 212 mm on the cutting
    # step; the lip is thicker than the front margin of 5 mm. The books as
    # they stand are not so deep.
    assert codes(change) == {Code.ITEMS_SIZE}
    assert codes(in_job("cases.0.depth", None)) == {Code.LAYOUT_DEPTH}


def test_the_wish_need_not_lie_on_the_cutting_step() -> None:
    step = in_job("shop.cutting_step", mm(5))

    assert codes(step) == set()
    assert (
        codes(both(step, in_job("cases.0.depth", SizeRange(least=mm(200), most=mm(DEPTH)))))
        == set()
    )


def test_a_case_without_back_is_as_deep_outside_as_inside() -> None:
    found = codes(in_job("cases.0.back", "none"))

    # The job's depths are then inside depths, and 218 mm may not be 212.
    assert {Code.LAYOUT_OUTSIDE_DEPTH, Code.PARTS_UNWANTED} <= found


@pytest.mark.parametrize(
    ("pitch", "good"),
    [(T + 289, True), (32, False)],
    ids=["both on holes", "the upper one between two holes"],
)
def test_pins_count_from_the_lowest_hole(pitch: int, good: bool) -> None:
    # The lower shelf lies on the lowest pins, the upper one 18 + 289 mm above it.
    pins = both(
        in_job("cases.0.fixing", "pins"),
        in_job("cases.0.first_hole", mm(MARK_1)),
        in_job("cases.0.pin_pitch", mm(pitch)),
    )

    assert (Code.LAYOUT_MARK not in codes(pins)) is good


def one_shelf(plan: Plan, line: int) -> Plan:
    """Leave bay 1 with one shelf, on lower line 1 or upper line 2, and nothing in it."""
    shelf = plan.options[0].cases[0].bays[0].shelves[line - 1]
    low, high = plan.options[0].cases[0].bays[0].openings[0], FLOORS[0] + INSIDE_HEIGHT
    lower = low.model_copy(
        update={"height": shelf.underside - low.floor, "items": (), "fill": 0.0, "load": 0}
    )
    upper = (
        plan.options[0]
        .cases[0]
        .bays[0]
        .openings[2]
        .model_copy(update={"index": 1, "floor": shelf.top, "height": mm(high) - shelf.top})
    )
    bay = {"shelves": (shelf.model_copy(update={"index": 1}),), "openings": (lower, upper)}
    for field, value in bay.items():
        plan = put(plan, f"options.0.{BAY_1}.{field}", value)
    return plan


@pytest.mark.parametrize("line", [1, 2])
def test_a_bay_with_fewer_shelves_may_use_any_of_the_lines(line: int) -> None:
    assert Code.LAYOUT_SHELF_LINES not in codes(lambda plan: one_shelf(plan, line))


def test_a_bay_with_fewer_shelves_uses_no_line_of_its_own() -> None:
    def change(plan: Plan) -> Plan:
        plan = one_shelf(plan, 1)
        return put(plan, f"options.0.{BAY_1}.shelves.0.top", more(1))

    assert Code.LAYOUT_SHELF_LINES in codes(change)
    assert Code.LAYOUT_SHELF_LINES not in codes(both(change, NOT_SHARED))
    own = both(in_job("look.share_lines", False), in_option("lines", ()))
    assert LINE_CODES.isdisjoint(codes(both(own, change)))
    assert Code.LAYOUT_LINE_GROUPS in codes(in_job("look.share_lines", False))


def beside(by: int, *, named: bool) -> Change:
    """A second case like the first, so much [tick] higher above the floor."""

    def change(plan: Plan) -> Plan:
        other = {"name": "annex", "beside": "hall" if named else None}
        plan = in_job("cases", lambda old: (*old, old[0].model_copy(update=other)))(plan)
        plan = in_job("cases.1.above_floor", more(by))(plan)
        twin = plan.options[0].cases[0].model_copy(update={"name": "annex"})
        plan = put(plan, "options.0.cases", lambda old: (*old, twin))
        return put(plan, "options.0.cases.1.above_floor", more(by))

    return change


ANNEX = (("annex", 1), ("annex", 2))
LINE_CODES = {
    Code.LAYOUT_LINE_GROUPS,
    Code.LAYOUT_LINES_APART,
    Code.LAYOUT_LINE_HEIGHTS,
    Code.LAYOUT_SHELF_LINES,
}


def line_codes(*changes: Change) -> set[Code]:
    return codes(both(*changes)) & LINE_CODES


def group_of(bays: Bays, higher: int = 0) -> SharedLines:
    """A group with the lines of the hall, or so much [tick] higher."""
    hall = good_plan().options[0].lines[0]
    return SharedLines(bays=bays, heights=tuple(height + higher for height in hall.heights))


def test_names_that_are_no_bays_are_findings() -> None:
    expected = {Code.LAYOUT_LINE_GROUPS, Code.LAYOUT_LINE_HEIGHTS}

    assert line_codes(in_option("lines.0.bays", ((), ()))) == expected
    one = group_of((BAYS[0],))
    two = one.model_copy(update={"bays": (("hall", None),)})
    assert Code.LAYOUT_LINE_GROUPS in line_codes(in_option("lines", (one, two)))


def test_neighbouring_cases_share_their_lines_above_the_floor() -> None:
    together = in_option("lines", (group_of((*BAYS, *ANNEX)),))

    assert line_codes(beside(0, named=True), together) == set()
    assert line_codes(beside(mm(1), named=True), together) == {Code.LAYOUT_SHELF_LINES}
    assert line_codes(beside(0, named=False), together) == {Code.LAYOUT_LINE_GROUPS}


def test_cases_whose_marks_never_meet_share_no_lines_and_that_is_said() -> None:
    # Marks on whole millimetres: a case that stands a tick higher has none of their heights.
    each = in_option("lines", (group_of(BAYS), group_of(ANNEX, 1)))
    said = in_option("lines_apart", (LinesApart(bays=ANNEX, because="marks"),))

    assert line_codes(beside(1, named=True), each, said) == set()
    assert line_codes(beside(1, named=True), each) == {Code.LAYOUT_LINES_APART}
    assert line_codes(beside(1, named=False), each) == set()
    only_hall = in_option("lines", (group_of(BAYS),))
    assert line_codes(beside(1, named=True), only_hall, said) == {Code.LAYOUT_LINE_GROUPS}


def test_common_lines_are_given_up_by_all_bays_or_by_none() -> None:
    given_up = [LinesApart(bays=bays, because="fit") for bays in (ANNEX, BAYS)]
    never = LinesApart(bays=ANNEX, because="marks")
    higher, alone = beside(1, named=True), in_option("lines", ())

    assert line_codes(higher, alone, in_option("lines_apart", (never, *given_up))) == set()
    one = both(higher, in_option("lines_apart", (never, given_up[0])))
    assert line_codes(one, alone) == {Code.LAYOUT_LINES_APART}
    still = in_option("lines", (group_of(BAYS),))
    assert Code.LAYOUT_LINE_GROUPS in line_codes(one, still)


def test_a_thing_is_lifted_over_the_lip_where_that_takes_more_than_headroom() -> None:
    # The mantel clock has 48 mm: lip above 5, lift, lip below 7.
    assert codes(in_job("look.lift", mm(48 - 5 - 7))) == set()
    assert codes(in_job("look.lift", mm(48 - 5 - 7) + 1)) == {Code.ITEMS_HEADROOM}


def test_a_lying_thing_may_change_height_with_width_or_with_depth() -> None:
    # 80 x 300 x 100 lies 300 x 80 x 100, or 80 x 100 x 300.
    size = {"width": mm(80), "height": mm(100), "depth": mm(300)}
    tin = f"{BAY_2}.openings.0.items.0"
    change = both(*(in_option(f"{tin}.{field}", value) for field, value in size.items()))

    assert Code.ITEMS_SIZE not in codes(change)
    assert Code.ITEMS_SIZE in codes(both(change, in_option(f"{tin}.lying", False)))


def test_books_of_two_kinds_keep_the_gap_of_the_look() -> None:
    def other_kind(plan: Plan) -> Plan:
        atlas = in_job("items", lambda old: (*old, old[6].model_copy(update={"name": "atlas"})))
        plan = both(atlas, in_job("items.6.count", 3), in_job("items.7.count", 1))(plan)
        plan = in_option(f"{BAY_2}.openings.2.items.4.item", "atlas")(plan)
        return in_option(f"{BAY_2}.openings.2.items.4.number", 1)(plan)

    assert codes(other_kind) == {Code.ITEMS_GAP}


def test_things_on_each_other_in_a_ring_are_found_and_do_not_hang_the_check() -> None:
    bowls = f"{BAY_1}.openings.1.items"

    found = codes(both(in_option(f"{bowls}.0.on", 3), in_option(f"{bowls}.1.on", 1)))

    assert Code.ITEMS_ON in found


def test_a_group_may_not_skip_an_opening() -> None:
    # Carriage clock in opening 2; the mantel clock is two below it once it is moved.
    def change(plan: Plan) -> Plan:
        clock = plan.options[0].cases[0].bays[1].openings[1].items[0]
        plan = put(plan, f"options.0.{BAY_2}.openings.1.items", lambda old: old[1:])
        return put(plan, f"options.0.{BAY_2}.openings.0.items", lambda old: (*old, clock))

    assert Code.ITEMS_GROUP in codes(change)


def test_a_case_of_unsound_build_is_reported_and_not_looked_into() -> None:
    change = both(in_option(f"{BAY_2}.number", 3), in_option(f"{EMPTY}.height", 1))

    assert codes(change) == {Code.LAYOUT_BAYS}


def test_a_joint_that_is_butted_adds_nothing_to_the_parts() -> None:
    found = codes(in_job("cases.0.joint", "butt"))

    assert found == {Code.PARTS_LENGTH, Code.PARTS_ALLOWANCE}


def test_a_board_without_grain_is_measured_along_its_longer_side() -> None:
    # The back is 997 mm high and 1251 mm wide and is listed as 1251 x 997.
    back = {part.id: part for part in good_plan().options[0].parts}["hall/back"]

    assert (back.length, back.width) == (mm(1251), mm(997))
    assert check(good_plan()) == ()


def test_a_back_that_no_sheet_yields_whole_is_cut_bay_by_bay() -> None:
    # With its grain upwards the back would lie 1251 mm across a sheet that is 1220 mm wide.
    found = check(in_job("sheets.1.grain", "length")(good_plan()))

    assert {f.code for f in found} == {Code.PARTS_MISSING, Code.PARTS_UNWANTED}


def test_lengths_that_print_alike_are_shown_exactly() -> None:
    assert length_pair(mm(18), mm(18) + 1, "mm") == ("18 mm", "18+ mm")
    assert length_pair(mm(18) + 1, mm(18) + 2, "mm") == ("18.003125 mm", "18.00625 mm")


def test_the_bays_of_the_good_plan_fill_its_width() -> None:
    assert T + BAY + T + BAY + T == INSIDE_WIDTH + 2 * T


@pytest.mark.parametrize(
    ("value", "bound", "proven", "good"),
    [
        (272.0, 272.0, True, True),
        (269.0, 269.0, True, True),  # 1/8 in may be given back
        (268.8, 268.8, True, False),
        (273.0, 273.0, True, False),  # proven, and yet bettered
        (300.0, 0.0, False, True),  # bettered by a later stage
        (300.0, 273.0, False, False),  # bettered beyond its bound
    ],
)
def test_the_rhythm_of_the_plan_is_that_of_its_stage(
    value: float, bound: float, proven: bool, good: bool
) -> None:
    stage = {"value": value, "bound": bound, "proven": proven}
    change = both(*(in_option(f"stages.3.{key}", new) for key, new in stage.items()))

    assert codes(change) == (set() if good else {Code.SCORES_RHYTHM_STAGE})


def test_two_places_of_a_kind_may_be_of_different_depth() -> None:
    # Figurine 3 stands alone in its place, further back than the fronts of the rear row.
    assert codes(in_option(f"{BAY_1}.openings.0.items.2.z", mm(8 + 50 + 12))) == set()
