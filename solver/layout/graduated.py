"""Layouts on the best graduated spacings: they bound the rhythm, and mostly things fit on them."""

from __future__ import annotations

from fractions import Fraction

from solver.layout import objective
from solver.layout.constraints import on_falls
from solver.layout.counting import leave_out_at_most
from solver.layout.falls import best_falls
from solver.layout.model import make
from solver.layout.objective import Objective
from solver.layout.search import Search
from solver.layout.shapes import LayoutProblem
from solver.layout.variables import classes_of
from solver.outcome import Limits, Verdict

FALLS_WORK = 1.0
"""Work for one look at layouts on the best spacings [CP-SAT units]."""


class BestFalls:
    """The best falls of each class of bays, from what marks allow at all."""

    def __init__(self, problem: LayoutProblem, limits: Limits, *, merge: bool) -> None:
        self._problem, self._limits, self._merge = problem, limits, merge
        wishes = problem.wishes
        self._classes = classes_of(problem, merge=merge)
        self._falls = {
            c: best_falls(one.shape, wishes.step_least, wishes.step_most)
            for c, one in enumerate(self._classes)
        }
        self._laid_out: dict[int, Search | None] = {}

    @property
    def bound(self) -> Fraction:
        """No layout has a better rhythm [tick]."""
        if not all(found.proven for found in self._falls.values()):
            return Fraction(0)
        scores = (self._classes[c].times * found.score for c, found in self._falls.items())
        return sum(scores, Fraction(0))

    def fit_all(self) -> bool:
        """Whether a layout on them is found with nothing left out; no search for fit is needed."""
        return self._of(0) is not None

    def suggest(self, search: Search, goal: Objective, left: int) -> None:
        """Make a layout on them, with so many things left out, the solution of a search."""
        trial = self._of(left)
        if trial is not None:
            heights = {
                c: [trial.value(trial.v.height(c, k)) for k in range(one.shape.openings)]
                for c, one in enumerate(self._classes)
            }
            search.adopt(trial, goal, objective.fall_values(search.v, heights))

    def _of(self, left: int) -> Search | None:
        """A layout on the best spacings, or else on some nearly as good; looked for once."""
        if left not in self._laid_out:
            self._laid_out[left] = self._looked_for(left)
        return self._laid_out[left]

    def _looked_for(self, left: int) -> Search | None:
        best = {c: found.marks for c, found in self._falls.items()}
        near = {c: found.near for c, found in self._falls.items()}
        for marks in (best, near):
            v = make(self._problem, merge=self._merge)
            leave_out_at_most(v, left)
            on_falls(v, marks)
            trial = Search(v, self._limits)
            if trial.feasible(work=FALLS_WORK) is Verdict.YES:
                return trial
        return None


def falls_of(problem: LayoutProblem, limits: Limits, *, merge: bool) -> BestFalls | None:
    """Return the best falls where the rhythm is graduated; other rhythms have none."""
    if problem.wishes.rhythm != "graduated":
        return None
    return BestFalls(problem, limits, merge=merge)
