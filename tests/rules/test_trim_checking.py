"""Plans with trim pass the checker, which restates every length; changed pieces are found."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from solver.batch.plan_batch import plan_batch
from solver.carcass.settled_job import depths_of, settled_job
from solver.checking.batch import check_batch
from solver.checking.check import check
from solver.checking.findings import Code
from solver.checking.structure import view
from solver.checking.trim import moulded
from solver.outcome import Limits
from solver.plan.plan import Plan
from solver.plan.stocked import Stick, StickPiece
from solver.planning.plan_job import plan_job
from solver.trim.moulding_pieces import moulding_pieces
from tests.edits import put
from tests.trims import EVERY, trim_job


@cache
def planned(name: str) -> Plan:
    kind, trim = EVERY[name]
    return plan_job(trim_job(kind, trim), Limits(seconds=20))


@pytest.mark.parametrize("name", EVERY)
def test_plans_with_trim_are_good_and_both_ways_to_its_lengths_agree(name: str) -> None:
    plan = planned(name)
    assert check(plan) == ()
    option = plan.options[0]
    job, depths = settled_job(plan.job, option), depths_of(option)
    (seen,) = view(plan, option).cases
    made = moulding_pieces(job, job.cases[0], option.shelf_counts["case"], depths["case"])
    assert made, "there is trim"
    assert {ident: (stock, length) for ident, stock, length in made} == moulded(seen)


def _pieces(change: Callable[[StickPiece], StickPiece | None]) -> Callable[[Stick], Stick]:
    def edit(stick: Stick) -> Stick:
        made = [change(piece) for piece in stick.pieces]
        return stick.model_copy(update={"pieces": tuple(p for p in made if p is not None)})

    return edit


def _longer(piece: StickPiece) -> StickPiece:
    if piece.part != "case/trim-head":
        return piece
    return piece.model_copy(update={"length": piece.length - 1})


def _gone(piece: StickPiece) -> StickPiece | None:
    return None if piece.part == "case/trim-head" else piece


def _other_stock(stick: Stick) -> Stick:
    held = any(piece.part == "case/trim-head" for piece in stick.pieces)
    return stick.model_copy(update={"stock": "head 4-1/2"}) if held else stick


@pytest.mark.parametrize(
    ("edit", "code"),
    [
        (_pieces(_longer), Code.STICK_LENGTH),
        (_pieces(_gone), Code.STICK_PART_MISSING),
        (_other_stock, Code.STICK_MOULDING),
    ],
)
def test_a_changed_piece_of_trim_is_found(edit: Callable[[Stick], Stick], code: Code) -> None:
    plan = put(
        planned("hung, plain"),
        "options.0.mouldings",
        lambda sticks: tuple(edit(stick) for stick in sticks),
    )
    assert code in {finding.code for finding in check(plan)}


def test_trim_of_two_jobs_is_cut_together_and_checked() -> None:
    """Casing of two wall cases out of the same sticks: no dearer, and no finding."""
    jobs = {"one": trim_job("wall", EVERY["wall"][1]), "two": trim_job("wall", EVERY["wall"][1])}
    batch = plan_batch(jobs, Limits(seconds=20))

    assert check_batch(batch) == ()
    carried = {piece.part for stick in batch.mouldings for piece in stick.pieces}
    assert {"one/case/trim-head", "two/case/trim-head"} <= carried
