"""A layout problem with one of its limits taken away, everything else as it was.

What each limit is, stands beside its function. All lengths are ticks, all loads grams.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from solver.layout.layout_problem import (
    BayShape,
    Form,
    Holding,
    Kind,
    LayoutProblem,
    LineGroup,
    Wishes,
)
from solver.plan.slack_and_advice import BindingLimit
from solver.strength.beams import MIDSPAN_SHARE
from solver.units import Ticks


def without(problem: LayoutProblem, limits: Iterable[BindingLimit]) -> LayoutProblem:
    """Return the problem with these limits taken away."""
    for limit in limits:
        problem = _TAKE[limit](problem)
    return problem


def felt(problem: LayoutProblem) -> list[BindingLimit]:
    """Return the limits that there are, those that are told of first coming first."""
    return [limit for limit in _TAKE if without(problem, [limit]) != problem]


def _bays(problem: LayoutProblem, change: Callable[[BayShape], BayShape]) -> LayoutProblem:
    return replace(problem, bays=tuple(change(bay) for bay in problem.bays))


def _kinds(problem: LayoutProblem, change: Callable[[Kind], Kind]) -> LayoutProblem:
    return replace(problem, kinds=tuple(change(kind) for kind in problem.kinds))


def _wishes(problem: LayoutProblem, wishes: Wishes) -> LayoutProblem:
    return replace(problem, wishes=wishes)


def _holds(problem: LayoutProblem) -> LayoutProblem:
    """What is held, the layout before included."""
    return replace(problem, holding=Holding())


def _groups(problem: LayoutProblem) -> LayoutProblem:
    """Things that the client wants in one opening, or in openings that follow one another."""
    return _kinds(problem, lambda kind: replace(kind, group=None))


def _sag(problem: LayoutProblem) -> LayoutProblem:
    """What the sag limit leaves a shelf to bear, where all things together could be more."""
    most = _mass(problem) * MIDSPAN_SHARE[0] // MIDSPAN_SHARE[1]
    return _bays(
        problem,
        lambda bay: (
            bay
            if all(one is None or one >= most for one in bay.sag)
            else replace(bay, sag=(None, None))
        ),
    )


def _load(problem: LayoutProblem) -> LayoutProblem:
    """The shelf load, standard or asked for."""
    most = _mass(problem)
    return _bays(problem, lambda bay: bay if bay.load >= most else replace(bay, load=most))


def _mass(problem: LayoutProblem) -> int:
    return sum(kind.mass * kind.count for kind in problem.kinds)


def _depth(problem: LayoutProblem) -> LayoutProblem:
    """Depth for things."""
    most = max(form.depth for form in _forms(problem))
    return _bays(problem, lambda bay: bay if bay.deep >= most else replace(bay, deep=most))


def _forms(problem: LayoutProblem) -> list[Form]:
    return [form for kind in problem.kinds for form in kind.forms]


def _clear_most(problem: LayoutProblem) -> LayoutProblem:
    """Most clear height of an opening."""
    return _wishes(problem, replace(problem.wishes, clear_most=None))


def _height(problem: LayoutProblem) -> LayoutProblem:
    """Clear height of the case; under a most clear height, as much as that leaves any use for."""
    most = problem.wishes.clear_most
    if most is not None:
        return _bays(problem, lambda bay: _raised(bay, _highest(bay, most)))
    tallest = max(form.height for form in _forms(problem)) + problem.wishes.headroom
    tallest = max(tallest + problem.wishes.lift, problem.wishes.clear_least)

    def high(bay: BayShape) -> Ticks:
        each = tallest + sum(bay.lip) + bay.thickness + bay.step
        return bay.offset + bay.openings * each

    most_used = max(high(bay) for bay in problem.bays)
    return _bays(problem, lambda bay: _raised(bay, most_used))


def _raised(bay: BayShape, inside: Ticks) -> BayShape:
    return bay if bay.inside >= inside else replace(bay, inside=inside)


def _highest(bay: BayShape, most: Ticks) -> Ticks:
    """Inside height at which every opening is as high as it may be [tick]."""
    clear = most - max(bay.thinner)
    if bay.shelves == 0:
        return clear
    first = (clear + bay.floor - bay.offset) // bay.step
    each = (clear + bay.thickness) // bay.step
    mark = bay.offset + bay.step * (first + (bay.shelves - 1) * each)
    return mark + bay.thickness + clear - bay.floor


def _width(problem: LayoutProblem) -> LayoutProblem:
    """Room along the shelves; the span stays, and with it what they bear."""
    gap = problem.wishes.gap
    most = sum(
        kind.count * (max(form.width for form in kind.forms) + max(gap, kind.gap))
        for kind in problem.kinds
    )
    return _bays(problem, lambda bay: bay if bay.run >= most else replace(bay, run=most))


def _clear_least(problem: LayoutProblem) -> LayoutProblem:
    """Least clear height of an opening."""
    return _wishes(problem, replace(problem.wishes, clear_least=1))


def _lines(problem: LayoutProblem) -> LayoutProblem:
    """Shelf lines that bays have in common."""
    if all(len(group.bays) == 1 for group in problem.groups):
        return problem
    alone = tuple(LineGroup((n,), bay.shelves) for n, bay in enumerate(problem.bays))
    return replace(problem, groups=alone)


def _lip(problem: LayoutProblem) -> LayoutProblem:
    """Height that lips take."""
    return _bays(problem, lambda bay: replace(bay, lip=(0, 0)))


def _headroom(problem: LayoutProblem) -> LayoutProblem:
    """Room above things, to lift them over a lip included."""
    return _wishes(problem, replace(problem.wishes, headroom=0, lift=0))


def _gap(problem: LayoutProblem) -> LayoutProblem:
    """Gaps between things."""
    closed = _kinds(problem, lambda kind: replace(kind, gap=0))
    return _wishes(closed, replace(problem.wishes, gap=0))


def _end_margin(problem: LayoutProblem) -> LayoutProblem:
    """Gaps at both ends of a shelf."""
    return _bays(problem, lambda bay: replace(bay, run=bay.run + 2 * bay.margin, margin=0))


def _spare(problem: LayoutProblem) -> LayoutProblem:
    """Room kept free for things to come."""
    return _bays(problem, lambda bay: replace(bay, run=max(bay.run, bay.width - 2 * bay.margin)))


def _front(problem: LayoutProblem) -> LayoutProblem:
    """What stays free in front of things."""
    return _bays(problem, lambda bay: replace(bay, deep=bay.deep + bay.front, front=0))


def _marks(problem: LayoutProblem) -> LayoutProblem:
    """Whole steps of marks: the marking step, or pitch and first hole of the pins."""
    if problem.holding.anything:  # what is held is held at steps
        return problem
    step = min(bay.step for bay in problem.bays)
    fine = next(n for n in range(min(FINE, step), 0, -1) if _all_whole(problem, n))
    return _bays(problem, lambda bay: _finer(bay, fine))


FINE = 32
"""A tenth of a millimetre: finer marks let hardly more fit, and are slow to search [tick]."""


def _all_whole(problem: LayoutProblem, step: Ticks) -> bool:
    return all(bay.step % step == 0 for bay in problem.bays)


def _finer(bay: BayShape, step: Ticks) -> BayShape:
    first = bay.offset % step
    line = bay.line * (bay.step // step) - (bay.offset - first) // step
    return replace(bay, step=step, offset=first, line=line)


_TAKE: dict[BindingLimit, Callable[[LayoutProblem], LayoutProblem]] = {
    "holds": _holds,
    "groups": _groups,
    "sag": _sag,
    "load": _load,
    "depth": _depth,
    "most clear height": _clear_most,
    "height": _height,
    "width": _width,
    "least clear height": _clear_least,
    "shelf lines": _lines,
    "lip": _lip,
    "headroom": _headroom,
    "gap": _gap,
    "end margin": _end_margin,
    "spare": _spare,
    "front margin": _front,
    "marks": _marks,
}
"""All limits, those that are told of first coming first."""
