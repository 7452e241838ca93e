"""The calendar: shortest by trying everything, nobody in two places, nothing too early."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

import pytest

from solver.plan.work import Calendar, Step
from solver.work.calendar import calendar, order_of_work
from solver.work.critical_path import Clock, within_a_day
from solver.work.schedule import least_finish, list_schedule, solve
from tests.networks import drawn, shortest, step
from tests.priced import KINDS, option_of_kind, plan_of_kind

CLOCK = Clock(240)


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("seed", range(8))
def test_the_shortest_of_every_order_is_found_and_proven(seed: int, people: int) -> None:
    steps = drawn(seed, 5)
    found, bound = solve(steps, people, CLOCK)
    assert found.finish == bound == shortest(steps, people, CLOCK)


def test_minutes_of_a_step_round_up() -> None:
    """Half a minute more is a minute more; whole minutes stay."""
    half = step("lip", 10).works[0].model_copy(update={"minutes": Decimal("2.5")})
    one = step("lip", 10)
    assert one.minutes == 10
    assert one.model_copy(update={"works": (*one.works, half)}).minutes == 13


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("seed", range(8))
def test_the_bound_is_never_over_the_shortest_of_every_order(seed: int, people: int) -> None:
    steps = drawn(seed, 5)
    assert least_finish(steps, people, CLOCK, 10_000) <= shortest(steps, people, CLOCK)


def test_the_bound_counts_the_work_between_two_times() -> None:
    steps = [step("first", 60), *(step(f"s{n}", 50, "first") for n in range(3))]
    steps.append(step("last", 30, "s0", "s1", "s2"))
    assert least_finish(steps, 1, CLOCK, 1000) == 60 + 3 * 50 + 30
    assert least_finish(steps, 2, CLOCK, 1000) == 60 + 3 * 50 // 2 + 30
    assert least_finish(steps, 3, CLOCK, 1000) == 60 + 50 + 30


def wrong(steps: list[Step], made: Calendar, clock: Clock) -> list[str]:
    """Say what a calendar does that cannot be done."""
    by_key = {one.key: one for one in steps}
    placed = {one.step: one for one in made.placed}
    found = []
    for one in made.placed:
        found += [
            f"{one.step} before {after.step}"
            for after in by_key[one.step].after
            if one.start < clock.ready(placed[after.step].end, after.wait)
        ]
        minutes = one.end - one.start
        if within_a_day(one.start, by_key[one.step], minutes, clock) != one.start:
            found.append(f"{one.step} over a night")
        if minutes * len(one.persons) < by_key[one.step].minutes:
            found.append(f"{one.step} too short")
    busy = Counter(
        (person, minute)
        for one in made.placed
        for person in one.persons
        for minute in range(one.start, one.end)
    )
    found += [f"person {person} twice" for (person, _), count in busy.items() if count > 1]
    return found


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("seed", range(100, 108))
def test_a_calendar_can_be_kept(seed: int, people: int) -> None:
    steps = drawn(seed, 9)
    assert wrong(steps, calendar(steps, people, CLOCK), CLOCK) == []


def test_a_calendar_that_cannot_be_kept_is_found() -> None:
    steps = [step("a", 60), step("b", 60, ("a", 30))]
    made = calendar(steps, 1, CLOCK)
    early = made.placed[1].model_copy(update={"start": 70, "end": 130})
    moved = made.model_copy(update={"placed": (made.placed[0], early)})
    assert wrong(steps, made, CLOCK) == []
    assert wrong(steps, moved, CLOCK) == ["b before a"]


def test_glue_dries_while_other_work_goes_on() -> None:
    steps = [step("glue", 20), step("back", 20, ("glue", 60)), step("lips", 60)]
    made = {one.step: one for one in calendar(steps, 1, CLOCK).placed}
    assert (made["glue"].end, made["lips"].start, made["back"].start) == (20, 20, 80)


@pytest.mark.parametrize(
    ("end", "wait", "ready"),
    [
        (100, 60, 160),  # the same day
        (100, 200, 240),  # over in the evening: next morning
        (240, 60, 240),  # ended in the evening, ready next morning
        (100, 24 * 60, 340),  # a day and a night: the same minute of the next day
        (100, 48 * 60, 580),
        (0, 60, 60),
        (0, 0, 0),
    ],
)
def test_a_wait_is_clock_time(end: int, wait: int, ready: int) -> None:
    assert Clock(240).ready(end, wait) == ready


def test_what_is_done_in_one_go_goes_to_the_next_morning() -> None:
    steps = [step("a", 200), step("b", 60, "a", in_one_go=True)]
    made = {one.step: one for one in calendar(steps, 1, CLOCK).placed}
    assert made["b"].start == 240
    loose = [steps[0], step("b", 60, "a")]
    assert {one.step: one for one in calendar(loose, 1, CLOCK).placed}["b"].start == 200


def test_two_share_a_step_and_one_does_it_alone() -> None:
    steps = [step("a", 61, shared=True)]
    one, two = (calendar(steps, people, CLOCK) for people in (1, 2))
    assert (one.minutes, one.placed[0].persons) == (61, (1,))
    assert (two.minutes, two.placed[0].persons) == (31, (1, 2))


def test_slack_is_how_far_a_step_may_slip() -> None:
    steps = [step("long", 100), step("short", 30), step("end", 10, "long", "short")]
    made = {one.step: one for one in calendar(steps, 2, CLOCK).placed}
    assert {key: one.slack for key, one in made.items()} == {"long": 0, "short": 70, "end": 0}
    slipped = [step("long", 100), step("short", 30 + 70), step("end", 10, "long", "short")]
    assert calendar(slipped, 2, CLOCK).minutes == calendar(steps, 2, CLOCK).minutes
    late = [step("long", 100), step("short", 30 + 71), step("end", 10, "long", "short")]
    assert calendar(late, 2, CLOCK).minutes == calendar(steps, 2, CLOCK).minutes + 1


def test_a_list_places_each_step_as_soon_as_its_people_are_free() -> None:
    steps = [step("a", 30, people=2), step("b", 30), step("c", 30)]
    assert list_schedule(steps, 2, CLOCK).start == {"a": 0, "b": 30, "c": 30}
    assert list_schedule(steps, 1, CLOCK).start == {"a": 0, "b": 30, "c": 60}


@pytest.mark.parametrize("kind", KINDS)
def test_the_calendars_of_a_plan_can_be_kept_and_are_proven_shortest(kind: str) -> None:
    order = order_of_work(plan_of_kind(kind).job, option_of_kind(kind))
    for made in order.calendars:
        clock = Clock(made.day)
        steps = [one for one in order.steps if one.later is None]
        assert wrong(steps, made, clock) == []
        assert made.proven
    one, two = order.calendars
    assert two.minutes <= one.minutes
