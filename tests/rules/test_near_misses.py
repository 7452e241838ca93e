"""Near misses: each kind told where it is true, and not where it is not."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from solver.checking.check import check
from solver.job.case import SizeRange
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.slack_and_advice import NearMiss
from solver.planning.plan_job import plan_job
from solver.units import TICKS_PER_MM, inches, mm
from tests.near_jobs import limits, made, one_step_less, strip_job, thing, tight_job

# An opening takes two cups of 200 in 444: with 1 shelf 4 cups fit, with 0 shelves 2.
CUPS = tight_job(thing("cup", "200x90x100", 4))


def near(job: Job) -> tuple[NearMiss, ...]:
    plan = plan_job(job, limits())
    assert check(plan) == ()
    return plan.near


def with_shelves(found: Sequence[NearMiss], shelves: int) -> list[NearMiss]:
    return [one for one in found if one.shelf_counts == {"case": (shelves,)}]


def again(job: Job, one: NearMiss) -> Plan:
    return plan_job(made(job, one.alters, counts={"case": (1,)}), limits(), near=False)


def test_a_shelf_more_is_told_where_it_fits_with_nothing_changed() -> None:
    (one,) = with_shelves(near(CUPS), 2)

    assert one.gains == "more shelves"
    assert one.text == "1 shelf more"
    assert again(CUPS, one).options[0].fits_all


def test_a_shelf_fewer_is_not_told_where_things_then_find_no_place() -> None:
    assert with_shelves(near(CUPS), 0) == []


def test_a_shelf_fewer_is_told_where_it_fits() -> None:
    (one,) = with_shelves(near(tight_job(thing("cup", "200x90x100", 2))), 0)

    assert one.gains == "fewer shelves"
    assert one.saves == 0 or one.saves is None


def test_a_shelf_fewer_is_told_with_the_least_length_that_lets_everything_fit() -> None:
    # without a shelf 4 x 110 + 3 x 10 = 470 of the 500 - 2 x 18 - 2 x 10 = 444: 26 more width
    job = tight_job(thing("cup", "110x90x100", 4))
    found = with_shelves(near(job), 0)
    (one,) = [one for one in found if one.alters[-1].what == "width"]

    assert one.alters[-1].by == mm("30")
    assert one.smallest
    assert again(job, one).options[0].fits_all
    less = (*one.alters[:-1], one_step_less(one.alters[-1], 10 * TICKS_PER_MM))
    counts = {"case": (1,)}
    assert not plan_job(made(job, less, counts=counts), limits(), near=False).options[0].fits_all


def test_what_an_option_leaves_out_is_let_in_by_a_small_change() -> None:
    # two in each of two openings; with 2 shelves the marks are at 230 and 260 at best and leave
    # 482 - 278 = 204 for 190 + 20; with 10 over each they are at 220 and 250 and leave 214
    job = tight_job(
        thing("urn", "200x190x100", 4), case={"shelves": [1, 2]}, look={"clear_least": "10"}
    )
    plan = plan_job(job, limits())
    (two,) = [option for option in plan.options if option.shelf_counts == {"case": (2,)}]
    (one,) = [one for one in with_shelves(plan.near, 2) if one.alters[0].what == "headroom"]

    assert plan.options[0].shelf_counts == {"case": (1,)}
    assert one.gains == "lets in"
    assert one.lets_in == {"urn": two.left_out[0].count}
    assert one.alters[0].to == mm("10")
    after = made(job, one.alters, counts={"case": (2,)})
    assert plan_job(after, limits(), near=False).options[0].fits_all


def test_headroom_is_not_asked_for_by_more_than_half_of_it() -> None:
    # as above 2 x (190 + h) and an opening of 10 must go into 428 with marks on whole tens: h
    # of 10 does, 20 does not; from 20 that is a half of it, from 30 more than a half
    tight = [
        near(
            tight_job(
                thing("urn", "200x190x100", 4),
                case={"shelves": 1},
                look={"clear_least": "10", "headroom": headroom},
            )
        )
        for headroom in ("20", "30")
    ]
    asked = [[o for o in found if o.alters[-1].what == "headroom"] for found in tight]

    assert len(asked[0]) == 1
    assert asked[1] == []


def test_a_size_that_the_place_fixes_is_told_with_a_word_about_the_place() -> None:
    job = tight_job(thing("cup", "110x90x100", 4), case={"kind": "built-in"})
    (one,) = [o for o in with_shelves(near(job), 0) if o.alters[-1].what == "width"]

    assert one.alters[-1].note == "built in: measure the place first"
    assert "measure the place first" in one.text


@pytest.mark.parametrize(("door", "told"), [("530", True), ("529", False)])
def test_a_case_grows_no_wider_than_its_doorway(door: str, told: bool) -> None:
    # 26 mm are missing, so 30 in whole steps: 500 + 30 = 530, with no strip scribed to the walls
    job = tight_job(
        thing("cup", "110x90x100", 4),
        case={"kind": "built-in", "doorway": "alcove"},
        doorway=[{"name": "alcove", "widths": [door], "heights": ["2000"], "scribe": "0"}],
    )
    found = [o for o in with_shelves(near(job), 0) if o.alters[-1].what == "width"]

    assert bool(found) is told


def test_less_than_the_range_asked_for_is_told_as_such() -> None:
    job = strip_job(4, "12")
    depth = SizeRange(least=inches("12"), most=inches("13"))
    open_ = job.cases[0].model_copy(update={"depth": depth})
    (one, *_) = plan_job(job.model_copy(update={"cases": (open_,)}), limits()).near

    assert one.alters[0].to == inches("11-7/8")
    assert one.alters[0].note == "less than the 12 in asked for"


def test_a_saving_is_not_told_where_things_need_the_depth() -> None:
    deep = strip_job(4, "12")
    items = (deep.items[0].model_copy(update={"depth": inches("12") - deep.look.front_margin}),)
    plan = plan_job(deep.model_copy(update={"items": items}), limits())

    assert not [one for one in plan.near if one.alters[0].what == "depth"]


def test_where_there_is_none_it_is_said_what_is_proven() -> None:
    # two shelves leave 428: 2 x (200 + 20) and an opening of 50 are 62 more, and with half the
    # headroom still 42 more; without a shelf two do not go beside each other by far
    plan = plan_job(tight_job(thing("urn", "380x200x100", 2)), limits())

    assert plan.near == ()
    assert plan.near_note is not None
    assert plan.near_note.startswith("no near miss found within 50 mm; proven for")
    assert "a shelf fewer and a shelf more" in plan.near_note


def test_near_misses_are_left_off_where_they_are_not_wanted() -> None:
    plan = plan_job(CUPS, limits(), near=False)

    assert plan.near == ()
    assert plan.near_note is None


def test_the_same_job_gets_the_same_near_misses() -> None:
    job = strip_job(5, "9.625")

    assert plan_job(job, Limits(work=2)).near == plan_job(job, Limits(work=2)).near


def test_no_more_than_six_are_told_the_most_valuable_first() -> None:
    found = near(strip_job(6, "8"))

    assert 0 < len(found) <= 6
    saved = [one.saves or 0 for one in found if one.gains == "saves"]
    assert saved == sorted(saved, reverse=True)
    assert [one.gains for one in found[: len(saved)]] == ["saves"] * len(saved)
