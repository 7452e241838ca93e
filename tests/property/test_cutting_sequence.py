"""Any sheets that the engine makes can be cut in the order given, by any shop."""

from __future__ import annotations

from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.checking.check import check_cut
from solver.cutting.cutting_problem import CuttingProblem
from solver.job.job import Shop
from solver.plan.plan import CutPlan
from solver.plan.saw_cuts import Offcut
from solver.units import mm
from tests.cutting_checks import problem
from tests.edits import put
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


@settings(max_examples=120, deadline=None)
@given(st.data())
def test_the_replay_of_any_sequence_frees_exactly_the_parts(data: st.DataObject) -> None:
    asked = data.draw(problems())
    plan = cut_plan(asked, data.draw(shops(asked)))
    assert [str(finding) for finding in check_cut(plan)] == []


def tampered(data: st.DataObject, plan: CutPlan) -> CutPlan:
    """A plan in which one thing about one cut, setting or offcut is otherwise."""
    sheets = plan.sheets or ()
    number = data.draw(st.integers(0, len(sheets) - 1))
    cuts = sheets[number].cuts
    at = data.draw(st.integers(0, len(cuts) - 1))
    path, cut = f"sheets.{number}.cuts.{at}", cuts[at]
    other = {"rip": "crosscut", "crosscut": "rip"}[cut.direction]
    changes: list[tuple[str, Any]] = [
        (f"{path}.setting", cut.setting + data.draw(st.sampled_from([-1, 1]))),
        (f"{path}.panel", f"{cut.panel}x"),
        (f"{path}.direction", other),
        (f"{path}.saw", None if cut.saw else "table saw"),
        (f"{path}.guide", "fence" if cut.guide != "fence" else "stop"),
        (f"{path}.at", cut.at + sheets[number].kerf + mm(100)),
        (f"{path}.comes_off", None if cut.comes_off else cut.goes_on),
        (f"sheets.{number}.cuts", cuts[:at] + cuts[at + 1 :]),
        (f"sheets.{number}.cuts", (*cuts, cut)),
        (f"sheets.{number}.offcuts", sheets[number].offcuts[1:] or (an_offcut(),)),
        ("settings", plan.settings[1:]),
        ("settings.0.setting", plan.settings[0].setting + 1),
    ]
    return put(plan, *data.draw(st.sampled_from(changes)))


def an_offcut() -> Offcut:
    """An offcut that no sheet has."""
    return Offcut(name="offcut 1", x=0, y=0, length=mm(1), width=mm(1))


@settings(max_examples=120, deadline=None)
@given(st.data())
def test_a_sequence_that_was_tampered_with_is_refused(data: st.DataObject) -> None:
    asked = data.draw(problems())
    plan = cut_plan(asked, data.draw(shops(asked)))
    assume(all(sheet.cuts for sheet in plan.sheets or ()))
    assert check_cut(tampered(data, plan))


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_any_shop_of_bench_saws_keeps_crosscuts_off_the_fence_and_within_its_limits(
    data: st.DataObject,
) -> None:
    asked = data.draw(problems())
    shop = data.draw(shops(asked))
    for sheet in cut_plan(asked, shop).sheets or ():
        for cut in sheet.cuts:
            length = cut.end - cut.start
            assert not (cut.guide == "fence" and cut.direction == "crosscut")
            assert not (cut.saw == "mitre saw" and length > shop.mitre_capacity + asked.margin)
            if cut.guide == "fence" and shop.longest_rip is not None:
                assert length <= shop.longest_rip + 2 * asked.margin


@settings(max_examples=60, deadline=None)
@given(problems())
def test_the_same_sheets_get_the_same_order(asked: CuttingProblem) -> None:
    shop = a_shop(asked)
    first, again = cut_plan(asked, shop), cut_plan(asked, shop)
    assert (first.sheets, first.settings) == (again.sheets, again.settings)
