"""Running CP-SAT stage by stage: each solution is the complete hint of the next stage.

Also how the model of a layout is made, and its marks by bay and by class of bays alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import TypeAlias

from solver.cp_sat import cp_model
from solver.layout.constraints import RULES, Rule
from solver.layout.layout_problem import LayoutProblem
from solver.layout.objective import Objective
from solver.layout.variables import LayoutVariables, Linear, classes_of
from solver.outcome import Limits, Status, Verdict

_STATUS = {
    cp_model.OPTIMAL: Status.OPTIMAL,
    cp_model.FEASIBLE: Status.FEASIBLE,
    cp_model.INFEASIBLE: Status.INFEASIBLE,
    cp_model.UNKNOWN: Status.UNKNOWN,
}
_VERDICT = {
    Status.OPTIMAL: Verdict.YES,
    Status.FEASIBLE: Verdict.YES,
    Status.INFEASIBLE: Verdict.NO,
    Status.UNKNOWN: Verdict.UNSETTLED,
}

Opening: TypeAlias = tuple[int, int]
"""(class, opening)."""

NEIGHBOURHOODS_SIZE = 12_000
"""Variables that all pairs of openings tried may have together, and all threes again: each
is a small search in a copy of the whole model."""


@dataclass(frozen=True)
class Found:
    """Result of one stage: value and bound in the objective's own unit (see `Objective.unit`)."""

    status: Status
    value: Fraction | None
    bound: Fraction
    raw: int | None
    exact: bool = True

    @property
    def proven(self) -> bool:
        """True where value and bound meet and the expression is the true score."""
        return self.value is not None and self.value <= self.bound and self.exact


class Search:
    """Solves a model stage by stage with one worker, a fixed seed and a deterministic limit."""

    def __init__(self, v: LayoutVariables, limits: Limits) -> None:
        self.v, self.limits = v, limits
        self.solution: list[int] | None = None
        self.core: tuple[int, ...] = ()
        """Indices of the assumptions that a proof of infeasibility used."""
        self._hints: dict[str, int] = {}

    def minimise(self, goal: Objective, *, work: float | None = None, enough: int = 0) -> Found:
        """Minimise one goal from the solution so far; a gap of `enough` raw units will do."""
        self.v.model.minimize(goal.expression)
        solver = self._solver(work)
        solver.parameters.absolute_gap_limit = float(enough)
        status = self._run(solver)
        bound = goal.unit * max(0, self._bound(solver, status))
        if status in (Status.OPTIMAL, Status.FEASIBLE):
            raw = round(solver.objective_value)
            return Found(status, goal.unit * raw, min(bound, goal.unit * raw), raw, goal.exact)
        return Found(status, None, bound, None)

    @staticmethod
    def _bound(solver: cp_model.CpSolver, status: Status) -> int:
        """The proven lower bound; 0, which always holds here, where the search never started."""
        try:
            return round(solver.best_objective_bound) if status is not Status.INFEASIBLE else 0
        except RuntimeError:
            return 0

    def hint(self, other: Search) -> None:
        """Take what another model of the same problem found as hint, variable by name."""
        if other.solution is not None:
            names = (variable.name for variable in other.v.all())
            self._hints = dict(zip(names, other.solution, strict=False))

    def suggest(self, values: Mapping[str, int]) -> None:
        """Take values as hint for the next solve, variable by name."""
        self._hints = dict(values)

    def take(self, goal: Objective, values: Mapping[str, int]) -> bool:
        """Make the solution with these values of variables by name, if there is one."""
        self.suggest(values)
        return self._within(goal, values, work=1.0) is not None

    def adopt(self, other: Search, goal: Objective, more: Mapping[str, int]) -> bool:
        """Take over another model's solution, with `more` values of this model by name."""
        assert other.solution is not None
        self.hint(other)
        decided = {variable.name for variable in other.v.decisions()}
        held = {name: value for name, value in self._hints.items() if name in decided}
        held |= more
        return self._within(goal, held, work=1.0) is not None

    def improve(
        self,
        goal: Objective,
        freed: Iterable[frozenset[Opening]],
        *,
        enough: int,
        work: float = 0.1,
    ) -> Found | None:
        """Minimise a goal over a few openings at a time, all marks free, the rest held.

        Takes the neighbourhoods `freed` in turn until the goal is at most `enough` raw units
        or none is left. Returns the best found, whose bound is only 0; None without a start.
        """
        best = self._within(goal, self._held(frozenset()), work=work)
        for openings in freed:
            if best is None or best.raw is None or best.raw <= enough or self.limits.over:
                break
            better = self._within(goal, self._held(openings), work=work)
            best = better if better is not None else best
        return best

    def neighbourhoods(self) -> Iterator[frozenset[Opening]]:
        """Pairs of openings, then threes, in an order drawn once with the seed."""
        openings = list(self.v.openings())
        draw = Random(self.limits.seed)  # noqa: S311 - repeatable, nothing secret
        most = max(4, NEIGHBOURHOODS_SIZE // len(self.v.model.proto.variables))
        for size in (2, 3):
            for _ in range(min(most, 2 * len(openings))):
                yield frozenset(draw.sample(openings, min(size, len(openings))))

    def _held(self, freed: frozenset[Opening]) -> dict[str, int]:
        """Current places of all openings but the freed ones, by variable name."""
        assert self.solution is not None
        places = {
            x.index: x.name
            for o in self.v.openings()
            if o not in freed
            for x in self.v.places(*o).values()
        }
        return {name: self.solution[index] for index, name in places.items()}

    def _within(self, goal: Objective, held: Mapping[str, int], *, work: float) -> Found | None:
        """Minimise with variables held, on a copy of the model; keep what is found."""
        self.v.model.minimize(goal.expression)
        self._add_hints()
        whole, part = self.v.model, self.v.model.clone()
        for variable in part.proto.variables:
            if variable.name in held:
                variable.domain.clear()
                variable.domain.extend([held[variable.name]] * 2)
        solver = self._solver(work)
        self.v.model = part
        try:
            status = self._run(solver)
        finally:
            self.v.model = whole
        if status not in (Status.OPTIMAL, Status.FEASIBLE):
            return None
        raw = round(solver.objective_value)
        return Found(Status.FEASIBLE, goal.unit * raw, Fraction(0), raw, goal.exact)

    def feasible(self, *, work: float | None = None) -> Verdict:
        """Say whether there is any solution, and keep the first."""
        self.v.model.clear_objective()  # type: ignore[no-untyped-call]
        return _VERDICT[self._run(self._solver(work))]

    @property
    def complete(self) -> bool:
        """True where the solution so far gives every variable of the model a value."""
        return self.solution is not None and len(self.solution) == len(self.v.all())

    def value(self, expression: Linear) -> int:
        """Value of an expression in the solution so far."""
        assert self.solution is not None
        return int(self._last.value(expression))

    def _solver(self, work: float | None) -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        parameters = solver.parameters
        parameters.num_workers = 1
        parameters.random_seed = self.limits.seed
        parameters.linearization_level = self.v.linear
        parameters.max_deterministic_time = work if work is not None else self.limits.work
        parameters.max_time_in_seconds = max(0.01, self.limits.seconds_left)
        parameters.catch_sigint_signal = False  # the command line keeps the incumbent itself
        return solver

    def _run(self, solver: cp_model.CpSolver) -> Status:
        model = self.v.model
        if self.limits.over:
            return Status.UNKNOWN
        # a second hint for a variable makes a model invalid
        model.clear_hints()  # type: ignore[no-untyped-call]
        self._add_hints()
        key = self.limits.stopper.register(solver.stop_search)
        try:
            status = solver.solve(model)
        except IndexError:  # a fault inside CP-SAT 9.15 on some models with held variables
            return Status.UNKNOWN
        finally:
            self.limits.stopper.forget(key)
        if status == cp_model.MODEL_INVALID:
            msg = f"the layout model is invalid: {model.validate()}"
            raise RuntimeError(msg)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            self.solution = [solver.value(variable) for variable in self.v.all()]
            self._hints = {}
            self._last = solver
        if status == cp_model.INFEASIBLE and model.proto.assumptions:
            self.core = tuple(solver.sufficient_assumptions_for_infeasibility())
        return _STATUS[status]

    def _add_hints(self) -> None:
        variables = self.v.all()
        if self._hints:
            pairs = [(v, self._hints[v.name]) for v in variables if v.name in self._hints]
        else:
            pairs = list(zip(variables, self.solution or [], strict=False))
        for variable, value in pairs:
            self.v.model.add_hint(variable, value)


def make(
    problem: LayoutProblem,
    *,
    merge: bool,
    marks: Mapping[tuple[int, int], int] | None = None,
    rules: Sequence[Rule] = RULES,
) -> LayoutVariables:
    """Build the model of a layout with every rule."""
    v = LayoutVariables(cp_model.CpModel(), problem, merge=merge, marks=marks)
    for rule in rules:
        rule(v)
    return v


def marks_by_bay(search: Search) -> dict[tuple[int, int], int]:
    """Return the mark of every shelf by (bay, shelf), in marking steps."""
    v = search.v
    return {
        (bay, shelf): search.value(v.mark(c, shelf))
        for c, one in enumerate(v.classes)
        for bay in one.bays
        for shelf in range(1, one.shape.shelves + 1)
    }


def marks_by_class(
    problem: LayoutProblem, marks: Mapping[tuple[int, int], int] | None
) -> dict[tuple[int, int], int] | None:
    """Marks by bay as marks by class of a model that takes each bay by itself."""
    if marks is None:
        return None
    home = {one.bays[0]: c for c, one in enumerate(classes_of(problem, merge=False))}
    return {(home[bay], shelf): mark for (bay, shelf), mark in marks.items()}
