"""What is wrong with an answer of the layout engine, by what trying everything found."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from solver.layout.layout_problem import Form, LayoutProblem, Spot
from solver.outcome import Status
from tests.eye_brute import Best
from tests.eye_layout import Layout, faults
from tests.eye_pairs import FIRST
from tests.eye_scores import SCORES
from tests.eye_stages import Way, roomy_hold, steady_hold, void_hold
from tests.eye_wishes import loss

Number = int | Fraction


class Stage(Protocol):
    """One stage of an answer."""

    @property
    def value(self) -> Number | None: ...
    @property
    def bound(self) -> Number | None: ...
    @property
    def proven(self) -> bool: ...


class Answer(Protocol):
    """An answer of the layout engine."""

    @property
    def status(self) -> Status: ...
    @property
    def marks(self) -> Mapping[Spot, int]: ...
    @property
    def places(self) -> Mapping[Spot, tuple[tuple[Form, int], ...]]: ...
    @property
    def left(self) -> Mapping[int, int]: ...
    @property
    def stages(self) -> Mapping[str, Stage]: ...


@dataclass(frozen=True)
class Judged:
    """What is wrong, in words: up to the rhythm and in the layout, and in the stages after it.

    `proven` is how many stages up to the rhythm were proven and found right, of `asked`.
    """

    wrong: list[str]
    later: list[str]
    proven: int = 0
    asked: int = 0


RHYTHMS = ("steady", "graduated", "symmetric", "even", "to-fit")
STEADY = ("steady", "graduated")
"""Rhythms of which a marking step less counts as nothing."""
LATER = ("void",)
"""Stages after the rhythm whose least value can be told from the answer. The engine stops looking
for the smallest void, and for the next wishes, a share of the slack short of it."""
HOLDS: dict[str, Callable[[LayoutProblem, int], int]] = {
    "steady": steady_hold,
    "graduated": steady_hold,
    "void": void_hold,
    "roomy": roomy_hold,
}
"""How much a layout may show in the end for the value of a stage."""


def judge(problem: LayoutProblem, answer: Answer, best: Best | None) -> Judged:
    """Compare an answer with the best there is."""
    if best is None:
        right = answer.status is Status.INFEASIBLE
        return Judged([] if right else [f"{answer.status}, but there is no layout"], [])
    if not answer.places:
        known = answer.status is Status.UNKNOWN  # the limit came first: no claim
        return Judged([] if known else [f"{answer.status}, but there is a layout"], [])
    layout = Layout(answer.marks, answer.places, answer.left)
    wrong = misstated(problem, answer)
    if faults(problem, layout):
        return Judged(wrong, [])
    way = _way_of(answer, best)
    first = {"fit": sum(best.loss), **_up_to_rhythm(way)}
    compared = _Compared(problem, answer)
    compared.run(first)
    wrong += compared.wrong
    if compared.right and "fit" in answer.stages and loss(problem, layout) != best.loss:
        wrong.append(f"left out {loss(problem, layout)}, best {best.loss}")
    if answer.status is Status.OPTIMAL and not all(
        answer.stages[name].proven for name in first if name in answer.stages
    ):
        wrong.append("optimal, but not all stages up to the rhythm are proven")
    after = _Compared(problem, answer)
    steady = all(
        n in answer.stages and answer.stages[n].bound == way.values[n]
        for n in STEADY
        if n in way.values
    )
    if compared.right == len(first) and steady and _later_is_exact(problem, way):
        after.run({name: way.values[name] for name in LATER})
    return Judged(wrong, after.wrong, compared.proven, len(first))


def _way_of(answer: Answer, best: Best) -> Way:
    """The way in which the answer scored the rhythm, the first where it says none."""
    return next(
        (way for way in best.ways if set(answer.stages) & set(way.values) & _only(way)),
        best.ways[0],
    )


def _only(way: Way) -> set[str]:
    return {name for name in way.values if name in RHYTHMS}


def _up_to_rhythm(way: Way) -> dict[str, int]:
    return {n: v for n, v in way.values.items() if n in (*FIRST, "rises", *RHYTHMS)}


def _later_is_exact(problem: LayoutProblem, way: Way) -> bool:
    """Slacks are plain where there is one bay, and its rhythm is steady or even."""
    plain = _only(way) in ({"steady"}, {"even"}) and problem.wishes.step is None
    return len(problem.bays) == 1 and plain


def misstated(problem: LayoutProblem, answer: Answer) -> list[str]:
    """Rules that the layout breaks, else stages whose value is not its score, slack given back."""
    if not answer.places:
        return []
    layout = Layout(answer.marks, answer.places, answer.left)
    wrong = faults(problem, layout)
    if wrong:
        return wrong
    for name, stage in answer.stages.items():
        if name not in SCORES or stage.value is None:
            continue
        shown, value = SCORES[name](problem, layout), stage.value
        most = HOLDS[name](problem, int(value)) if name in HOLDS else value
        if not value <= shown <= max(value, most):
            wrong.append(f"{name}: {value} stated, {shown} shown")
    return wrong


class _Compared:
    """Compares stage after stage, as long as the answer is best in those before."""

    def __init__(self, problem: LayoutProblem, answer: Answer) -> None:
        self.problem, self.answer = problem, answer
        self.wrong: list[str] = []
        self.right = self.proven = 0

    def run(self, values: Mapping[str, int]) -> None:
        """Compare with the best values, in order; stop at the first that is not met."""
        for name, value in values.items():
            if not self._stage(name, value):
                return
            self.right += 1

    def _stage(self, name: str, best: int) -> bool:
        """Whether the answer has the best value of a stage, or one given back from it."""
        stage = self.answer.stages.get(name)
        if stage is None:  # a wish that nothing can miss may go unsaid
            if best:
                self.wrong.append(f"{name}: unsaid, best {best}")
            return not best
        if stage.bound is not None and stage.bound > best:
            self.wrong.append(f"{name}: bound {stage.bound} over the best, {best}")
        if stage.value is None:
            return False
        if stage.value < best:
            self.wrong.append(f"{name}: {stage.value} is better than the best, {best}")
        within = steady_hold(self.problem, best) if name in STEADY else best
        if stage.proven and stage.value > within:
            self.wrong.append(f"{name}: {stage.value} called proven, best {best}")
        self.proven += stage.proven and best <= stage.value <= within
        held = HOLDS[name](self.problem, best) if name in HOLDS else best
        return stage.value <= (held if stage.bound == best else within)
