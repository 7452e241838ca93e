"""What would let everything fit: each kind of change does, and a step less does not."""

from __future__ import annotations

import pytest

from solver.job.job import Job
from solver.plan.plan import Change
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM
from tests.near_jobs import changes_of, limits, one_step_less, planned_as, thing, tight_job

STEP = 10 * TICKS_PER_MM


def change(job: Job, what: str) -> Change:
    found = [one for one in changes_of(job) if one.what == what]
    assert found, f"no change of {what} among {[one.text for one in changes_of(job)]}"
    return found[0]


def fits(job: Job, one: Change, *, less: bool = False) -> bool:
    alters = one.alters
    if less:
        alters = (one_step_less(alters[0], STEP), *alters[1:])
    counts = {case.name: tuple(case.shelf_counts) for case in job.cases}
    return planned_as(job, alters, counts).options[0].fits_all


# One above the other, the shelf on a mark of 240: 240 - 18 = 222 clear below it, and above
# it 500 - 18 - 258 = 224. Things of 215 leave 7; with 20 over each the shelf must be at 260
# (215 + 20 + 18 = 253), and the case 260 + 18 + 235 + 18 = 531 high.
HIGH = tight_job(thing("urn", "300x215x100"), thing("vase", "300x215x100"))
# Side by side: 500 - 2 x 18 - 2 x 10 = 444 for three of 145 and two gaps of 10, 11 too little.
WIDE = tight_job(thing("clock", "145x150x100", 3), case={"shelves": 0})
SHORT_OF = 3 * 145 + 2 * 10 - 444
DEEP = tight_job(thing("bowl", "100x100x165"))


@pytest.mark.parametrize(
    ("job", "what", "least"),
    [
        (HIGH, "headroom", 20 - 7),
        (HIGH, "height", 531 - 500),
        (WIDE, "gap", SHORT_OF / 2),
        (WIDE, "end margin", SHORT_OF / 2),
        (WIDE, "width", SHORT_OF),
        (DEEP, "depth", 165 - 150),
    ],
    ids=["headroom", "height", "gap", "end margin", "width", "depth"],
)
def test_a_length_changes_by_the_fewest_steps_that_do(job: Job, what: str, least: float) -> None:
    one = change(job, what)

    assert one.by is not None
    assert one.by - STEP < least * TICKS_PER_MM <= one.by
    assert one.proven
    assert fits(job, one)
    assert not fits(job, one, less=True)


def test_one_shelf_more_is_told_where_that_is_enough_and_not_where_it_is_not() -> None:
    enough = tight_job(thing("cup", "200x90x100", 6), case={"shelves": 1})  # 3 openings of 2
    not_enough = tight_job(thing("cup", "200x190x100", 6), case={"shelves": 1})

    assert change(enough, "shelves").text == "1 shelf more"
    assert fits(enough, change(enough, "shelves"))
    assert "shelves" not in {one.what for one in changes_of(not_enough)}


def test_one_shelf_fewer_is_told_where_the_openings_are_too_low() -> None:
    job = tight_job(thing("urn", "200x400x100"), case={"shelves": 1})

    assert change(job, "shelves").text == "1 shelf fewer"
    assert fits(job, change(job, "shelves"))


def test_a_shelf_count_that_the_job_compares_anyhow_is_no_change() -> None:
    job = tight_job(thing("urn", "200x400x100"), case={"shelves": [0, 1]})
    options = {o.name: o for o in plan_job(job, limits(), near=False).options}

    assert options["0 shelves"].fits_all
    assert "shelves" not in {one.what for one in options["1 shelf"].changes}


def test_a_thing_that_is_too_high_may_lie_only_where_it_then_fits() -> None:
    # 500 - 2 x 18 - 20 = 444 high at most; 600 - 2 x 18 - 2 x 10 = 544 long at most
    case = {"shelves": 0, "width": "600"}
    lies = tight_job(thing("barometer", "80x540x100"), case=case)
    too_long = tight_job(thing("barometer", "80x550x160"), case=case)

    assert change(lies, "lying").text == "barometer may lie down"
    assert fits(lies, change(lies, "lying"))
    assert "lying" not in {one.what for one in changes_of(too_long)}


@pytest.mark.parametrize(("count", "high"), [(8, 2), (12, 3)])
def test_tins_are_stacked_as_high_as_needed_and_no_higher(count: int, high: int) -> None:
    # four go side by side: 4 x 100 + 3 x 10 = 430 of 444; 446 less headroom takes four of 100
    job = tight_job(thing("tin", "100x100x100", count), case={"shelves": 0})
    one = change(job, "stacking")

    assert one.alters[0].number == high
    assert one.proven
    assert fits(job, one)


def test_jars_stand_two_deep_where_the_shelf_takes_two() -> None:
    job = tight_job(thing("jar", "100x280x70", 8), case={"shelves": 0})
    one = change(job, "rows")

    assert one.alters[0].number == 2
    assert fits(job, one)


def test_where_no_single_length_does_two_do_together_and_neither_by_less() -> None:
    # too deep and too high: only both directions together help,
    # 165 - 150 = 15 deeper and 466 + 20 - 464 = 22 higher
    job = tight_job(thing("globe", "400x466x165"), case={"shelves": 0, "height": "500"})
    (first, *_) = changes_of(job)

    assert first.what == "several"
    assert {(one.what, one.by) for one in first.alters} == {
        ("depth", 2 * STEP),
        ("height", 3 * STEP),
    }
    assert first.proven
    assert fits(job, first)
    for at in range(2):
        less = list(first.alters)
        less[at] = one_step_less(less[at], STEP)
        assert not planned_as(job, less, {"case": (0,)}).options[0].fits_all


def test_what_is_left_out_is_as_few_as_can_be_and_then_what_loses_least() -> None:
    # an opening for one of them: the small one is left out, though the large one may be as well
    job = tight_job(
        thing("large", "300x200x100"), thing("small", "200x190x100"), case={"shelves": 0}
    )
    (one, *_) = [c for c in changes_of(job) if c.what == "leave out"]

    assert one.leaves == {"small": 1}
    assert one.proven
    assert one.text == "leave out 1 x small"


def test_the_smallest_change_comes_first() -> None:
    by = [one.by for one in changes_of(HIGH) if one.by is not None]

    assert len(by) > 1
    assert by == sorted(by)


def test_nothing_is_said_to_do_where_nothing_within_reason_does() -> None:
    job = tight_job(thing("whale", "2500x2500x2500"))

    assert [one.what for one in changes_of(job)] == ["leave out"]
