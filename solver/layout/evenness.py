"""Evenness of headroom as one goal that CP-SAT proves quickly.

The comparison is the plan's own: fewest empty openings first, since evenness over filled
openings alone would reward emptying one, then the largest less the smallest room over the
tallest thing of an opening. Under the rhythm `to-fit` the rooms are the rhythm itself, and
only empty openings are counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from solver.cp_sat import cp_model
from solver.layout.arrangement import Standing
from solver.layout.layout_problem import LayoutProblem
from solver.layout.objective import Objective
from solver.layout.variables import LayoutVariables, Linear
from solver.units import Ticks

Opening = tuple[int, int]
"""(class, opening)."""


@dataclass(frozen=True, order=True)
class Evenness:
    """Empty openings [-], then largest less smallest room over the tallest things [tick]."""

    empty: int
    spread: Ticks


def evenness(standing: Standing) -> Evenness:
    """Return how even the headroom of a layout is."""
    fit = standing.problem.wishes.rhythm == "to-fit"
    return Evenness(len(standing.spaces) - standing.filled, 0 if fit else standing.spread)


@dataclass(frozen=True)
class EvennessGoal:
    """The goal of a model; one number holds both parts, `scale` spreads to an empty opening."""

    objective: Objective
    scale: int
    unit: Ticks

    def number(self, value: Evenness) -> int:
        """Return the most that the goal's expression may be for an evenness, rounded down."""
        return value.empty * self.scale + min(value.spread // self.unit, self.scale - 1)

    def value(self, number: int) -> Evenness:
        """Return the evenness that a number of the goal stands for."""
        empty, spread = divmod(number, self.scale)
        return Evenness(empty, spread * self.unit)


Chain = Mapping[Ticks, cp_model.IntVar]
"""Whether the tallest thing of an opening is at least so high, by height, ascending."""
Chains = Mapping[Opening, Chain]


def chains_of(v: LayoutVariables) -> Chains:
    """Add the chains of a model: in every opening, how tall its tallest thing is at least.

    Two cuts make proofs fast: an opening that has a tallest thing of some height holds a
    thing at least so high, and no more openings reach a height than there are things that can.
    In the bare case, where nothing stands, the chains take the place of the things.
    """
    chains = {o: (_bare_chain if v.bare else _chain)(v, *o) for o in v.openings()}
    _as_many_as_there_are(v, chains)
    return chains


def evenness_goal(v: LayoutVariables, chains: Chains | None = None) -> EvennessGoal:
    """Add the goal to a model, on chains that it has already or on new ones."""
    unit = _common(v)
    chains = chains_of(v) if chains is None else chains
    filled = [next(iter(chain.values()), 0) for chain in chains.values()]
    empty = sum(1 - some for some in filled)
    scale = max(one.shape.inside for one in v.classes) // unit + 1
    spread = 0 if v.problem.wishes.rhythm == "to-fit" else _spread(v, chains, unit, scale - 1)
    return EvennessGoal(Objective(scale * empty + spread, Fraction(1)), scale, unit)


def _common(v: LayoutVariables) -> Ticks:
    """Largest tick count that divides every height that a room may have."""
    sizes = [form.height for c, k in v.openings() for form in v.forms(c, k)]
    for one in v.classes:
        shape = one.shape
        sizes += [shape.step, shape.inside, *(shape.constant(k) for k in range(shape.openings))]
    return gcd(*sizes) or 1


def _chain(v: LayoutVariables, c: int, k: int) -> Chain:
    places = v.places(c, k)
    chain: dict[Ticks, cp_model.IntVar] = {}
    before: cp_model.IntVar | None = None
    for height in sorted({form.height for form in places}):
        high = v.model.new_bool_var(f"tall[class={c},opening={k},height={height}]")
        v.model.add(sum(x for form, x in places.items() if form.height >= height) >= high)
        for form, x in places.items():
            if form.height == height:
                v.model.add(x <= v.problem.kinds[form.kind].count * high)
        if before is not None:
            v.model.add_implication(high, before)
        chain[height] = before = high
    return chain


def _bare_chain(v: LayoutVariables, c: int, k: int) -> Chain:
    chain: dict[Ticks, cp_model.IntVar] = {}
    before: cp_model.IntVar | None = None
    for height in sorted({form.height for form in v.forms(c, k)}):
        high = v.model.new_bool_var(f"tall[class={c},opening={k},height={height}]")
        may = v.reaches(c, k, height)
        v.model.add(may >= high)
        if before is not None:
            v.model.add_implication(high, before)
        chain[height] = before = high
    return chain


def _as_many_as_there_are(v: LayoutVariables, chains: Chains) -> None:
    for height in sorted({height for chain in chains.values() for height in chain}):
        reach = [chain[height] for chain in chains.values() if height in chain]
        there = _things_as_high(v.problem, height)
        if there < len(reach):
            v.model.add(sum(reach) <= there)
        there = _things_so_high(v.problem, height)
        if there < len(reach):
            v.model.add(sum(_just_so_high(chain, height) for chain in chains.values()) <= there)


def _just_so_high(chain: Chain, height: Ticks) -> Linear:
    """1 where the tallest thing of an opening has just that height, else 0."""
    above = next((high for h, high in chain.items() if h > height), 0)
    return chain[height] - above if height in chain else 0


def _things_so_high(problem: LayoutProblem, height: Ticks) -> int:
    """How many things can stand just so high, stacked or not."""
    return sum(
        kind.count for kind in problem.kinds if any(form.height == height for form in kind.forms)
    )


def _things_as_high(problem: LayoutProblem, height: Ticks) -> int:
    """How many things can stand at least so high, stacked or not."""
    return sum(
        kind.count for kind in problem.kinds if any(form.height >= height for form in kind.forms)
    )


def _spread(v: LayoutVariables, chains: Chains, unit: Ticks, most: int) -> Linear:
    high = v.model.new_int_var(0, most, "most room over the tallest")
    low = v.model.new_int_var(0, most, "least room over the tallest")
    v.model.add(low <= high)
    for (c, k), chain in chains.items():
        if not chain:
            continue
        room = _height(v, c, k, unit) - _tallest(chain, unit)
        filled = next(iter(chain.values()))
        v.model.add(high >= room).only_enforce_if(filled)
        v.model.add(low <= room).only_enforce_if(filled)
    return high - low


def _height(v: LayoutVariables, c: int, k: int, unit: Ticks) -> Linear:
    shape = v.shape(c)
    return shape.constant(k) // unit + shape.step // unit * v.steps(c, k)


def _tallest(chain: Chain, unit: Ticks) -> Linear:
    heights: Iterable[Ticks] = chain
    steps = [high - low for low, high in zip([0, *heights], chain, strict=False)]
    return sum(step // unit * tall for step, tall in zip(steps, chain.values(), strict=True))
