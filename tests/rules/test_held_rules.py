"""The rules of held decisions: one layout that keeps them, and its nearest neighbour that cannot.

The case has boards of 1 in and 20 in clear inside, marks on whole inches; one shelf leaves 19 in
in two openings, two shelves leave 18 in in three. Nothing else takes room: no headroom, no gaps.
"""

from __future__ import annotations

from typing import Any

from solver.job.job import Job
from solver.layout.fit import NOTHING, fits_within
from solver.layout.layout_problem import EmptyHeld, ThingsHeld
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Status, Verdict
from solver.planning.plan_job import plan_job
from tests.builders import make_job


def job_of(items: list[dict[str, Any]], *, shelves: int = 1, **tables: Any) -> Job:
    """The case with things that have a width of 10 in, of the 20 in there are."""
    plain = {"headroom": "0", "gap": "0", "end_margin": "0", "clear_least": "2"}
    sheet = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "1"}
    size = {"width": "10", "depth": "5", "weight": "1 lb"}
    return make_job(
        case={"width": "22", "height": "22", "depth": "9", "shelves": shelves, "back": "none"},
        items=[{**size, **item} for item in items],
        sheet=[{**sheet, **tables.pop("sheet", {})}],
        look={**plain, **tables.pop("look", {})},
        job={"marking_step": "1 in"},
        **tables,
    )


def fits(job: Job) -> bool:
    """Whether everything fits with what is held, either way proven."""
    depths = {case.name: int(str(case.depth)) for case in job.cases}
    counts = {case.name: case.shelf_counts[:1] for case in job.cases}
    verdict = fits_within(build(job, counts, depths), NOTHING, Limits())
    assert verdict is not Verdict.UNSETTLED
    return verdict is Verdict.YES


def shelf_at(mark: str, shelf: int = 1) -> dict[str, Any]:
    return {"case": "case", "shelf": shelf, "mark": mark}


URN = {"name": "urn", "height": "12"}
CUP = {"name": "cup", "height": "6"}


def test_a_shelf_is_held_as_low_as_the_thing_below_the_other_board_allows() -> None:
    # The urn stands below a mark of 13 (12 in clear on the bottom board), or above one of 8:
    # 22 - 1 - (8 + 1) = 12. Between them there is no room for it on either side.
    assert fits(job_of([URN], hold=[shelf_at("13")]))
    assert not fits(job_of([URN], hold=[shelf_at("12")]))
    assert not fits(job_of([URN], hold=[shelf_at("9")]))
    assert fits(job_of([URN], hold=[shelf_at("8")]))


def test_two_shelves_are_held_no_nearer_than_the_least_opening_between_them() -> None:
    # A board of 1 in and 2 in clear: marks 3 in apart.
    both = [shelf_at("5", 1), shelf_at("8", 2)]
    assert fits(job_of([CUP], shelves=2, hold=both))
    nearer = [shelf_at("5", 1), shelf_at("7", 2)]
    assert not fits(job_of([CUP], shelves=2, hold=nearer))


def test_things_are_held_in_an_opening_that_takes_them_all() -> None:
    held = {"item": "cup", "opening": 1}
    assert fits(job_of([{**CUP, "count": 2}], hold=[held]))
    assert not fits(job_of([{**CUP, "count": 3}], hold=[held]))  # 3 x 10 in of 20 in
    assert fits(job_of([{**CUP, "count": 3}], hold=[{**held, "count": 2}]))


def test_things_are_held_only_where_the_opening_is_high_enough() -> None:
    # The shelf at 13 leaves 22 - 1 - 14 = 7 in above it.
    tall = {"name": "tall", "height": "7"}
    holds = [shelf_at("13"), {"item": "tall", "opening": 1}]
    assert fits(job_of([tall], hold=holds))
    assert not fits(job_of([{**tall, "height": "7-1/16"}], hold=holds))


def test_a_bay_that_is_named_is_the_one_that_is_meant() -> None:
    # Two bays of 9-1/2 in, one thing in each opening. Two cups go into opening 0 of both bays
    # together, but not of one.
    narrow = {"name": "cup", "height": "6", "width": "9", "count": 2}
    case = {"width": "22", "height": "22", "depth": "9", "shelves": 1, "back": "none"}
    sheet = {"name": "s", "material": "ply", "length": "96", "width": "48", "thickness": "1"}

    def held(**where: Any) -> bool:
        job = make_job(
            case={**case, "uprights": 1},
            items=[{**narrow, "depth": "5", "weight": "1 lb"}],
            sheet=[sheet],
            look={"headroom": "0", "gap": "0", "end_margin": "0", "clear_least": "2"},
            hold=[{"item": "cup", "opening": 0, **where}],
        )
        counts = {"case": (1, 1)}
        depth = {"case": int(str(job.cases[0].depth))}
        return fits_within(build(job, counts, depth), NOTHING, Limits()) is Verdict.YES

    assert held()
    assert not held(case="case", bay=2)


def test_a_shelf_of_a_count_that_is_not_there_cannot_be_held() -> None:
    job = job_of([CUP], shelves=2, hold=[shelf_at("13", 2)])
    depth = {"case": int(str(job.cases[0].depth))}
    assert fits_within(build(job, {"case": (1,)}, depth), NOTHING, Limits()) is Verdict.NO
    assert fits_within(build(job, {"case": (2,)}, depth), NOTHING, Limits()) is Verdict.YES


def test_an_opening_is_not_too_high_when_the_boards_turn_out_thin() -> None:
    # One shelf, boards of 3/4 to 1 in: with the thinnest the lower opening gains 1/4 in and
    # the upper one 2 x 1/4. 19 in are shared as 9 + 10, or 10 + 9.
    band = {"thickness": {"least": "3/4", "most": "1"}}
    assert fits(job_of([CUP], sheet=band, look={"clear_most": "10-1/4"}))  # 10-1/4 and 9-1/2
    assert not fits(job_of([CUP], sheet=band, look={"clear_most": "10-3/16"}))
    assert fits(job_of([CUP], look={"clear_most": "10"}))


def test_a_plan_from_nothing_keeps_what_the_job_holds() -> None:
    job = job_of(
        [{**CUP, "count": 2}, {"name": "bowl", "height": "3"}],
        shelves=2,
        hold=[shelf_at("9", 1), {"item": "bowl", "opening": 2}],
    )
    (option,) = plan_job(job).options
    (bay,) = option.cases[0].bays
    assert bay.shelves[0].underside == 9 * 8128
    assert "bowl" in {thing.item for thing in bay.openings[2].items}


def test_a_plan_from_nothing_says_which_held_decision_is_to_blame() -> None:
    (option,) = plan_job(job_of([URN], hold=[shelf_at("10")])).options
    assert option.status is Status.INFEASIBLE
    assert option.collision is not None
    assert option.collision.collides == ("urn, 12 in high and 0 in headroom",)
    assert (option.collision.below, option.collision.above) == (8 * 8128, 13 * 8128)
    assert option.collision.proven
    assert option.collision.least


def test_what_is_held_empty_takes_the_room_of_one_opening() -> None:
    # Four cups stand two by two in both openings; one of them kept empty leaves room for two.
    empty = {"case": "case", "opening": 1, "empty": True}
    assert fits(job_of([{**CUP, "count": 4}]))
    assert not fits(job_of([{**CUP, "count": 4}], hold=[empty]))
    assert fits(job_of([{**CUP, "count": 2}], hold=[empty]))


def test_an_opening_that_is_not_there_cannot_be_held_empty() -> None:
    empty = {"case": "case", "opening": 2, "empty": True}
    job = job_of([CUP], shelves=2, hold=[empty])
    assert fits(job)
    one_shelf = job.cases[0].model_copy(update={"shelves": 1})
    assert not fits(job.model_copy(update={"cases": (one_shelf,)}))


def test_what_an_empty_place_collides_with_is_told_and_what_could_be_empty() -> None:
    # The urn of 12 in stands below the shelf at 13, so that opening 0 cannot be empty.
    empty = {"case": "case", "opening": 0, "empty": True}
    plan = plan_job(job_of([URN], hold=[shelf_at("13"), empty]))
    (option,) = plan.options
    assert option.collision is not None
    assert option.collision.hold == "case: opening 0 left empty"
    assert [spot.opening for spot in option.collision.openings] == [1]
    assert option.collision.text.endswith("Openings that can be left empty: 1.")


def test_things_held_to_a_place_and_places_held_empty_are_data_of_the_problem() -> None:
    holds = [
        {"item": "cup", "opening": 1, "place": 2},
        {"case": "case", "opening": 0, "empty": True},
    ]
    job = job_of([{**CUP, "count": 3}], hold=holds)
    depth = int(str(job.cases[0].depth))
    held = build(job, {"case": (1,)}, {"case": depth}).holding.held
    assert held == (ThingsHeld(0, ((0, 1),), 1, 2), EmptyHeld(0, 0))
