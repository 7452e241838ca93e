"""The wishes about a layout, one function a term; all are minimised.

Each returns an :class:`Objective`: a whole-number expression, and what one unit of it is
worth, as a fraction, so that nothing is rounded inside the model.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from solver.cp_sat import cp_model
from solver.layout.layout_problem import BayShape
from solver.layout.rhythm_scores import best_fall
from solver.layout.variables import LayoutVariables, Linear
from solver.units import TICKS_PER_MM, Ticks

SCALE_MOST = 2520
"""Largest common denominator (of 1 to 10) that a graduated rhythm is scored with; beyond ten
openings the score is coarser than the true one and is not called proven."""


@dataclass(frozen=True)
class Objective:
    """Something to minimise.

    Attributes
    ----------
    expression
        Whole-number expression of the model.
    unit
        What one unit of it is worth: ticks for lengths, things, g m or shares otherwise.
    exact
        False where the expression is only an upper estimate of the true score.
    """

    expression: Linear
    unit: Fraction
    exact: bool = True


def left_out(v: LayoutVariables) -> Objective:
    """How many things find no place."""
    return Objective(sum(v.left.values()), Fraction(1))


def rhythm(v: LayoutVariables) -> Objective:
    """The score of the chosen rhythm, summed over bays (design: rhythm scores)."""
    if v.problem.wishes.rhythm == "to-fit":
        return _to_fit(v)
    terms = {"steady": _even, "even": _even, "symmetric": _symmetric, "graduated": _graduated}
    term = terms[v.problem.wishes.rhythm]
    step = _common_step(v)
    parts = [(one.times, *term(v, c, step)) for c, one in enumerate(v.classes)]
    whole = lcm(*(scale for _, _, scale, _ in parts))
    return Objective(
        sum(times * (whole // scale) * total for times, total, scale, _ in parts),
        Fraction(step, whole),
        all(exact for *_, exact in parts),
    )


def _common_step(v: LayoutVariables) -> Ticks:
    """Largest tick count that divides every height and the graduated steps."""
    wishes = v.problem.wishes
    sizes = [wishes.step_least, wishes.step_most] if wishes.rhythm == "graduated" else []
    for one in v.classes:
        shape = one.shape
        sizes += [shape.step, shape.inside, *(shape.constant(k) for k in range(shape.openings))]
    return gcd(*sizes) or 1


def _heights(v: LayoutVariables, c: int, step: Ticks) -> list[Linear]:
    """Clear heights of a class, in units of `step` ticks."""
    shape = v.shape(c)
    return [
        shape.constant(k) // step + shape.step // step * v.steps(c, k)
        for k in range(shape.openings)
    ]


Term = tuple[Linear, int, bool]
"""(sum, scale, exact): the score is sum / scale, in units of the common step."""


def _deviation(v: LayoutVariables, difference: Linear, most: int, name: str) -> cp_model.IntVar:
    """A variable that is at least the size of `difference`."""
    dev = v.model.new_int_var(0, most, name)
    v.model.add(dev >= difference)
    v.model.add(dev >= -difference)
    return dev


def _even(v: LayoutVariables, c: int, step: Ticks) -> Term:
    """Sum of |h - mean h|, times the number of openings."""
    shape = v.shape(c)
    n, total = shape.openings, _clear_total(shape) // step
    devs = [
        _deviation(v, n * h - total, n * total, f"uneven[class={c},opening={k}]")
        for k, h in enumerate(_heights(v, c, step))
    ]
    return sum(devs), n, True


def _clear_total(shape: BayShape) -> Ticks:
    return shape.inside - shape.shelves * shape.thickness


def _symmetric(v: LayoutVariables, c: int, step: Ticks) -> Term:
    """Sum of |h_i - h_(n-i)| over pairs."""
    heights, total = _heights(v, c, step), _clear_total(v.shape(c)) // step
    devs = [
        _deviation(v, low - high, total, f"askew[class={c},pair={i}]")
        for i, (low, high) in enumerate(zip(heights, heights[::-1], strict=True))
        if i < len(heights) // 2
    ]
    return sum(devs), 1, True


def _graduated(v: LayoutVariables, c: int, step: Ticks) -> Term:
    """Least sum of |h_i - (a - s i)| with the step s within its bounds.

    The best line passes through two points or has a bound as its slope, so with a common
    denominator of 1 .. n whole numbers are enough.
    """
    wishes, n = v.problem.wishes, v.shape(c).shelves
    scale, exact = _fall_scale(n)
    total = _clear_total(v.shape(c)) // step * scale
    most = wishes.step_most // step * scale
    s = v.model.new_int_var(wishes.step_least // step * scale, most, _slope_name(c))
    a = v.model.new_int_var(-total, 2 * total + n * most, _start_name(c))
    devs = [
        _deviation(
            v, scale * h - a + i * s, 4 * total + 2 * n * most, f"off-line[class={c},opening={i}]"
        )
        for i, h in enumerate(_heights(v, c, step))
    ]
    return sum(devs), scale, exact


def _fall_scale(shelves: int) -> tuple[int, bool]:
    """Common denominator of slopes through two heights, and whether it is exact."""
    whole = lcm(*range(1, shelves + 1))
    return min(whole, SCALE_MOST), whole <= SCALE_MOST


def _slope_name(c: int) -> str:
    return f"slope[class={c}]"


def _start_name(c: int) -> str:
    return f"start[class={c}]"


def fall_values(v: LayoutVariables, heights: Mapping[int, list[Ticks]]) -> dict[str, int]:
    """Values of the variables of the best fall of each class, by name, for known heights [tick]."""
    wishes, step, values = v.problem.wishes, _common_step(v), dict[str, int]()
    for c, high in heights.items():
        scale = _fall_scale(len(high) - 1)[0]
        _, slope, start = best_fall(high, wishes.step_least, wishes.step_most)
        values[_slope_name(c)] = int(slope * scale / step)
        values[_start_name(c)] = int(start * scale / step)
    return values


def _to_fit(v: LayoutVariables) -> Objective:
    """Sum of |r - mean r| over non-empty openings, bay by bay; r is the room over the tallest.

    The mean depends on how many openings are filled, so the score is tied to each
    possible number of them in turn.
    """
    tops = Tops.of(v)
    parts = []
    for c, one in enumerate(v.classes):
        n = one.shape.openings
        scale = min(lcm(*range(1, n + 1)), SCALE_MOST)
        rooms = [tops.room(c, k) for k in range(n)]
        filled = [tops.filled[c, k] for k in range(n)]
        total = one.shape.inside * scale
        devs = [
            v.model.new_int_var(0, 2 * total, f"off-fit[class={c},opening={k}]") for k in range(n)
        ]
        for m in range(1, n + 1):
            if scale % m:
                continue
            is_m = v.model.new_bool_var(f"filled[class={c},count={m}]")
            v.model.add(sum(filled) == m).only_enforce_if(is_m)
            v.model.add(sum(filled) != m).only_enforce_if(~is_m)
            for k, dev in enumerate(devs):
                difference = scale // m * (m * rooms[k] - sum(rooms))
                v.model.add(dev >= difference).only_enforce_if(is_m, filled[k])
                v.model.add(dev >= -difference).only_enforce_if(is_m, filled[k])
        parts.append((one.times, sum(devs), scale, lcm(*range(1, n + 1)) == scale))
    whole = lcm(*(scale for _, _, scale, _ in parts))
    return Objective(
        sum(t * (whole // scale) * total for t, total, scale, _ in parts),
        Fraction(1, whole),
        all(exact for *_, exact in parts),
    )


@dataclass(frozen=True)
class Tops:
    """Which openings are filled, and how much room is over their tallest thing.

    `room` is the clear height less the tallest thing where something stands, and 0 in an
    empty opening [tick].
    """

    filled: Mapping[tuple[int, int], cp_model.IntVar]
    rooms: Mapping[tuple[int, int], cp_model.IntVar]

    def room(self, c: int, opening: int) -> cp_model.IntVar:
        """Room over the tallest thing of an opening, 0 where it is empty [tick]."""
        return self.rooms[c, opening]

    @staticmethod
    def of(v: LayoutVariables) -> Tops:
        """Make the tops of a model."""
        pairs = {opening: _top(v, *opening) for opening in v.openings()}
        return Tops({o: f for o, (f, _) in pairs.items()}, {o: r for o, (_, r) in pairs.items()})


def _top(v: LayoutVariables, c: int, k: int) -> tuple[cp_model.IntVar, cp_model.IntVar]:
    """(filled, room) of one opening: a chain of booleans, one a height that may stand there."""
    places, inside = v.places(c, k), v.shape(c).inside
    heights = sorted({form.height for form in places})
    filled = v.model.new_bool_var(f"filled[class={c},opening={k}]")
    room = v.model.new_int_var(0, inside, f"room[class={c},opening={k}]")
    above: list[cp_model.IntVar] = []
    for i, height in enumerate(heights):
        some = (
            filled
            if i == 0
            else v.model.new_bool_var(f"stands[class={c},opening={k},height={height}]")
        )
        higher = [x for form, x in places.items() if form.height >= height]
        v.model.add(sum(higher) >= 1).only_enforce_if(some)
        v.model.add(sum(higher) == 0).only_enforce_if(~some)
        if above:
            v.model.add_implication(some, above[-1])
        above.append(some)
    if not heights:
        v.model.add(filled == 0)
    steps = [high - low for low, high in zip([0, *heights], heights, strict=False)]
    tallest = sum(step * some for step, some in zip(steps, above, strict=True))
    v.model.add(room == v.height(c, k) - tallest).only_enforce_if(filled)
    v.model.add(room == 0).only_enforce_if(~filled)
    return filled, room


def headroom_spread(v: LayoutVariables) -> Objective:
    """Largest less smallest room over the tallest thing of a non-empty opening."""
    tops = Tops.of(v)
    most = max(one.shape.inside for one in v.classes)
    high = v.model.new_int_var(0, most, "most room")
    low = v.model.new_int_var(0, most, "least room")
    v.model.add(low <= high)
    for opening, filled in tops.filled.items():
        v.model.add(high >= tops.rooms[opening]).only_enforce_if(filled)
        v.model.add(low <= tops.rooms[opening]).only_enforce_if(filled)
    return Objective(high - low, Fraction(1))


def wishes_missed(v: LayoutVariables, at_eye: Mapping[int, int]) -> Objective:
    """Things that stand elsewhere than wished; `at_eye` is the opening at eye level by class."""
    missed: list[Linear] = []
    for index, kind in enumerate(v.problem.kinds):
        if kind.where is None:
            continue
        for c, k in v.openings():
            wished = {"low": 0, "top": v.shape(c).shelves, "eye": at_eye.get(c)}.get(
                str(kind.where), kind.where
            )
            if k != wished:
                missed.append(v.count(index, c, k))
    return Objective(sum(missed), Fraction(1))


def mass_times_height(v: LayoutVariables, floors: Mapping[tuple[int, int], Ticks]) -> Objective:
    """Mass x height of the opening's floor above the room's floor, in g m, for fixed marks.

    `floors` gives each opening's floor above the room's floor [tick]; heights go in as
    whole millimetres.
    """
    terms = [
        kind.mass * (floors[c, k] // TICKS_PER_MM) * v.count(index, c, k)
        for index, kind in enumerate(v.problem.kinds)
        for c, k in v.openings()
    ]
    return Objective(sum(terms), Fraction(1, 1000))


def fill_spread(v: LayoutVariables) -> Objective:
    """Fullest less emptiest opening: share of the clear width that things take, in 1/1000."""
    high = v.model.new_int_var(0, 1000, "most fill")
    low = v.model.new_int_var(0, 1000, "least fill")
    for c, k in v.openings():
        taken = sum(form.width * x for form, x in v.places(c, k).items())
        v.model.add(v.shape(c).width * high >= 1000 * taken)
        v.model.add(v.shape(c).width * low <= 1000 * taken)
    return Objective(high - low, Fraction(1, 1000))
