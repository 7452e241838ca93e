"""Running CP-SAT on one model, stage by stage, each from the solution before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction

from solver.cp_sat import cp_model
from solver.layout.goal import Goal
from solver.layout.layout_problem import Place, Spot, large
from solver.layout.variables import LayoutVariables, Linear
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

LARGE_SHARE = 0.25
"""Share of the time left that one solve of a large problem may take [-]."""


STAGE = 0.25
"""Share of the work of the limits that one stage may take [-]."""
HALF = 0.5
"""Share of a stage's work for its first search where it is searched in two ways [-]."""
FIRST_LOOK = 0.1
"""Share of a question's work for a look without a linear relaxation [-]."""
GLANCE = 0.02
"""Share of a stage's work for a look without a linear relaxation at a small model that wants one:
few things in high openings leave lengths almost free, of which it proves the least at once, while
cuts run to the limit [-]."""
SMALL = 1200
"""Variables of a model below which looking it over before the search takes longer than the
search [-]."""


@dataclass(frozen=True)
class Found:
    """What one stage came to.

    Attributes
    ----------
    value
        The least found [unit of the stage]; None where nothing was.
    bound
        Proven lower bound [unit of the stage]; None where there is none.
    raw
        The least found, in units of the goal's expression.
    """

    status: Status
    value: Fraction | None
    bound: Fraction | None
    raw: int | None = None
    within: int = 0
    """How much less may be possible for it to count as the least [unit of the stage]."""

    @property
    def proven(self) -> bool:
        """True where no less is possible, or no less that counts."""
        if self.value is None or self.bound is None:
            return False
        return self.value <= self.bound + self.within


class Search:
    """Solves a model stage by stage with one worker, a fixed seed and a deterministic limit."""

    def __init__(self, v: LayoutVariables, limits: Limits) -> None:
        self.v, self.limits = v, limits
        self.solution: list[int] | None = None
        self.core: tuple[int, ...] = ()
        """Indices of the assumptions that a proof of infeasibility used."""
        self.linear = 0
        """How far rules go into a linear relaxation: CP-SAT's `linearization_level`. Counting what
        stands together is many times quicker without one; heights and areas want it."""
        self.share = LARGE_SHARE if large(v.problem) else 1.0
        """Share of the time left that one solve may take [-]: in large models one stage is not to
        take the time of the others."""
        self.hurried = False
        """Whether models are not looked over much before the search, whatever their size."""
        self._hints: dict[str, int] = {}

    def minimise(
        self, goal: Goal, *, floor: int = 0, work: float | None = None, gap: int = 0
    ) -> Found:
        """Minimise a goal from the solution so far.

        Parameters
        ----------
        floor
            What it is never less than [raw units].
        work
            Deterministic work; left out, that of the limits.
        gap
            How far from the proven bound will do [raw units].
        """
        known = self.known(goal.expression)
        if known is not None and known <= floor + gap:
            return self._found(Status.OPTIMAL, goal, known, floor)
        model = self.v.model
        if not isinstance(goal.expression, int):
            model.add(goal.expression >= floor)
        model.minimize(goal.expression)
        whole, linear = self.limits.work * STAGE if work is None else work, self.linear
        best, bound, ways = None, floor, self._ways(linear)
        for share, self.linear in ways:
            solver = self._solver(whole * share)
            solver.parameters.absolute_gap_limit = float(gap)
            status = self._run(solver)
            bound = max(bound, self._bound(solver, status))
            if status in (Status.OPTIMAL, Status.FEASIBLE):
                best = round(solver.objective_value)
            if status in (Status.OPTIMAL, Status.INFEASIBLE) or (best or 0) <= bound:
                break
        self.linear = linear
        if best is None:
            return Found(status, None, goal.unit * bound, None)
        return self._found(status, goal, best, bound)

    def _ways(self, linear: int) -> tuple[tuple[float, int], ...]:
        """Shares of a stage's work and how far rules go into a linear relaxation in each [-]."""
        if linear == 0:
            return ((HALF, 0), (HALF, 1))
        small = len(self.v.model.proto.variables) < SMALL
        return ((GLANCE, 0), (1 - GLANCE, linear)) if small else ((1.0, linear),)

    def hold(self, goal: Goal, most: int) -> None:
        """Keep a goal at `most` [raw units] or less from now on."""
        if not isinstance(goal.expression, int):
            self.v.model.add(goal.expression <= most)

    def feasible(self, *, work: float | None = None) -> Verdict:
        """Say whether there is any solution, and keep the first.

        A look without a linear relaxation first: it mostly finds one soonest. What is left of the
        work goes to a search with one, which sooner proves that tight rows cannot be had.
        """
        self.v.model.clear_objective()  # type: ignore[no-untyped-call]
        whole, linear = self.limits.work * STAGE if work is None else work, self.linear
        try:
            for share, self.linear in ((FIRST_LOOK, 0), (1 - FIRST_LOOK, 1)):
                verdict = _VERDICT[self._run(self._solver(whole * share))]
                if verdict is not Verdict.UNSETTLED:
                    return verdict
        finally:
            self.linear = linear
        return Verdict.UNSETTLED

    @contextmanager
    def aside(self) -> Iterator[None]:
        """Let what is added to the model be forgotten again; the solution found is kept."""
        whole = self.v.model
        self.v.model = whole.clone()
        try:
            yield
        finally:
            self.v.model = whole

    def suggest(self, values: Mapping[str, int]) -> None:
        """Take values as hint for the next solve, variable by name."""
        self._hints = dict(values)

    def values(self) -> dict[str, int]:
        """The solution so far, variable by name."""
        names = (variable.name for variable in self.v.all())
        return dict(zip(names, self.solution or [], strict=False))

    def known(self, expression: Linear) -> int | None:
        """Value of an expression in the solution so far, where that has all its variables."""
        if isinstance(expression, int):
            return expression
        if self.solution is None or len(self.solution) < len(self.v.all()):
            return None
        return int(self._last.value(expression))

    def value(self, expression: Linear) -> int:
        """Value of an expression in the solution so far."""
        assert self.solution is not None
        return int(self._last.value(expression))

    def marks(self) -> dict[Spot, int]:
        """The mark of every shelf by (bay, shelf), in marking steps; of a placed model."""
        v = self.v
        return {
            (bay, shelf): self.value(v.mark(c, shelf))
            for c, one in enumerate(v.classes)
            for bay in one.bays
            for shelf in range(1, one.shape.shelves + 1)
        }

    def places(self) -> dict[Spot, tuple[Place, ...]]:
        """What stands in each (bay, opening); of a model of single bays."""
        return {
            (self.v.classes[c].bays[0], k): tuple(
                (form, form.things)
                for form, places in self.v.places(c, k).items()
                for _ in range(self.value(places))
            )
            for c, k in self.v.openings()
        }

    @staticmethod
    def _found(status: Status, goal: Goal, raw: int, bound: int) -> Found:
        return Found(status, goal.unit * raw, goal.unit * min(bound, raw), raw)

    @staticmethod
    def _bound(solver: cp_model.CpSolver, status: Status) -> int:
        """The proven lower bound; 0, which always holds here, where the search never started."""
        try:
            return round(solver.best_objective_bound) if status is not Status.INFEASIBLE else 0
        except RuntimeError:
            return 0

    def _solver(self, work: float | None) -> cp_model.CpSolver:
        solver = cp_model.CpSolver()
        parameters = solver.parameters
        parameters.num_workers = 1
        parameters.linearization_level = self.linear
        if self.hurried or len(self.v.model.proto.variables) < SMALL:
            parameters.cp_model_probing_level = 0
            parameters.max_presolve_iterations = 1
        parameters.random_seed = self.limits.seed
        parameters.max_deterministic_time = self.limits.work * STAGE if work is None else work
        parameters.max_time_in_seconds = max(0.01, self.share * self.limits.seconds_left)
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
