"""Any list with sets gives a cut plan that the checker passes, cuts and sequence included."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.checking.check import check_cut
from solver.outcome import Limits
from solver.planning.cut_list import CutList, PartRow, StockOption
from solver.planning.cut_list_plan import solve
from solver.units import mm


@st.composite
def jobs(draw: st.DrawFn) -> CutList:
    rows = [
        PartRow(
            part=f"p{i}",
            names=tuple(f"p{i}#{k}" for k in range(1, draw(st.integers(1, 4)) + 1)),
            length=mm(draw(st.integers(40, 300))),
            width=mm(draw(st.integers(20, 120))),
            material=draw(st.sampled_from(["", "oak"])),
            thickness=0,
            grain=draw(st.sampled_from(["length", "width", "any"])),
            mitres=0,
            set=draw(st.sampled_from([None, "m", "n"])),
        )
        for i in range(draw(st.integers(1, 4)))
    ]
    return CutList(
        rows=rows,
        stock=[StockOption("s", mm(600), mm(330), Decimal("20.00"), None)],
        unit="mm",
        kerf=mm(draw(st.integers(0, 4))),
        edge_trim=mm(draw(st.sampled_from([0, 6]))),
        margin=mm(draw(st.sampled_from([0, 1]))),
        mitre=0,
        turn=draw(st.booleans()),
        stages=draw(st.sampled_from(["2", "3", "any"])),
        first=draw(st.sampled_from(["rip", "crosscut", "either"])),
        mouldings=False,
    )


@settings(max_examples=80, deadline=None)
@given(jobs())
def test_a_cut_plan_with_sets_passes_the_checker(job: CutList) -> None:
    plan = solve(job, Limits(work=0.3))
    assert check_cut(plan) == ()
    wished = {name for row in job.rows if row.set for name in row.names}
    assert {part for one in plan.sets for part in one.parts} == wished
