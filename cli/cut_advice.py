"""Advice on a list that was cut: a share of the time that the command may take."""

from __future__ import annotations

from collections.abc import Sequence

from solver.advice.advise import Advised, Asked, advise
from solver.advice.lots import Answer, Problem, lot_of, stock_of
from solver.cutting.problem import CuttingProblem
from solver.outcome import Limits
from solver.stocked import Part
from solver.units import Ticks, Unit

TIME_SHARE = 0.3
"""Share of the time limit that advice may take, where so much is left [-]."""

TIME_LEAST = 0.02
"""With less of the time limit left than this share, advice is not begun [-]."""

WORK_SHARE = 0.01
"""Share of the work that cutting one changed list may take [-]."""

NO_TIME = "no advice: the time limit was used up by the cutting; give more with --time-limit"


def advise_on(
    problems: Sequence[Problem],
    answers: Sequence[Answer],
    parts: Sequence[Part],
    kept: tuple[Ticks, Unit],
    limits: Limits,
) -> Advised:
    """Find small changes of a cut list that save stock; `kept` is margin [tick] and unit."""
    seconds = min(limits.seconds_left, limits.seconds * TIME_SHARE)
    if seconds < limits.seconds * TIME_LEAST or limits.stopper.stopped:
        return Advised((), NO_TIME)
    lots = [
        lot_of(_material(problem), problem, stock_of(answer))
        for problem, answer in zip(problems, answers, strict=True)
    ]
    asked = Asked({part.id: part for part in parts}, kept[1], kept[0], split=may_split)
    share = Limits(limits.seed, limits.work * WORK_SHARE, seconds, limits.stopper)
    return advise(lots, asked, share)


def _material(problem: Problem) -> str:
    if isinstance(problem, CuttingProblem):
        return problem.sheets[0].material
    return problem.sticks[0].stock


def may_split(part: Part) -> bool:
    """Whether a part may be joined of two: a shelf carries a load between its ends, so never."""
    return "shel" not in part.name.lower()
