"""Slack of any list that is cut: two ways of adding it up agree, and the margin is in it."""

from __future__ import annotations

from typing import Literal

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.pieces import SheetView
from solver.checking.strip_slack import sheet as slack_findings
from solver.cutting.slack import divide, sheet_slack, with_slack
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits
from solver.plan.stocked import Sheet
from tests.cutting_checks import problem

Kinds = list[tuple[int, int, int]]

kinds = st.lists(
    st.tuples(st.integers(5, 60), st.integers(5, 40), st.integers(1, 3)), min_size=1, max_size=4
)
firsts: st.SearchStrategy[Literal["rip", "crosscut", "either"]] = st.sampled_from(
    ["rip", "crosscut", "either"]
)


def cut(parts: Kinds, first: str, kerf: int, margin: int) -> tuple[Sheet, ...]:
    asked = problem(
        parts, (80, 60), turn=True, kerf=kerf, margin=margin, edge_trim=2, first_cut=first
    )
    return solve_cutting(asked, Limits(work=0.2)).stock


@settings(max_examples=60, deadline=None)
@given(kinds, firsts, st.integers(0, 3), st.integers(0, 2))
def test_sums_of_pieces_and_sums_of_gaps_come_to_the_same_slack(
    parts: Kinds, first: str, kerf: int, margin: int
) -> None:
    for sheet in cut(parts, first, kerf, margin):
        view = SheetView(with_slack(sheet), {}, "mm", "sheet")
        assert list(slack_findings(view)) == []


@settings(max_examples=60, deadline=None)
@given(kinds, firsts, st.integers(0, 3), st.integers(0, 2))
def test_every_strip_and_every_row_of_it_has_the_margin_of_its_pieces_left(
    parts: Kinds, first: str, kerf: int, margin: int
) -> None:
    for sheet in cut(parts, first, kerf, margin):
        slack = sheet_slack(sheet)
        pieces = {piece.part: piece for piece in sheet.pieces}
        along = 0 if sheet.first_cut == "rip" else 1
        assert slack.across >= margin * len(slack.strips)
        for strip in slack.strips:
            rows = divide([pieces[part] for part in strip.parts], along, kerf)
            assert strip.along >= margin * len(rows)
            assert strip.rows is None or strip.rows >= 0
