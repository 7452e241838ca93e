"""Any sheets that the engine makes can be cut in the order given, by any shop."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check_cut
from solver.cutting.problem import CuttingProblem
from solver.job import Shop
from solver.units import mm
from tests.cutting_checks import problem
from tests.sequences import SAWS, a_shop, cut_plan


def lengths(least: int, most: int) -> st.SearchStrategy[int]:
    """Whole millimetres."""
    return st.integers(least, most).map(mm)


@st.composite
def problems(draw: st.DrawFn) -> CuttingProblem:
    """Small sheets with every rule that changes the cuts."""
    trim, margin = draw(lengths(0, 3)), draw(lengths(0, 2))
    size = lengths(1, 30)
    parts = draw(st.lists(st.tuples(size, size, st.integers(1, 4)), min_size=1, max_size=7))
    length = draw(lengths(30, 70)) + 2 * trim + margin
    width = draw(lengths(30, 50)) + 2 * trim + margin
    return problem(
        parts,
        (length, width),
        turn=draw(st.booleans()),
        kerf=draw(lengths(0, 4)),
        edge_trim=trim,
        margin=margin,
        stages=draw(st.sampled_from(["2", "3", "any"])),
        first_cut=draw(st.sampled_from(["rip", "crosscut", "either"])),
    )


@st.composite
def shops(draw: st.DrawFn, asked: CuttingProblem) -> Shop:
    """Any saws with limits about as large as the sheets."""
    size = lengths(1, 60)
    limits: dict[str, Any] = {
        "saws": draw(st.lists(st.sampled_from(SAWS), min_size=1, unique=True)),
        "place": draw(st.sampled_from(["shop", "site"])),
        "mitre_capacity": draw(size),
        "sled_capacity": draw(size),
        "least_rip": draw(lengths(0, 10)),
        "least_length": draw(lengths(0, 20)),
        "least_offcut": (draw(size), draw(size)),
        "longest_rip": draw(st.none() | size),
        "largest_panel": draw(st.none() | st.tuples(size, size)),
    }
    return a_shop(asked, **limits)


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_the_replay_of_any_sequence_frees_exactly_the_parts(data: st.DataObject) -> None:
    asked = data.draw(problems())
    plan = cut_plan(asked, data.draw(shops(asked)))
    assert [str(finding) for finding in check_cut(plan)] == []
