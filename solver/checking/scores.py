"""Rules on an option's scores, recomputed from its openings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from statistics import median_low

from solver.checking.findings import Code, Finding, finding
from solver.checking.have import parts_on_hand
from solver.checking.items import NEAR
from solver.checking.status import figure
from solver.checking.views import BayView, OpeningView, OptionView, same, same_length
from solver.job.job import Look
from solver.plan.plan import Scores
from solver.units import TICKS_PER_MM, Ticks, to_mm


def score(view: OptionView) -> Ticks:
    """Score of the job's rhythm over all bays, rounded half up to a tick [tick]."""
    return math.floor(exact(view) + Fraction(1, 2))


def exact(view: OptionView) -> Fraction:
    """Score of the job's rhythm over all bays [tick]."""
    return sum((_of_bay(bay, view.job.look) for bay in view.bays), Fraction(0))


def _of_bay(bay: BayView, look: Look) -> Fraction:
    heights = [opening.height for opening in bay.bay.openings]
    match look.rhythm:
        case "even":
            return _from_mean(heights)
        case "symmetric":
            pairs = zip(heights, reversed(heights), strict=True)
            return Fraction(sum(abs(a - b) for a, b in pairs), 2)
        case "graduated":
            steps = (look.step_least, look.step_most)
            return graduated(heights, *(steps if look.step is None else (look.step, look.step)))
        case "to-fit":
            return _from_mean(headrooms(bay.openings))


def _from_mean(values: Sequence[Ticks]) -> Fraction:
    if not values:
        return Fraction(0)
    mean = Fraction(sum(values), len(values))
    return sum((abs(value - mean) for value in values), Fraction(0))


def graduated(heights: Sequence[Ticks], least: Ticks, most: Ticks) -> Fraction:
    """Least sum of distances from a descent with a step between `least` and `most` [tick].

    The sum is convex and piecewise linear in the step, so its least lies at an end of the
    range or where two openings lie on one descent; for a step the best start is a median.
    """
    count = len(heights)
    slopes = {
        Fraction(heights[i] - heights[j], j - i) for i in range(count) for j in range(i + 1, count)
    }
    within = {slope for slope in slopes if least < slope < most}
    return min(_fit(heights, step) for step in within | {Fraction(least), Fraction(most)})


def _fit(heights: Sequence[Ticks], step: Fraction) -> Fraction:
    starts = [height + step * i for i, height in enumerate(heights)]
    start = median_low(starts)
    return sum((abs(value - start) for value in starts), Fraction(0))


def headrooms(openings: Iterable[OpeningView]) -> list[Ticks]:
    """Headroom over the tallest thing of each opening that holds any [tick]."""
    return [
        view.opening.height - max(thing.y + thing.height for thing in view.opening.items)
        for view in openings
        if view.opening.items
    ]


def rhythm(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The rhythm score is that of the openings, to the nearest tick."""
    yield from same_length(
        Code.SCORES_RHYTHM, view.where, "rhythm", score(view), scores.rhythm, view.unit
    )


def rhythm_stage(view: OptionView, _: Scores) -> Iterator[Finding]:
    """The rhythm of the plan is that of its stage, or within what may be given back.

    A stage that is not proven may have been bettered by a later one, down to its bound.
    """
    needs, slack = score(view), view.job.look.rhythm_slack
    for stage in view.option.stages:
        value = figure(stage.value)
        if stage.name != "rhythm" or value is None:
            continue
        limit = figure(stage.bound)
        least = value if stage.proven or limit is None else min(value, limit)
        if not least * TICKS_PER_MM - 1 <= needs <= value * TICKS_PER_MM + slack + 1:
            yield finding(
                Code.SCORES_RHYTHM_STAGE,
                f"{view.where}, stage 'rhythm'",
                f"value, of which {to_mm(slack)} mm may be given back",
                f"{to_mm(needs)} mm",
                f"{value} mm",
            )


def headroom_least(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The least headroom is the least over all things."""
    rooms = [o.opening.height - t.y - t.height for o in view.openings for t in o.opening.items]
    yield from _optional(
        Code.SCORES_HEADROOM_LEAST,
        view,
        "least headroom",
        min(rooms, default=None),
        scores.headroom_least,
    )


def headroom_typical(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The typical headroom is the median over the tallest things; the lower of two middle ones."""
    rooms = headrooms(view.openings)
    yield from _optional(
        Code.SCORES_HEADROOM_TYPICAL,
        view,
        "typical headroom",
        median_low(rooms) if rooms else None,
        scores.headroom_typical,
    )


def _optional(
    code: Code, view: OptionView, what: str, needs: Ticks | None, has: Ticks | None
) -> Iterator[Finding]:
    if needs is None or has is None:
        yield from same(code, view.where, what, needs, has)
    else:
        yield from same_length(code, view.where, what, needs, has, view.unit)


def headroom_spread(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The spread is the largest less the smallest headroom over the tallest things."""
    rooms = headrooms(view.openings)
    yield from same_length(
        Code.SCORES_HEADROOM_SPREAD,
        view.where,
        "spread of headroom",
        max(rooms, default=0) - min(rooms, default=0),
        scores.headroom_spread,
        view.unit,
    )


def wishes(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Wishes missed are the things that stand elsewhere than wished.

    Where no opening of a bay holds the eye level, the one at eye level is a matter of
    opinion, and a thing of that bay counts either way.
    """
    judged = [
        _hit(opening, item.where)
        for opening in view.openings
        for _, item in opening.things
        if item.where is not None
    ]
    least = judged.count(False)
    most = least + judged.count(None)
    if not least <= scores.wishes_missed <= most:
        yield finding(
            Code.SCORES_WISHES,
            view.where,
            "wishes missed",
            str(least) if least == most else f"from {least} to {most}",
            str(scores.wishes_missed),
        )


def _hit(view: OpeningView, wish: str | int) -> bool | None:
    index = view.opening.index
    if isinstance(wish, int):
        return index == wish
    if wish == "eye":
        at_eye = [o.opening.index for o in view.bay.openings if _holds_eye(o)]
        return index in at_eye if at_eye else None
    return index == (0 if wish == "low" else len(view.bay.openings) - 1)


def _holds_eye(view: OpeningView) -> bool:
    floor = view.bay.case.plan.above_floor + view.opening.floor
    return floor <= view.job.look.eye_level <= floor + view.opening.height


def fill(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Least and most fill are those of all openings, empty ones too."""
    fills = [o.opening.fill for o in view.openings]
    needs = min(fills, default=0.0), max(fills, default=0.0)
    has = scores.fill_least, scores.fill_most
    if not all(abs(n - h) <= NEAR for n, h in zip(needs, has, strict=True)):
        yield finding(
            Code.SCORES_FILL,
            view.where,
            "least and most fill",
            f"{needs[0]:.6f} and {needs[1]:.6f}",
            f"{has[0]:.6f} and {has[1]:.6f}",
        )


def board_used(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Board used is the area of the parts to cut over the area of the sheets."""
    sheets = sum(sheet.length * sheet.width for sheet in view.option.sheets)
    there = parts_on_hand(view)
    parts = sum(p.length * p.width for p in view.option.parts if p.id not in there)
    needs = parts / sheets if sheets else 0.0
    if not abs(needs - scores.board_used) <= NEAR:
        yield finding(
            Code.SCORES_BOARD_USED,
            view.where,
            "share of board used",
            f"{needs:.6f}",
            f"{scores.board_used:.6f}",
        )


RULES = (
    rhythm,
    rhythm_stage,
    headroom_least,
    headroom_typical,
    headroom_spread,
    wishes,
    fill,
    board_used,
)
"""All rules on scores."""
