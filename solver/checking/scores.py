"""Rules on an option's scores, recomputed from its openings."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median_low

from solver.checking import look_scores
from solver.checking.findings import Code, Finding, finding
from solver.checking.have import parts_on_hand
from solver.checking.items import NEAR
from solver.checking.look_outline import outline_missed
from solver.checking.places import rooms
from solver.checking.views import OptionView, same, same_length
from solver.plan.plan import Scores
from solver.units import Ticks


def parted(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Places parted are those of headings and groups, and of kinds."""
    needs = look_scores.places_parted(view)
    yield from same(Code.SCORES_PARTED, view.where, "places parted", needs, scores.places_parted)


def steps(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Range and mean of the steps are those of the openings; none under three of them."""
    code = Code.SCORES_STEPS
    needs, mean = look_scores.steps_range(view), look_scores.steps_mean(view)
    yield from _optional(code, view, "range of the steps", needs, scores.steps_range)
    yield from _optional(code, view, "mean step", mean, scores.steps_mean)


def outline(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The share of the outline without mirror image is that of the rows, to a tenth."""
    needs, has = float(outline_missed(view)), scores.outline_missed
    if not abs(needs - has) <= NEAR:
        what = "outline without mirror image"
        yield finding(Code.SCORES_OUTLINE, view.where, what, f"{needs:.6f} %", f"{has:.6f} %")


def headroom_least(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The least headroom is the least over all things."""
    over = [o.opening.height - t.y - t.height for o in view.openings for t in o.opening.items]
    yield from _optional(
        Code.SCORES_HEADROOM_LEAST,
        view,
        "least headroom",
        min(over, default=None),
        scores.headroom_least,
    )


def headroom_typical(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """The typical headroom is the median over the tallest things; the lower of two middle ones."""
    over = rooms(view.openings)
    yield from _optional(
        Code.SCORES_HEADROOM_TYPICAL,
        view,
        "typical headroom",
        median_low(over) if over else None,
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
    over = rooms(view.openings)
    yield from same_length(
        Code.SCORES_HEADROOM_SPREAD,
        view.where,
        "spread of headroom",
        max(over, default=0) - min(over, default=0),
        scores.headroom_spread,
        view.unit,
    )


def wishes(view: OptionView, scores: Scores) -> Iterator[Finding]:
    """Wishes missed are the things that miss what was asked for by name."""
    needs = look_scores.asked(view)
    yield from same(Code.SCORES_WISHES, view.where, "wishes missed", needs, scores.wishes_missed)


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
    parted,
    steps,
    outline,
    headroom_least,
    headroom_typical,
    headroom_spread,
    wishes,
    fill,
    board_used,
)
"""All rules on scores."""
