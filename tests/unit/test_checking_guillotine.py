"""Whether patterns can be cut edge to edge, and in how many stages."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.checking.guillotine import Rect, X, Y, can_be_cut, divide, in_stages

PINWHEEL: list[Rect] = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3)]
PANEL: Rect = (0, 0, 10, 10)


def test_two_pieces_side_by_side_can_be_cut() -> None:
    assert can_be_cut([(0, 0, 3, 5), (4, 0, 7, 2)], kerf=1)


def test_pieces_nearer_than_a_kerf_cannot_be_cut() -> None:
    assert not can_be_cut([(0, 0, 3, 5), (4, 0, 7, 5)], kerf=2)


def test_four_pieces_that_turn_round_each_other_cannot_be_cut() -> None:
    assert not can_be_cut(PINWHEEL, kerf=0)


@pytest.mark.parametrize("left_out", range(4))
def test_any_three_of_them_can(left_out: int) -> None:
    assert can_be_cut([r for n, r in enumerate(PINWHEEL) if n != left_out], kerf=0)


def test_dividing_finds_every_cut_that_passes() -> None:
    rects: list[Rect] = [(0, 0, 2, 2), (1, 3, 4, 5), (5, 0, 6, 1)]

    assert [len(group) for group in divide(rects, X, 1)] == [2, 1]
    assert [len(group) for group in divide(rects, Y, 1)] == [2, 1]


STRIPS: list[Rect] = [(0, 0, 4, 3), (4, 0, 9, 3), (0, 3, 6, 5)]
UNEVEN: list[Rect] = [(0, 0, 4, 3), (4, 0, 9, 2), (0, 3, 6, 5)]
STACKED: list[Rect] = [(0, 0, 4, 3), (4, 0, 9, 2), (4, 2, 9, 3)]
FLOATING: list[Rect] = [(0, 0, 4, 3), (4, 1, 9, 2)]


@pytest.mark.parametrize(
    ("rects", "stages", "trim", "allowed"),
    [
        (STRIPS, 2, False, True),
        (UNEVEN, 2, False, False),
        (UNEVEN, 2, True, True),
        (UNEVEN, 3, False, True),
        (STACKED, 2, True, False),
        (STACKED, 3, False, True),
        (FLOATING, 2, True, False),
        (FLOATING, 3, False, True),
    ],
    ids=[
        "strips in two",
        "an uneven strip not in two",
        "an uneven strip in two and a trim",
        "an uneven strip in three",
        "two on each other not in two and a trim",
        "two on each other in three",
        "a piece in mid-strip takes two trims",
        "a piece in mid-strip in three",
    ],
)
def test_stages_rip_first(rects: list[Rect], stages: int, trim: bool, allowed: bool) -> None:
    assert in_stages(rects, 0, PANEL, Y, stages, trim) is allowed


def test_the_first_direction_counts() -> None:
    columns: list[Rect] = [(0, 0, 3, 4), (0, 4, 3, 9), (3, 0, 6, 7), (3, 7, 6, 9)]

    assert in_stages(columns, 0, PANEL, X, 2, trim=False)
    assert not in_stages(columns, 0, PANEL, Y, 2, trim=True)


@st.composite
def cut_up(draw: st.DrawFn) -> tuple[list[Rect], int]:
    """A panel cut edge to edge at random, each cut taking a kerf; some of the pieces."""
    kerf = draw(st.integers(0, 3))
    panels: list[Rect] = [(0, 0, 60, 40)]
    for _ in range(draw(st.integers(0, 8))):
        x0, y0, x1, y1 = panels.pop(draw(st.integers(0, len(panels) - 1)))
        if draw(st.booleans()) and x1 - x0 >= kerf + 2:
            at = draw(st.integers(x0 + 1, x1 - kerf - 1))
            panels += [(x0, y0, at, y1), (at + kerf, y0, x1, y1)]
        elif y1 - y0 >= kerf + 2:
            at = draw(st.integers(y0 + 1, y1 - kerf - 1))
            panels += [(x0, y0, x1, at), (x0, at + kerf, x1, y1)]
        else:
            panels.append((x0, y0, x1, y1))
    return draw(st.permutations(panels)), kerf


@given(cut_up())
def test_what_was_cut_edge_to_edge_can_be_cut(pattern: tuple[list[Rect], int]) -> None:
    assert can_be_cut(*pattern)


@given(cut_up())
def test_divided_groups_are_a_kerf_apart_and_lose_nothing(pattern: tuple[list[Rect], int]) -> None:
    rects, kerf = pattern
    for axis in (X, Y):
        groups = divide(rects, axis, kerf)
        assert sorted(rect for group in groups for rect in group) == sorted(rects)
        for low, high in pairwise(groups):
            assert min(r[axis] for r in high) - max(r[axis + 2] for r in low) >= kerf
