"""Cases and instances that others published, with the number of sheets they give."""

from __future__ import annotations

from decimal import Decimal
from functools import partial

import pytest

from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from solver.units import inches, mm
from tests.cutting_checks import faults, problem

KERF = inches("1/8")
FOUR_BY_EIGHT = inches(96), inches(48)


def inch_parts(*rows: tuple[str, str, int]) -> list[tuple[int, int, int]]:
    return [(inches(length), inches(width), count) for length, width, count in rows]


def test_a_plywood_case_of_one_sheet() -> None:
    """Graduated plywood case, howstuffworks.com "How to Build Furniture": 3/4 in ply, one sheet.

    Strips [54 + 30], [54 + 28-1/2], [3 x 28-1/2] of 12 in take 84-1/8, 82-5/8, 85-3/4 of 96.
    """
    parts = inch_parts(("54", "12", 2), ("30", "12", 1), ("28-1/2", "12", 4))
    for stages in ("2", "3", "any"):
        asked = problem(parts, FOUR_BY_EIGHT, kerf=KERF, stages=stages, first_cut="rip")
        answer = solve_cutting(asked, Limits())
        assert faults(asked, answer) == []
        assert (answer.count, answer.status) == (1, Status.OPTIMAL)


def test_a_metric_case_of_two_sheets() -> None:
    """Bookshelf, bronze level (paperzz.com 7843242): 2 sheets of 2400 x 1200 x 25 at $80."""
    rows = [
        (2000, 396, 2),
        (750, 385, 2),
        (750, 390, 1),
        (748, 385, 4),
        (850, 105, 1),
        (420, 105, 2),
    ]
    parts = tuple(
        CutPart(f"{a} x {b}#{i}", mm(a), mm(b), may_turn=True) for a, b, n in rows for i in range(n)
    )
    board = CutSheet("MDF 25", "MDF", mm(2400), mm(1200), Decimal("80.00"))
    asked = CuttingProblem(parts, (board,), kerf=mm(3))
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
    assert (answer.cost, answer.cost_bound) == (Decimal("160.00"), Decimal("160.00"))


def test_a_hardwood_case_of_one_sheet() -> None:
    """Plywood case, issuhub.com 5674 p. 20: "only one sheet"."""
    rows = [("42-1/2", "10-1/4", 2), ("29", "10", 2), ("28-1/2", "10", 1), ("31-1/2", "5", 1)]
    asked = problem(inch_parts(*rows, ("11", "5", 2)), FOUR_BY_EIGHT, kerf=KERF)
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
    assert answer.count == answer.count_bound == 1


# Berkey and Wang, J. Opl Res. Soc. 38 (1987), class 1; fewest sheets with edge-to-edge cuts from
# Becker's exact models: (parts, fixed, turning) on 10 x 10.
BERKEY_WANG = {
    "cl_01_020_01": (
        "5x9*1 4x2*1 10x6*1 5x7*1 6x3*1 10x7*1 1x5*1 3x5*1 6x9*1 2x4*1 6x7*1 7x2*1 8x3*3 4x10*1"
        " 4x5*1 10x3*1 7x8*1 8x7*1",
        8,
        7,
    ),
    "cl_01_020_02": (
        "2x2*2 6x8*1 10x2*1 1x3*1 8x4*1 3x10*1 1x9*2 1x5*1 6x3*1 1x1*1 4x2*1 9x2*1 9x5*1 4x7*1"
        " 3x4*1 9x7*1 4x1*1 9x8*1",
        5,
        5,
    ),
    "cl_01_020_03": (
        "7x5*1 10x6*1 5x6*1 7x2*1 4x8*1 9x10*1 8x5*1 8x6*1 4x9*1 9x3*1 3x10*1 9x5*1 1x7*1 8x9*1"
        " 4x6*1 3x6*1 4x3*1 10x2*1 6x1*1 1x4*1",
        9,
        7,
    ),
    "cl_01_020_04": (
        "4x7*1 1x3*2 6x7*1 8x2*1 9x4*1 6x2*1 7x7*1 3x6*1 2x7*1 3x8*1 4x3*1 1x9*1 8x1*1 1x10*1"
        " 7x6*1 9x5*1 3x7*1 8x3*1 6x9*1",
        6,
        5,
    ),
}


def read(text: str) -> list[tuple[int, int, int]]:
    rows = [row.replace("*", "x").split("x") for row in text.split()]
    return [(int(a), int(b), int(n)) for a, b, n in rows]


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("name", BERKEY_WANG)
def test_published_instances_reach_their_fewest_sheets(name: str, turn: bool) -> None:
    text, fixed, turning = BERKEY_WANG[name]
    asked = problem(read(text), (10, 10), turn=turn)
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
    assert answer.count == (turning if turn else fixed)
    assert answer.count_bound <= answer.count


def rectpack_count(parts: list[tuple[int, int, int]], sheet: tuple[int, int], turn: bool) -> int:
    """Sheets that the general-purpose packer takes, cutting edge to edge, by its best setting.

    Merging of free rectangles is off, since it may give patterns that cannot be cut so.
    """
    import rectpack
    from rectpack import guillotine

    best = 10**9
    for name in (
        "GuillotineBssfSas",
        "GuillotineBssfLas",
        "GuillotineBafSas",
        "GuillotineBlsfLlas",
    ):
        made = partial(getattr(guillotine, name), merge=False)
        for order in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE):
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline, pack_algo=made, sort_algo=order, rotation=turn
            )
            for length, width, count in parts:
                for _ in range(count):
                    packer.add_rect(length, width)
            packer.add_bin(*sheet, count=sum(n for *_, n in parts))
            packer.pack()
            assert sum(len(bin_) for bin_ in packer) == sum(n for *_, n in parts)
            best = min(best, len(packer))
    return best


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("name", BERKEY_WANG)
def test_a_general_purpose_packer_never_takes_fewer_sheets(name: str, turn: bool) -> None:
    parts = read(BERKEY_WANG[name][0])
    answer = solve_cutting(problem(parts, (10, 10), turn=turn), Limits())
    assert answer.count <= rectpack_count(parts, (10, 10), turn)


def test_furniture_order_a1_takes_three_sheets() -> None:
    """Macedo, Alves and Valério de Carvalho, Computers & OR 37 (2010), A1: 2750 x 1220."""
    asked = problem([(1680, 420, 6), (463, 386, 18)], (2750, 1220))
    answer = solve_cutting(asked, Limits())
    assert faults(asked, answer) == []
    assert answer.count == answer.count_bound == 3


def test_falkenauer_triplets_fill_every_stick() -> None:
    """A triplet instance in the manner of Falkenauer (1996): three pieces fill each stick."""
    triplets = [(40 + i, 31 + i % 7, 100 - (40 + i) - (31 + i % 7)) for i in range(8)]
    pieces = tuple(
        StickPart(f"p{i}.{j}", length)
        for i, lengths in enumerate(triplets)
        for j, length in enumerate(lengths)
    )
    asked = StickProblem(pieces, (StickStock("s", 100, None),), kerf=0)
    answer = solve_sticks(asked, Limits())
    assert (answer.count, answer.count_bound) == (len(triplets), len(triplets))
