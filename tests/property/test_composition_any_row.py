"""Any row: everything stands, least gaps are kept, and no order of up to six looks better."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.layout.composition import Composed
from solver.layout.layout_problem import Place
from solver.layout.row_gaps import Piece, RowSpace, spaced
from solver.units import TICKS_PER_MM
from tests.rows import GAP, MARGIN, Row, front, thing

RUN = 714 - 2 * 15
"""Clear width less both margins [mm]."""
Things = list[dict[str, Any]]


@st.composite
def lists(draw: st.DrawFn, /, kinds: int = 6, most: int = 5, *, even: bool = False) -> Things:
    """Lists of things that fit in one row, each kind's least gap its own, another or none."""
    items = []
    for k in range(draw(st.integers(1, kinds))):
        width, height = draw(st.integers(20, 120)), draw(st.integers(40, 280))
        gap = draw(st.sampled_from((None, None, "0", "4", "25")))
        own = {"gap": f"{gap} mm"} if gap is not None and not even else {}
        count = draw(st.integers(1, most)) * (2 if even else 1)
        items.append(thing(f"k{k}", width, height, count, **own))
    wide = sum(
        i["count"] * int(i["width"][:-3]) + (i["count"] - 1) * int(i.get("gap", "10 mm")[:-3])
        for i in items
    )
    assume(wide + 10 * (len(items) - 1) <= RUN)
    return items


def holds(asked: Row, row: Composed) -> None:
    """Everything stands within the margins, with its least gaps, and is scored as defined."""
    stood = front(row.spots)
    assert sorted(s.kind for s in row.spots) == sorted(f.kind for f, _ in asked.places)
    gaps = asked.gaps(row)
    assert min(gaps[0], gaps[-1]) >= MARGIN
    for a, b, gap in zip(stood, stood[1:], gaps[1:], strict=False):
        own = asked.problem.kinds[a.kind].gap
        assert gap >= (own if a.kind == b.kind else GAP)
    assert row.score == asked.score(row)


@given(items=lists(), style=st.sampled_from(("mirrored", "grouped")))
@settings(max_examples=80, deadline=None)
def test_everything_stands_with_its_gaps(items: Things, style: str) -> None:
    asked = Row(*items, shelf_style=style)
    row = asked.composed()
    holds(asked, row)
    if style == "grouped":
        names = asked.names(row)
        assert all(
            names[names.index(name) : names.index(name) + names.count(name)]
            == [name] * names.count(name)
            for name in set(names)
        )


@given(items=lists(even=True, kinds=5, most=2))
@settings(max_examples=50, deadline=None)
def test_even_counts_make_a_mirror_image(items: Things) -> None:
    asked = Row(*items)
    row = asked.composed()
    assert asked.mirrored(row)
    assert row.score.outline_missed == 0
    assert row.score.moment == 0


@given(items=lists(even=True, kinds=4, most=2), width=st.integers(20, 100))
@settings(max_examples=30, deadline=None)
def test_one_more_stands_truly_in_the_middle(items: Things, width: int) -> None:
    wide = sum(i["count"] * (int(i["width"][:-3]) + 10) for i in items)
    assume(wide + width <= RUN)
    asked = Row(*items, thing("one", width, 290))
    row = asked.composed()
    one = next(spot for spot in row.spots if spot.kind == len(items))
    assert abs(2 * one.x + one.form.width - asked.width) <= 1
    assert asked.mirrored(row)


@given(items=lists(kinds=5, most=2))
@settings(max_examples=25, deadline=None)
def test_no_order_of_up_to_six_looks_better(items: Things) -> None:
    items = [{**item, "gap": None} if item.get("gap") == "0 mm" else item for item in items]
    asked = Row(*[{k: v for k, v in item.items() if v is not None} for item in items])
    places = asked.places
    assume(len(places) <= 6)
    stood = [(s.form, s.form.things) for s in front(asked.composed().spots)]
    orders = {tuple(form.kind for form, _ in order): order for order in permutations(places)}
    best = min(ideal(asked, order) for order in orders.values() if narrow(asked, order))
    assert ideal(asked, stood) == best


def pieces(asked: Row, order: Any) -> list[Piece]:
    """One piece a place."""
    return [
        Piece(
            kind=form.kind,
            family=None,
            width=form.width,
            height=form.height,
            look=form.kind,
            gap=asked.problem.kinds[form.kind].gap,
            mass=0,
            places=((form, things),),
        )
        for form, things in order
    ]


def space(asked: Row) -> RowSpace:
    """What the row stands in."""
    return RowSpace(asked.width, MARGIN, GAP, asked.bay.run, TICKS_PER_MM)


def narrow(asked: Row, order: tuple[Place, ...]) -> bool:
    """Whether an order can stand with its least gaps."""
    return space(asked).takes(pieces(asked, order))


def ideal(asked: Row, order: Any) -> tuple[int, int, int, int]:
    """Score of an order before its positions are rounded."""
    edges = spaced(space(asked), pieces(asked, order))
    return asked.score_at(
        [(form, Fraction(x, 2)) for (form, _), x in zip(order, edges, strict=True)]
    )


@pytest.mark.parametrize("count", [12, 20, 40])
def test_long_rows_stand_too(count: int) -> None:
    asked = Row(thing("a", 7, 90, count - 9, gap="2 mm"), thing("b", 12, 120, 9, gap="3 mm"))
    holds(asked, asked.composed())
