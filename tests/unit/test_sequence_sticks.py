"""The order in which mouldings are cut: one stop setting after the other, over all sticks."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from cli.screen.cutting_tables import stops_table
from solver.checking.strip_slack import cuts, stops
from solver.plan.stocked import Stick, StickPiece
from solver.sequence.sequencing import sequence_sticks
from solver.units import inches

KERF = inches("1/8")


def stick(length: int, *pieces: tuple[str, int], kerf: int = KERF) -> Stick:
    """A stick with its pieces one after the other, as they are given."""
    laid, at = [], 0
    for part, size in pieces:
        laid.append(StickPiece(part=part, start=at, length=size))
        at += size + kerf
    return Stick(
        stock="lip", length=length, price=None, on_hand=False, kerf=kerf, pieces=tuple(laid)
    )


def test_equal_lengths_are_cut_with_one_setting_over_all_sticks_longest_first() -> None:
    legs, heads = inches(30), inches(20)
    first, second = sequence_sticks(
        [
            stick(inches(96), ("head 1", heads), ("leg 1", legs)),
            stick(inches(96), ("leg 2", legs), ("leg 3", legs), ("head 2", heads)),
        ]
    )

    assert [(c.number, c.batch, c.part) for c in first.cuts] == [(1, 1, "leg 1"), (2, 2, "head 1")]
    assert [(c.batch, c.part) for c in second.cuts] == [(1, "leg 2"), (1, "leg 3"), (2, "head 2")]


def test_the_stop_is_set_to_the_piece_and_measured_from_the_end_that_was_sawn_last() -> None:
    (cut,) = sequence_sticks([stick(inches(96), ("a", inches(30)), ("b", inches(20)))])

    assert [c.setting for c in cut.cuts] == [inches(30), inches(20)]
    assert [c.at for c in cut.cuts] == [inches(30), inches(30) + KERF + inches(20)]
    assert [c.measured_from for c in cut.cuts] == ["factory end", "sawn end"]


def test_a_piece_that_is_all_that_is_left_needs_no_cut() -> None:
    """30 + 1/8 + 20 in are the whole of 50-1/8 in; of 50-1/4 in, 1/8 in is still sawn off."""
    pieces = ("a", inches(30)), ("b", inches(20))
    (just,) = sequence_sticks([stick(inches("50-1/8"), *pieces)])
    (over,) = sequence_sticks([stick(inches("50-1/4"), *pieces)])

    assert [c.part for c in just.cuts] == ["a"]
    assert [c.part for c in over.cuts] == ["a", "b"]


@given(
    st.lists(st.lists(st.integers(1, 40), min_size=1, max_size=6), max_size=5), st.integers(0, 4)
)
def test_any_sticks_pass_the_checker(rows: list[list[int]], kerf: int) -> None:
    sticks = [
        stick(
            sum(row) + kerf * (len(row) - 1) + len(row) % 2,
            *((f"{n}.{i}", size) for i, size in enumerate(row)),
            kerf=kerf,
        )
        for n, row in enumerate(rows)
    ]
    found = sequence_sticks(sticks)

    assert [f for one in found for f in cuts(one, "stick", "mm")] == []
    assert list(stops(found, "plan", "mm")) == []
    settings = {c.setting for one in found for c in one.cuts}
    assert {c.batch for one in found for c in one.cuts} == set(range(1, len(settings) + 1))


def test_the_table_names_each_setting_once_with_its_sticks() -> None:
    sticks = sequence_sticks([stick(inches(96), ("a", inches(30)), ("b", inches(30)))] * 2)
    table = stops_table(sticks, "in").table

    columns = [list(column.cells) for column in table.columns]
    assert columns == [["1"], ["30"], ["4"], ["stick 1: cuts 1 and 2; stick 2: cuts 1 and 2"]]
