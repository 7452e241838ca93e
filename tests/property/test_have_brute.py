"""Cutting around what is there, held against trying every use of every piece on tiny lists."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.cutting.solve_sheets import solve_cutting
from solver.outcome import Limits, Status
from solver.plan.stocked import Part
from solver.sizing.on_hand_use import cut_around
from tests.batches import client_job
from tests.cutting_brute import fits, least_cost, subsets
from tests.haves import with_rows

STEP = 10 * 320
"""All sizes are whole steps of 10 mm, the saw cut is one; what tries everything counts in steps."""
SHEET = (10, 6)
SIDES = st.integers(2, 5)

pieces = st.fixed_dictionaries(
    {
        "what": st.sampled_from(["cut", "cut", "offcut", "short"]),
        "shelf": st.integers(1, 4),
        "length": st.integers(2, 9),
        "width": SIDES,
    }
)


def _row(piece: dict[str, Any]) -> dict[str, Any]:
    size = {"length": piece["length"] * STEP, "width": piece["width"] * STEP}
    if piece["what"] == "offcut":
        return {"what": "offcut", "material": "oak ply 18", "clean": True, **size}
    return {"what": piece["what"], "name": f"alcove/shelf-{piece['shelf']}", **size}


def _part(number: int, size: tuple[int, int]) -> Part:
    return Part(
        id=f"alcove/shelf-{number}",
        name="shelf",
        case="alcove",
        material="oak ply 18",
        length=size[0] * STEP,
        width=size[1] * STEP,
        thickness=18 * 320,
        grain="length",
    )


def _problem(parts: list[Part], step: int) -> CuttingProblem:
    """The problem with lengths in ticks, or with a `step` of STEP in steps."""
    length, width = (side * STEP // step for side in SHEET)
    return CuttingProblem(
        parts=tuple(
            CutPart(part.id, part.length // step, part.width // step, may_turn=False)
            for part in parts
        ),
        sheets=(CutSheet("s", "oak ply 18", length, width, Decimal("1.00")),),
        kerf=STEP // step,
    )


def _goes(size: tuple[int, int, bool], room: tuple[int, int]) -> bool:
    return size[0] <= room[0] and size[1] <= room[1]


def _least(parts: list[Part], there: list[dict[str, Any]]) -> int:
    """Fewest new sheets over every choice of parts for every piece."""
    sizes = [(part.length // STEP, part.width // STEP, False) for part in parts]

    whole = _problem(parts, STEP)

    @cache
    def need(left: frozenset[int], piece: int) -> int:
        if piece == len(there):
            rest = [parts[n] for n in sorted(left)]
            return least_cost(_problem(rest, STEP), [1]) if rest else 0
        room = there[piece]["length"], there[piece]["width"]
        return min(
            need(left - set(some), piece + 1)
            for some in subsets(sorted(n for n in left if _goes(sizes[n], room)))
            if not some or fits(whole, tuple(sorted(sizes[n] for n in some)), room)
        )

    return need(frozenset(range(len(parts))), 0)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(SIDES, SIDES), min_size=1, max_size=4),
    st.lists(pieces, min_size=1, max_size=3),
)
def test_as_few_new_sheets_as_trying_everything(
    sizes: list[tuple[int, int]], there: list[dict[str, Any]]
) -> None:
    job = with_rows(
        client_job(1, shop={"kerf": "10 mm", "edge_trim": 0, "margin": 0}), *map(_row, there)
    )
    parts = [_part(number, size) for number, size in enumerate(sizes, start=1)]
    limits = Limits(work=1.0)

    made, answer = cut_around(
        job, "oak ply 18", parts, _problem(parts, 1), lambda asked: solve_cutting(asked, limits)
    )

    assert answer.count == _least(parts, there)
    assert answer.status is Status.OPTIMAL
    assert answer.cost_bound == answer.cost
    cut = {piece.part for sheet in answer.stock for piece in sheet.pieces}
    assert cut | made.done == {part.id for part in parts}
    assert cut & made.done == set()
