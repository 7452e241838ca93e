"""What the steps say: this job's numbers, and nothing that it has not."""

from __future__ import annotations

from math import hypot

import pytest

from solver.costing.labour_count import CaseWork
from solver.costing.labour_tasks import JOINTS_MOST, lots
from solver.plan.work import Step
from solver.units import inches, mm
from solver.work.build_steps import build_steps
from solver.work.step_facts import diagonal
from tests.builders import make_job
from tests.priced import KINDS, option_of_kind, plan_of_kind
from tests.two_bays_job import BAY, HEIGHT, INSIDE_HEIGHT, MARK_1, MARK_2, T


def steps_of(kind: str) -> dict[str, Step]:
    return {one.key: one for one in build_steps(plan_of_kind(kind).job, option_of_kind(kind))}


def said(kind: str, key: str) -> str:
    return " | ".join(steps_of(kind)[key].does)


@pytest.mark.parametrize(
    ("width", "height"),
    [(mm(300), mm(400)), (mm(1254), mm(1000)), (inches("27-1/4"), inches("79-3/8")), (1, 1)],
)
def test_the_diagonal_is_exact_to_the_tick(width: int, height: int) -> None:
    found = diagonal(width, height)
    assert found == round(hypot(width, height))
    square = width**2 + height**2
    assert (2 * found - 1) ** 2 <= 4 * square <= (2 * found + 1) ** 2
    assert diagonal(mm(300), mm(400)) == mm(500)


def test_marks_are_those_of_the_plan() -> None:
    text = said("two bays", "mark hall")
    assert f"1 at {MARK_1} mm, 2 at {MARK_2} mm" in text
    assert f"top: underside at {HEIGHT - T} mm" in text
    # the bottom's left end lies in its dado, 6 deep, in the left side
    assert f"left faces at {BAY + 6} mm from the left end" in text
    (case,) = plan_of_kind("two bays").job.cases
    foot = HEIGHT - T - INSIDE_HEIGHT - 6
    assert case.dado == mm(6)
    assert f"their lower ends at {foot} mm" in text


def test_every_setting_of_the_saws_is_a_line_of_the_cutting() -> None:
    for kind in KINDS:
        lines = steps_of(kind)["sheets"].does
        assert len(lines) == len(option_of_kind(kind).settings) + 1


def test_a_hung_case_stands_on_its_floor_gap_and_is_opened_before_the_wall_trim() -> None:
    steps = steps_of("hung, classical")
    assert "bottom end 3/4 in above the floor" in said("hung, classical", "hang case")
    swing = option_of_kind("hung, classical").cases[0].swing
    assert swing is not None
    assert f"slowly to {swing.opens_to} degrees" in said("hung, classical", "open-test case")
    assert "open-test case" in {one.step for one in steps["wall trim case"].after}
    assert steps["hang case"].people == 2


@pytest.mark.parametrize(
    ("kind", "has", "has_not"),
    [
        ("hung, plain", {"hang", "open-test", "catches", "old door"}, {"cleat", "scribe", "fix"}),
        ("wall", {"studs", "cleat", "fix"}, {"hang", "old door", "opening", "scribe"}),
        ("standing", {"fix", "trim"}, {"opening", "cleat", "hang", "old door"}),
        ("built-in, strips", {"opening", "scribe", "fix"}, {"cleat", "hang", "old door"}),
    ],
)
def test_steps_by_the_kind_of_case(kind: str, has: set[str], has_not: set[str]) -> None:
    found = {key.removesuffix(" case") for key in steps_of(kind) if key.endswith(" case")}
    assert has <= found
    assert not has_not & found


def test_paint_is_primed_before_assembly_and_clear_finish_has_its_first_coat_then() -> None:
    painted, clear = steps_of("standing"), steps_of("lit, two clear coats")
    assert painted["coat 1 case"].what == "Coat 1 of 1: primer, before assembly"
    assert clear["coat 1 case"].what == "Coat 1 of 2: clear finish, before assembly"
    for steps in (painted, clear):
        (before,) = steps["glue 1 case"].after
        assert (before.step, before.wait) == ("coat 1 case", 4 * 60)


@pytest.mark.parametrize("kind", KINDS)
def test_glue_ups_keep_within_the_open_time_and_take_every_board_once(kind: str) -> None:
    plan, option = plan_of_kind(kind), option_of_kind(kind)
    for planned in option.cases:
        work = CaseWork(plan.job, option, planned)
        made = lots(work)
        boards = [board for lot in made for board in lot.boards]
        assert sorted(boards) == sorted(work.jointed)
        assert [lot.sides for lot in made] == [True] + [False] * (len(made) - 1)
        assert all(lot.joints <= JOINTS_MOST for lot in made if not lot.too_many)
        assert {"top", "bottom"} <= {board.rpartition("/")[2] for board in made[0].boards}


@pytest.mark.parametrize("kind", KINDS)
def test_every_step_has_something_to_do_and_every_caution_a_source(kind: str) -> None:
    for step in steps_of(kind).values():
        assert step.works, step.key
        assert all(caution.source for caution in step.cautions)


def test_the_hash_of_a_job_does_not_change_for_want_of_a_price() -> None:
    job = make_job()
    assert "price" not in job.model_dump(by_alias=True)
    assert job.terms.hours_a_day == 7
