"""One rule at a time: what just fits, and what just does not."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    FirstCut,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.solve_sheets import solve_cutting
from solver.errors import CannotBeDoneError
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from solver.units import inches, mm
from tests.cutting_checks import faults, problem

KERF = inches("1/8")
SHEET = inches(96), inches(48)


def cut(asked: CuttingProblem) -> SheetAnswer:
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
    return answer


def strips(count: int, width: str, edge_trim: int = 0) -> SheetAnswer:
    """So many parts of the sheet's full length."""
    parts = [(SHEET[0] - 2 * edge_trim, inches(width), count)]
    return cut(problem(parts, SHEET, kerf=KERF, edge_trim=edge_trim))


# practice.md 3.2: (48 - (n - 1) k) / n with k = 1/8, rounded down to 1/32
USED_AS_THEY_COME = {
    2: "23-15/16",
    3: "15-29/32",
    4: "11-29/32",
    5: "9-1/2",
    6: "7-7/8",
    7: "6-3/4",
}
# (48 - 2/4 - (n - 1) k) / n, rounded down to 1/32; rounded to the nearest, 9-13/32 and 6-11/16
# would need 47-17/32 and 47-9/16
QUARTER_OFF = {2: "23-11/16", 3: "15-3/4", 4: "11-25/32", 5: "9-3/8", 6: "7-13/16", 7: "6-21/32"}


@pytest.mark.parametrize(("count", "width"), USED_AS_THEY_COME.items())
def test_strips_from_48_in_with_edges_as_they_come(count: int, width: str) -> None:
    assert strips(count, width).count == 1
    over = inches(width) + inches("1/16")
    asked = problem([(SHEET[0], over, count)], SHEET, kerf=KERF)
    assert cut(asked).count == 2


@pytest.mark.parametrize(("count", "width"), QUARTER_OFF.items())
def test_strips_from_48_in_with_a_quarter_off_each_edge(count: int, width: str) -> None:
    trim = inches("1/4")
    assert strips(count, width, edge_trim=trim).count == 1
    over = inches(width) + inches("1/16")
    asked = problem([(SHEET[0] - 2 * trim, over, count)], SHEET, kerf=KERF, edge_trim=trim)
    assert cut(asked).count == 2


@pytest.mark.parametrize(
    ("count", "width"), [(2, 608), (3, 404), (4, 302), (5, 241), (6, 200), (7, 171), (8, 149)]
)
def test_strips_from_1220_mm(count: int, width: int) -> None:
    """practice.md 3.2, metric row: k = 3, whole millimetres."""
    sheet = mm(2440), mm(1220)
    assert cut(problem([(mm(2440), mm(width), count)], sheet, kerf=mm(3))).count == 1
    wider = problem([(mm(2440), mm(width + 1), count)], sheet, kerf=mm(3))
    assert cut(wider).count == 2


def test_the_twelve_inch_trap() -> None:
    """Four 12 in strips need 4 x 12 + 3 x 1/8 = 48-3/8 in."""
    assert strips(4, "12").count == 2
    assert strips(4, "11-7/8").count == 1


def test_three_32_in_shelves_need_96_and_a_quarter() -> None:
    parts = [(inches(32), inches(48), 3)]
    assert cut(problem(parts, SHEET, kerf=KERF)).count == 2
    assert cut(problem(parts, (inches("96-1/4"), inches(48)), kerf=KERF)).count == 1


def test_a_scanned_diagram_with_no_kerf_does_not_work_with_one() -> None:
    """practice.md 3.2: 8-3/4 + 8-3/4 + 10-3/4 + 19-3/4 = 48 with no kerf."""
    parts = [(inches(96), inches(w), n) for w, n in (("8-3/4", 2), ("10-3/4", 1), ("19-3/4", 1))]
    assert cut(problem(parts, SHEET, kerf=0)).count == 1
    assert cut(problem(parts, SHEET, kerf=KERF)).count == 2


def test_the_margin_is_kept_in_every_strip() -> None:
    """Four strips and margins: 4 (w + 1/32) + 3/8 <= 48 gives w <= 11-7/8."""
    margin = inches("1/32")
    just = problem([(inches(90), inches("11-7/8"), 4)], SHEET, kerf=KERF, margin=margin)
    over = problem([(inches(90), inches("11-29/32"), 4)], SHEET, kerf=KERF, margin=margin)
    assert cut(just).count == 1
    assert cut(over).count == 2


def test_a_part_as_large_as_the_trimmed_sheet_fits_and_a_tick_more_does_not() -> None:
    trim = inches("1/4")
    size = SHEET[0] - 2 * trim, SHEET[1] - 2 * trim
    answer = cut(problem([(*size, 1)], SHEET, kerf=KERF, edge_trim=trim))
    assert [(p.x, p.y) for p in answer.stock[0].pieces] == [(trim, trim)]
    with pytest.raises(CannotBeDoneError, match="too wide"):
        solve_cutting(
            problem([(size[0], size[1] + 1, 1)], SHEET, kerf=KERF, edge_trim=trim), Limits()
        )


def test_grain_keeps_a_part_from_turning() -> None:
    parts = [(inches(48), inches(90), 1)]
    turned = cut(problem(parts, SHEET, kerf=KERF, turn=True))
    assert [piece.turned for piece in turned.stock[0].pieces] == [True]
    with pytest.raises(CannotBeDoneError, match=r"42 in too wide.*grain"):
        solve_cutting(problem(parts, SHEET, kerf=KERF), Limits())


PINWHEEL = [(5, 3, 2), (3, 5, 2)]


def test_a_pattern_that_no_edge_to_edge_cut_divides_is_not_used() -> None:
    """Four parts around a hole fill 8 x 8, but every cut runs through one of them."""
    answer = cut(problem(PINWHEEL, (8, 8)))
    assert (answer.count, answer.count_bound) == (2, 2)
    assert answer.status is Status.OPTIMAL


def test_two_parts_that_cannot_share_a_sheet_are_proven_to_take_two() -> None:
    """7 x 3 and 3 x 6 on 9 x 8: 7 + 3 > 9 along, 3 + 6 > 8 across; their area is 39 of 72."""
    answer = cut(problem([(7, 3, 1), (3, 6, 1)], (9, 8)))
    assert (answer.count, answer.count_bound, answer.status) == (2, 2, Status.OPTIMAL)
    beside = cut(problem([(7, 3, 1), (2, 6, 1)], (9, 8)))
    assert beside.count == 1


def test_a_dearer_choice_of_fewer_sheets_keeps_the_bound_on_the_number_down() -> None:
    """Two halves at 5.00 are cheapest; one whole at 12.00 would be one sheet."""
    answer = cut(with_stock(2, stock("12.00"), stock("5.00", "half", size=5)))
    assert (answer.cost, answer.status) == (Decimal("10.00"), Status.OPTIMAL)
    assert (answer.count, answer.count_bound) == (2, 1)


def test_two_stages_trim_but_do_not_stack() -> None:
    """A 6 x 4 beside two 4 x 2, one over the other: three stages, not two."""
    parts = [(6, 4, 1), (4, 2, 2)]
    assert cut(problem(parts, (10, 4), stages="3", first_cut="rip")).count == 1
    assert cut(problem(parts, (10, 4), stages="2", first_cut="rip")).count == 2
    trimmed = [(6, 4, 1), (4, 2, 1)]
    assert cut(problem(trimmed, (10, 4), stages="2", first_cut="rip")).count == 1


def test_three_stages_add_no_trimming_cut() -> None:
    """A column of 4 x 2 over 3 x 2 needs a fourth cut, which trims the shorter one."""
    parts = [(6, 4, 1), (4, 2, 1), (3, 2, 1)]
    assert cut(problem(parts, (10, 4), stages="any")).count == 1
    assert cut(problem(parts, (10, 4), stages="3", first_cut="rip")).count == 2


def test_the_first_cut_is_as_asked() -> None:
    """Three full-length strips are ripped; beginning with a crosscut they cannot be had in two."""
    parts = [(7, 2, 3)]
    ripped = cut(problem(parts, (9, 6), stages="2", first_cut="rip"))
    assert {sheet.first_cut for sheet in ripped.stock} == {"rip"}
    assert ripped.count == 1
    crossed = cut(problem(parts, (9, 6), stages="2", first_cut="crosscut"))
    assert {sheet.first_cut for sheet in crossed.stock} == {"crosscut"}


@pytest.mark.parametrize(("first_cut", "direction"), [("crosscut", "crosscut"), ("rip", "rip")])
def test_a_sheet_whose_blocks_divide_the_other_way_begins_with_the_cut_that_is_asked_for(
    first_cut: FirstCut, direction: str
) -> None:
    sizes = [(320, 320, 1), (3200, 320, 4), (6080, 1280, 2)]
    turned = [(width, length, count) for length, width, count in sizes]
    parts = sizes if first_cut == "crosscut" else turned
    asked = problem(parts, (9600, 9600), kerf=1280, stages="any", first_cut=first_cut)

    (sheet,) = solve_cutting(asked, Limits(work=0.2)).stock

    assert (sheet.first_cut, sheet.cuts[0].direction) == (first_cut, direction)


def stock(
    price: str | None,
    name: str = "whole",
    size: int = 10,
    on_hand: int = 0,
    limit: int | None = None,
) -> CutSheet:
    return CutSheet(name, "ply", size, 10, Decimal(price) if price else None, on_hand, limit)


def with_stock(count: int, *sheets: CutSheet) -> CuttingProblem:
    return CuttingProblem(
        tuple(CutPart(f"p#{i}", 5, 10, may_turn=False) for i in range(count)), sheets, kerf=0
    )


def test_sheets_on_hand_come_first_cost_nothing_and_do_not_count() -> None:
    answer = cut(with_stock(4, stock("9.00"), stock("4.00", "offcut", size=5, on_hand=2, limit=0)))
    assert [sheet.on_hand for sheet in answer.stock] == [True, True, False]
    assert (answer.cost, answer.count, answer.status) == (Decimal("9.00"), 1, Status.OPTIMAL)


def test_the_cheapest_mix_of_sizes_is_bought() -> None:
    """Three halves: whole and half cost 10 + 6, two wholes 20, three halves 18."""
    answer = cut(with_stock(3, stock("10.00"), stock("6.00", "half", size=5)))
    assert sorted(sheet.stock for sheet in answer.stock) == ["half", "whole"]
    assert answer.cost == answer.cost_bound == Decimal("16.00")


def test_at_equal_price_fewer_sheets_are_bought() -> None:
    answer = cut(with_stock(2, stock("10.00"), stock("5.00", "half", size=5)))
    assert (answer.cost, answer.count) == (Decimal("10.00"), 1)


def test_a_limited_size_is_bought_no_more_often_than_that() -> None:
    cheap = stock("1.00", "cheap", limit=1)
    answer = cut(with_stock(4, cheap, stock("10.00")))
    assert (answer.cost, answer.status) == (Decimal("11.00"), Status.OPTIMAL)


def test_scarce_stock_names_what_is_left_over_and_what_to_buy() -> None:
    asked = with_stock(3, stock("10.00", limit=1))
    with pytest.raises(CannotBeDoneError, match=r"left over: p#2\. 1 more of whole would do"):
        solve_cutting(asked, Limits())


def test_stock_that_just_does_is_found() -> None:
    """Two boards of 8 x 8 and 9 x 5 for 8 x 5, 8 x 3, 5 x 5 and 4 x 5: all of both."""
    parts = tuple(
        CutPart(f"p{i}", a, b, may_turn=False)
        for i, (a, b) in enumerate([(8, 5), (8, 3), (5, 5), (4, 5)])
    )
    sheets = (
        CutSheet("square", "ply", 8, 8, None, limit=1),
        CutSheet("strip", "ply", 9, 5, None, limit=1),
    )
    assert cut(CuttingProblem(parts, sheets, kerf=0)).count == 2
    scarce = replace(sheets[1], length=8)
    with pytest.raises(CannotBeDoneError, match="is too small for all parts"):
        solve_cutting(CuttingProblem(parts, (sheets[0], scarce), kerf=0), Limits())


def test_without_prices_the_area_decides_and_no_money_is_claimed() -> None:
    answer = cut(with_stock(1, stock(None), stock(None, "half", size=5)))
    assert [sheet.stock for sheet in answer.stock] == ["half"]
    assert (answer.cost, answer.priced, answer.status) == (Decimal("0.00"), False, Status.OPTIMAL)


def test_with_some_prices_missing_nothing_is_called_proven() -> None:
    answer = cut(with_stock(2, stock("9.00"), stock(None, "half", size=5)))
    assert answer.status is Status.FEASIBLE
    assert answer.cost_bound == Decimal("0.00")


def test_four_24_in_pieces_do_not_come_from_a_96_in_stick() -> None:
    """practice.md 3.2: 4 x 24 + 3 x 1/8 = 96-3/8 in."""
    pieces = tuple(StickPart(f"p#{i}", inches(24)) for i in range(4))
    asked = StickProblem(pieces, (StickStock("stick", inches(96), Decimal("9.60")),), KERF)
    assert solve_sticks(asked, Limits()).count == 2
    longer = replace(asked, sticks=(StickStock("stick", inches("96-3/8"), Decimal("9.60")),))
    assert solve_sticks(longer, Limits()).count == 1


def test_the_margin_is_kept_with_each_piece_of_a_stick() -> None:
    """Two pieces of 47-7/8 in and their cut take 95-7/8 in: 1/16 in is left for each, no more."""
    pieces = tuple(StickPart(f"p#{i}", inches("47-7/8")) for i in range(2))
    asked = StickProblem(pieces, (StickStock("stick", inches(96), Decimal("9.60")),), KERF)
    kept, not_kept = (replace(asked, margin=inches(x)) for x in ("1/16", "5/64"))

    (stick,) = solve_sticks(kept, Limits()).stock
    assert [(p.start, p.length) for p in stick.pieces] == [
        (0, inches("47-7/8")),
        (inches("48"), inches("47-7/8")),
    ]
    assert solve_sticks(not_kept, Limits()).count == 2
    with pytest.raises(CannotBeDoneError, match="1/16 in longer than the longest stick"):
        solve_sticks(replace(kept, pieces=(StickPart("leg", inches(96)),)), Limits())


def test_two_legs_and_a_head_take_two_16_ft_sticks() -> None:
    """practice.md 3.7: 82 + 82 + 36 = 200 in does not come from 192 in."""
    pieces = tuple(StickPart(n, inches(x)) for n, x in (("left", 82), ("right", 82), ("head", 36)))
    asked = StickProblem(pieces, (StickStock("16 ft", inches(192), Decimal("20.00")),), KERF)
    answer = solve_sticks(asked, Limits())
    assert (answer.count, answer.count_bound) == (2, 2)


def test_a_piece_longer_than_every_stick_is_refused_with_how_much() -> None:
    asked = StickProblem(
        (StickPart("leg", inches(100)),), (StickStock("s", inches(96), None),), KERF
    )
    with pytest.raises(CannotBeDoneError, match="4 in longer than the longest stick"):
        solve_sticks(asked, Limits())


def test_without_trimming_all_pieces_of_a_strip_are_as_wide_as_it() -> None:
    parts = [(40, 20, 1), (40, 10, 1)]  # one strip of 20 holds both, the lower one trimmed
    trimmed = problem(parts, (85, 20), stages="2", first_cut="rip")
    untrimmed = problem(parts, (85, 20), stages="2", first_cut="rip", trimming=False)
    assert solve_cutting(trimmed, Limits()).count == 1
    answer = solve_cutting(untrimmed, Limits())
    assert (faults(untrimmed, answer), answer.count) == ([], 2)


def test_without_trimming_pieces_of_one_width_share_a_strip() -> None:
    untrimmed = problem([(40, 20, 2)], (85, 20), stages="2", first_cut="rip", trimming=False)
    answer = solve_cutting(untrimmed, Limits())
    assert (faults(untrimmed, answer), answer.count) == ([], 1)
