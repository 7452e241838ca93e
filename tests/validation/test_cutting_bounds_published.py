"""Bounds against published ones: instances and their proven fewest sheets, source beside each."""

from __future__ import annotations

import pytest

from solver.cutting.better_scales import mixed_scale_rows
from solver.cutting.dual_feasible_bounds import covering_rows, lower_bounds
from solver.cutting.padded_sizes import PaddedProblem, pad
from solver.cutting.refute import Refuter, patterns_for
from solver.outcome import Limits
from tests.cutting_checks import problem
from tests.validation.test_cutting_published import BERKEY_WANG, read

# Proven fewest sheets, edge to edge without a limit on stages, fixed and turning.
PROVEN = {
    # Berkey and Wang (1987), classes 3 and 5, proven by Becker's exact models.
    "cl_03_020_01": (
        "18x30*1 13x5*1 33x19*1 17x22*1 18x9*1 34x24*1 1x16*1 9x15*1 19x31*1 4x11*1 19x23*1 24x4*1"
        " 27x9*1 13x33*1 13x15*1 34x9*1 27x10*1 22x28*1 26x11*1 25x25*1",
        (40, 40),
        6,
        5,
    ),
    "cl_05_020_01": (
        "50x85*1 35x14*1 94x54*1 47x62*1 52x25*1 96x67*1 1x43*1 24x42*1 53x86*1 11x31*1 52x65*1"
        " 66x11*1 76x25*1 36x94*1 36x42*1 97x24*1 76x29*1 61x79*1 74x29*1 71x69*1",
        (100, 100),
        8,
        7,
    ),
    # Martello and Vigo (1998), class 8, the same.
    "cl_08_020_01": (
        "56x75*1 47x84*1 13x82*1 48x89*1 21x66*1 27x96*1 33x69*2 47x92*1 18x80*1 15x99*1 31x93*1"
        " 35x91*1 21x73*1 8x68*1 39x90*1 34x99*1 36x73*1 13x79*1 10x42*1",
        (100, 100),
        6,
        6,
    ),
    # Furniture orders of Macedo, Alves and Valério de Carvalho, Computers & OR 37 (2010).
    "A1": ("1680x420*6 463x386*18", (2750, 1220), 3, 3),
    "A5": (
        "623x986*10 623x486*16 736x310*32 486x310*16 706x286*28 728x210*16 2357x975*12 303x386*8",
        (2470, 2080),
        13,
        12,
    ),
}


def proven(padded: PaddedProblem) -> int:
    """The most sheets that are proven to be needed."""
    found = covering_rows(padded) + mixed_scale_rows(padded, 10**8, lambda row: False)
    count = lower_bounds(padded, found)[1]
    refuter = Refuter(padded, patterns_for(padded, found, 3 * 10**8), [])
    while refuter.refuted({0: count}, Limits()):
        count += 1
    return count


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("name", PROVEN)
def test_the_published_fewest_sheets_are_proven(name: str, turn: bool) -> None:
    text, size, fixed, turning = PROVEN[name]
    asked = problem(read(text), size, turn=turn)
    assert proven(pad(asked)) == (turning if turn else fixed)


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize("name", BERKEY_WANG)
def test_the_smallest_class_is_proven_as_published(name: str, turn: bool) -> None:
    text, fixed, turning = BERKEY_WANG[name]
    assert proven(pad(problem(read(text), (10, 10), turn=turn))) == (turning if turn else fixed)


def test_scales_ask_for_more_than_dual_feasible_functions() -> None:
    """Order A5: the known functions ask for 12 sheets, scales found for its sizes for 13."""
    text, size, fixed, _ = PROVEN["A5"]
    padded = pad(problem(read(text), size))
    assert lower_bounds(padded, covering_rows(padded))[1] == fixed - 1
    assert lower_bounds(padded, mixed_scale_rows(padded, 10**8, lambda row: False))[1] == fixed


def test_a_square_board_counts_turning_parts_both_ways() -> None:
    """Clautiaux, Jouglet and El Hayek (2007): six 6 x 5 on 10 x 10 with turning.

    Area asks for 180 of 100. By one direction a 6 takes the whole side and a 5 half of it,
    so each part takes half a board whichever way it lies.
    """
    padded = pad(problem([(6, 5, 6)], (10, 10), turn=True))
    (best,) = mixed_scale_rows(padded, 10**6, lambda row: True)
    assert best.need * 2 == 6 * max(best.capacity)
