"""Planned again: rows that nothing touches stand as they did; what is held in a row stands there.

Things are 6 in wide, on boards of 31-1/2 in; boxes are 12 in high, jars 7, cups 5. Two of each are
one kind a shelf.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from cli.files.hold_option import validated_job
from solver.checking.check import check
from solver.job.job import Job
from solver.layout.row_gaps import Piece, RowSpace
from solver.outcome import Limits, Status
from solver.plan.built import Opening, Placement
from solver.plan.plan import Plan
from solver.planning.plan_job import plan_job
from solver.replan.plan_again import plan_again
from solver.units import TICKS_PER_INCH
from tests.builders import make_job

INCH = TICKS_PER_INCH


def asked(**counts: int) -> Job:
    """Boxes, cups and jars in a case with two shelves."""
    thing = {"width": "6 in", "depth": "4 in", "weight": "1 lb"}
    high = {"box": "12 in", "cup": "5 in", "jar": "7 in"}
    many = {"box": 2, "cup": 2, "jar": 2} | counts
    return make_job(
        unit="in",
        case={"width": "33 in", "height": "36 in", "depth": "8 in", "shelves": 2},
        items=[
            thing | {"name": name, "height": high[name], "count": count}
            for name, count in many.items()
        ],
        look={"headroom": "1 in"},
    )


def holding(job: Job, **hold: Any) -> Job:
    """The job with one hold."""
    return validated_job({**job.model_dump(by_alias=True), "hold": [hold]}, "--hold")


@pytest.fixture(scope="module")
def last() -> Plan:
    """A plan in which every row is a sixteenth left of where it was composed."""
    plan = plan_job(asked(), near=False, advice=False)
    (option,) = plan.options
    (case,) = option.cases
    (bay,) = case.bays
    openings = tuple(
        opening.model_copy(
            update={
                "items": tuple(
                    thing.model_copy(update={"x": thing.x - INCH // 16}) for thing in opening.items
                )
            }
        )
        for opening in bay.openings
    )
    bays = (bay.model_copy(update={"openings": openings}),)
    cases = (case.model_copy(update={"bays": bays}),)
    return plan.model_copy(update={"options": (option.model_copy(update={"cases": cases}),)})


def openings(plan: Plan) -> tuple[Opening, ...]:
    return plan.options[0].cases[0].bays[0].openings


def again(job: Job, last: Plan) -> tuple[Opening, ...]:
    """Openings of the plan made again, which passes the checker."""
    new = plan_again(job, last, Limits())
    assert [str(finding) for finding in check(new)] == []
    return openings(new)


def standing(opening: Opening) -> list[tuple[str, int, int]]:
    """Kind, number and left edge of every thing."""
    return [(thing.item, thing.number, thing.x) for thing in opening.items]


def test_every_thing_stands_where_it_did_where_nothing_is_asked(last: Plan) -> None:
    assert list(map(standing, again(asked(), last))) == list(map(standing, openings(last)))


def test_only_the_row_that_gets_something_is_composed_again(last: Plan) -> None:
    now = again(asked(cup=3), last)

    changed = [
        old.index
        for old, new in zip(openings(last), now, strict=True)
        if standing(old) != standing(new)
    ]
    (at,) = changed
    assert [thing.item for thing in now[at].items].count("cup") > [
        thing.item for thing in openings(last)[at].items
    ].count("cup")


def test_a_dragged_shelf_moves_no_thing(last: Plan) -> None:
    shelf = last.options[0].cases[0].bays[0].shelves[0]
    job = holding(asked(), case="case", shelf=1, mark=shelf.underside + INCH // 16)

    assert list(map(standing, again(job, last))) == list(map(standing, openings(last)))


def test_rows_are_composed_again_where_the_style_is_another(last: Plan) -> None:
    job = asked()
    look = job.look.model_copy(update={"shelf_style": "grouped"})

    now = again(job.model_copy(update={"look": look}), last)

    assert all(standing(old) != standing(new) for old, new in zip(openings(last), now, strict=True))


def test_a_row_that_is_too_near_the_side_is_composed_again(last: Plan) -> None:
    ends = min(thing.x for opening in openings(last) for thing in opening.items)
    job = asked()

    def kept(margin: int) -> list[bool]:
        look = job.look.model_copy(update={"end_margin": margin})
        now = again(job.model_copy(update={"look": look}), last)
        return [
            standing(old) == standing(new) for old, new in zip(openings(last), now, strict=True)
        ]

    assert all(kept(ends))
    assert not all(kept(ends + INCH // 16))


def the_row(last: Plan, item: str) -> Opening:
    return next(o for o in openings(last) if any(thing.item == item for thing in o.items))


def kinds(opening: Opening) -> list[str]:
    row: list[Placement] = sorted(opening.items, key=lambda thing: thing.x)
    return [thing.item for thing in row]


def test_things_keep_their_numbers(last: Plan) -> None:
    """A third jar is jar 3, whatever stands left of it."""
    now = again(asked(jar=3), last)
    before = {(t.item, t.number): o.index for o in openings(last) for t in o.items}
    after = {(t.item, t.number): o.index for o in now for t in o.items}
    assert {name: after[name] for name in before} == before
    assert after.keys() - before.keys() == {("jar", 3)}


@pytest.mark.parametrize("place", [1, 2, 3, 4])
def test_a_thing_is_held_to_its_place_in_the_row(place: int) -> None:
    job = one_shelf()
    plan = plan_job(job, near=False, advice=False)

    (row,) = again(holding(job, item="box", opening=0, place=place), plan)

    assert kinds(row)[place - 1] == "box"


def test_a_place_that_a_row_does_not_have_is_told() -> None:
    job = holding(one_shelf(), item="box", opening=0, place=5)

    new = plan_again(job, plan_job(one_shelf(), near=False, advice=False), Limits())

    assert check(new) == ()
    assert "on the bottom 'box' does not stand at place 5 of its row" in new.options[0].notes


def one_shelf() -> Job:
    """Two boxes, a cup and a jar on one board of 31-1/2 in."""
    job = asked(cup=1, jar=1)
    return job.model_copy(update={"cases": (job.cases[0].model_copy(update={"shelves": 0}),)})


def test_what_is_kept_empty_is_emptied_and_the_rest_stays(last: Plan) -> None:
    """Two cups and two jars of 6 in stand on one shelf of 31-1/2 in, so one can be empty."""
    empty = the_row(last, "cup").index

    now = again(holding(asked(), case="case", opening=empty, empty=True), last)

    assert now[empty].items == ()
    held = {name for name in ("box", "jar") if the_row(last, name).index != empty}
    assert held <= {thing.item for opening in now for thing in opening.items}


def test_a_shelf_cannot_be_kept_empty_where_all_are_needed() -> None:
    """Five things of 6 in and gaps take more than 31-1/2 in; ten stand on no one shelf."""
    job = asked(box=4, cup=4, jar=4)
    plan = plan_job(job, near=False, advice=False)

    new = plan_again(holding(job, case="case", opening=2, empty=True), plan, Limits())

    assert new.options[0].status is Status.INFEASIBLE
    assert new.options[0].collision is not None


def piece(kind: int, width: int) -> Piece:
    """A piece in ticks; what stands on it does not matter here."""
    return Piece(kind, None, width, height=10, look=0, gap=2, mass=1, places=())


@pytest.mark.parametrize(
    ("edges", "keeps"),
    [
        ((5, 17, 31), True),  # 5 at the end; 10 + 2 between two of a kind; 10 + 4 to another
        ((4, 17, 31), False),  # nearer the side than the margin of 5
        ((5, 16, 31), False),  # two of a kind nearer than 2
        ((5, 17, 30), False),  # kinds nearer than 4
        ((5, 17, 35), True),  # 35 + 10 = 50 - 5
        ((5, 17, 36), False),
    ],
)
def test_a_row_stands_as_it_did_only_with_its_least_gaps(
    edges: tuple[int, ...], keeps: bool
) -> None:
    space = RowSpace(width=50, margin=5, gap=4, run=40, step=1)
    row = [piece(0, 10), piece(0, 10), piece(1, 10)]
    assert space.keeps(row, edges) is keeps
    assert not replace(space, run=35).keeps(row, edges)  # 3 x 10 + 2 + 4 = 36
