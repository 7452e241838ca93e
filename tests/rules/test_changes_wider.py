"""A case made wider where the sag limit is felt: the least width that does, against all widths."""

from __future__ import annotations

import pytest

from solver.changes.levers import Lever, growths
from solver.changes.situation import Situation
from solver.changes.trials import Fitter, sag_felt
from solver.layout.problem_from_job import build
from solver.outcome import Limits, Verdict
from solver.units import TICKS_PER_INCH, inches, round_up
from tests.builders import make_job

STEP = TICKS_PER_INCH // 4
NARROW = 26
"""Inside width as asked, too little for five things of 5 in and their gaps [in]."""


def job_of(weight: str, thickness: str = "3/8") -> Situation:
    """A thin bottom board on a wall, and five heavy things of 5 in: 28 in with gaps and margins."""
    thing = {"name": "stone", "width": "5", "height": "5", "depth": "5", "count": 5}
    case = {"width": str(NARROW), "height": "12", "depth": "8", "shelves": 0}
    look = {"gap": "1/2", "end_margin": "1/2", "headroom": "1/2"}
    job = make_job(
        case={**case, "kind": "wall", "sizes": "inside", "back": "none"},
        items=[{**thing, "weight": weight}],
        look={**look, "shelf_load": "200 lb"},
        shop={"cutting_step": "1/4"},
        sheet=[{"name": "s", "material": "m", "length": 96, "width": 48, "thickness": thickness}],
    )
    case_made = job.cases[0].model_copy(update={"material": "m"})
    return Situation(job.model_copy(update={"cases": (case_made,)}), {"case": (0,)})


def carries(steps: int) -> int:
    """What the bottom board carries, so many steps wider, before it sags to the limit [g].

    The load is spread evenly between the end margins, as the layout takes it.
    """
    situation = job_of("1 lb")
    job = lever_of(situation).at(situation, steps).job
    (bay,) = build(job, {"case": (0,)}, {"case": inches(8)}).bays
    return bay.load_at(0)


def lever_of(situation: Situation) -> Lever:
    return next(one for one in growths(situation.job) if one.what == "width")


def fits(situation: Situation, steps: int) -> bool:
    fitter = Fitter(Limits(seed=1, work=5, seconds=60))
    return fitter.fits(lever_of(situation).at(situation, steps)) is Verdict.YES


NEEDED = round_up(inches(5 * 5 + 2 + 1) - inches(NARROW), STEP) // STEP
"""Steps of width at which five things stand side by side."""


@pytest.mark.parametrize("spare", [0, 3])
def test_the_least_width_is_found_and_proven_though_the_most_does_not_do(spare: int) -> None:
    each = carries(NEEDED + spare) // 5
    situation = job_of(f"{each} g")
    lever = lever_of(situation)

    assert sag_felt(situation, lever)
    assert not fits(situation, lever.most), "a case much wider sags"
    doing = [steps for steps in range(NEEDED + spare + 3) if fits(situation, steps)]
    assert doing == list(range(NEEDED, NEEDED + spare + 1))
    least = Fitter(Limits(seed=1, work=5, seconds=60)).least(situation, lever)
    assert least is not None
    assert (least.steps, least.proven) == (NEEDED, True)


def test_where_no_width_does_none_is_told() -> None:
    each = carries(NEEDED - 1) // 5
    situation = job_of(f"{each} g")

    assert Fitter(Limits(seed=1, work=5, seconds=60)).least(situation, lever_of(situation)) is None


def test_a_board_that_is_stiff_enough_is_halved_as_before() -> None:
    situation = job_of("1 oz", "3/4")
    lever = lever_of(situation)

    assert not sag_felt(situation, lever)
    least = Fitter(Limits(seed=1, work=5, seconds=60)).least(situation, lever)
    assert least is not None
    assert (least.steps, least.proven) == (NEEDED, True)
