"""Which bays share shelf lines is data of the plan, and planning again keeps to it."""

from __future__ import annotations

from typing import Any

from cli.screen.marking_tables import lines_apart_notes
from solver.checking.check import check
from solver.job.job import Job
from solver.outcome import Limits, Status
from solver.plan.built import LinesApart
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import plan_again
from solver.units import TICKS_PER_MM
from tests.builders import make_job


def job_of(*cases: dict[str, Any], **tables: Any) -> Job:
    """Cases 1000 mm high with two shelves, boards of 18 mm, marks on whole millimetres."""
    plain = {"width": "800", "height": "1000", "depth": "300", "shelves": 2, "back": "none"}
    ply = {"name": "ply", "material": "ply", "length": "2440", "width": "1220", "thickness": "18"}
    return make_job(unit="mm", case=[{**plain, **one} for one in cases], sheet=[ply], **tables)


A = {"name": "a", "uprights": 1}
B = {"name": "b", "beside": "a", "fixing": "pins"}
"""On pins 32 mm apart: its shelves move in other steps than those of `a`."""


def held_again(*cases: dict[str, Any], held: int = 400) -> Plan:
    """Plan, then hold shelf 1 of bay 1 of `a` at a mark [mm] and plan again."""
    job = job_of(*cases)
    hold = {"case": "a", "bay": 1, "shelf": 1, "mark": f"{held}"}
    limits = Limits(seconds=60)
    return plan_again(job_of(*cases, hold=[hold]), plan_job(job, limits), limits)


def marks(plan: Plan, case: str) -> list[list[float]]:
    """Undersides of the shelves in each bay of a case [mm]."""
    bays = next(one for one in plan.options[0].cases if one.name == case).bays
    return [[shelf.underside / TICKS_PER_MM for shelf in bay.shelves] for bay in bays]


def test_bays_of_a_case_share_lines_also_where_the_case_beside_cannot() -> None:
    alone, beside = held_again(A), held_again(A, B)
    for plan in (alone, beside):
        first, second = marks(plan, "a")
        assert first[0] == 400
        assert first == second
        assert plan.options[0].status is Status.OPTIMAL
        assert check(plan) == ()


def test_the_plan_says_who_shares_lines_and_who_cannot() -> None:
    for first, second in ((A, B), ({**B, "beside": None}, {**A, "beside": "b"})):
        option = plan_job(job_of(first, second), Limits(seconds=60)).options[0]
        (shared,) = option.lines
        shelves = next(case for case in option.cases if case.name == "a").bays[0].shelves
        assert shared.bays == (("a", 1), ("a", 2))
        assert shared.heights == tuple(shelf.top for shelf in shelves)
        (apart,) = option.lines_apart
        assert {name for name, _ in apart.bays} == {second["name"]}
        assert apart.because == "marks"
        case = f"the marks of case {second['name']!r} never meet those beside it"
        assert lines_apart_notes(option) == [f"shelf lines not shared: {case}"]
        assert option.notes == ()


def test_lines_are_given_up_where_only_so_everything_fits_and_stay_given_up() -> None:
    # One shelf leaves 1000 - 3 x 18 = 946 clear in two openings: 700 high below in bay 1, and
    # above in bay 2, is not to be had with one line.
    case = {**A, "shelves": 1}
    urn = {"width": "300", "height": "700", "depth": "100", "weight": "1 kg"}
    things = [{**urn, "name": "low urn"}, {**urn, "name": "high urn"}]
    holds = [
        {"item": "low urn", "opening": 0, "case": "a", "bay": 1},
        {"item": "high urn", "opening": 1, "case": "a", "bay": 2},
    ]
    limits = Limits(seconds=60)
    plan = plan_job(job_of(case, items=things, hold=holds), limits)
    mark = {"case": "a", "bay": 1, "shelf": 1, "mark": "760"}
    again = plan_again(job_of(case, items=things, hold=[*holds, mark]), plan, limits)
    for one in (plan, again):
        assert check(one) == ()
        option = one.options[0]
        assert option.fits_all
        assert option.lines == ()
        assert option.lines_apart == (LinesApart(bays=(("a", 1), ("a", 2)), because="fit"),)
        said = "shelf lines not shared: no common lines let everything fit"
        assert lines_apart_notes(option) == [said]
    assert marks(again, "a") == [[760], marks(plan, "a")[1]]


def test_bays_with_fewer_shelves_may_use_different_lines_of_the_one_with_most() -> None:
    case = {"name": "a", "width": "1200", "uprights": 2, "shelves": {"least": 1, "most": 2}}
    holds = [
        {"case": "a", "bay": bay, "shelf": 1, "mark": f"{mark}"}
        for bay, mark in ((2, 300), (3, 600))
    ]
    plan = plan_job(job_of(case, hold=holds), Limits(seconds=60))
    assert check(plan) == ()
    option = next(one for one in plan.options if sorted(one.shelf_counts["a"]) == [1, 1, 2])
    assert option.shelf_counts["a"] == (2, 1, 1)
    # The lines of bay 1: marks of 300 and 600, boards of 18 mm.
    assert option.lines[0].heights == ((300 + 18) * TICKS_PER_MM, (600 + 18) * TICKS_PER_MM)
