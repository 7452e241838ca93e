"""Rules on the stages of the look: which there are, and what their values come to."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from solver.checking.findings import Code, Finding, finding
from solver.checking.look_scores import MEASURES, steps_range
from solver.checking.shelf_lines import falls, marking_step
from solver.checking.status import figure
from solver.checking.views import OptionView, same
from solver.plan.stage_units import AFTER_RHYTHM, RHYTHM_STAGES

ALWAYS = ("empty", "mirrored", "together", "alone", *AFTER_RHYTHM)
"""Stages of every layout."""
OF_RHYTHM = frozenset(name for rows in RHYTHM_STAGES.values() for row in rows for name in row)


def listed(view: OptionView) -> Iterator[Finding]:
    """Every stage is there that the job calls for: what is asked by name, headings, the rhythm."""
    names = {stage.name for stage in view.option.stages}
    items = view.job.items
    needed = {
        "asked": any(i.where is not None or i.together or i.hero or i.fragile for i in items),
        "headings": any(i.heading is not None or i.group is not None for i in items),
        "rises": _falls_wished(view),
        **dict.fromkeys(ALWAYS, True),
    }
    for name, calls in needed.items():
        if calls and name not in names:
            yield finding(Code.LOOK_LISTED, view.where, f"stage {name!r}", "listed", "missing")
    if "rises" in names and not needed["rises"]:
        what = "stage 'rises', where the tallest need not be at one end"
        yield finding(Code.LOOK_LISTED, view.where, what, "left off", "listed")


def _falls_wished(view: OptionView) -> bool:
    """Whether the tallest is wished at one end: openings that mirror each other do not fall."""
    look = view.job.look
    return look.tallest != "any" and look.rhythm != "symmetric"


def rhythm_listed(view: OptionView) -> Iterator[Finding]:
    """The stages of the rhythm are those of the job's; without three openings there may be none."""
    has = tuple(stage.name for stage in view.option.stages if stage.name in OF_RHYTHM)
    allowed = RHYTHM_STAGES[view.job.look.rhythm]
    short = all(len(fall.heights) < 3 for fall in falls(view))
    if has not in allowed and not (short and not has):
        needs = " or ".join(" and ".join(row) for row in allowed)
        what = "stages of the rhythm"
        yield finding(Code.LOOK_LISTED, view.where, what, needs, " and ".join(has) or "none")


def even_instead(view: OptionView) -> Iterator[Finding]:
    """Even spacing takes the place of a steady fall only where steps differ by two of the marks."""
    names = {stage.name for stage in view.option.stages}
    if view.job.look.rhythm != "steady" or "even" not in names:
        return
    most = 2 * max((marking_step(bay) for bay in view.bays), default=0)
    if (steps_range(view) or 0) <= most:
        what = "range of the steps, for a stage 'even' in place of 'steady'"
        yield finding(
            Code.LOOK_EVEN,
            view.where,
            what,
            f"more than {most} ticks",
            f"{steps_range(view) or 0} ticks",
        )


def values(view: OptionView) -> Iterator[Finding]:
    """The value of every stage of the look is what the layout comes to, to the tick."""
    for stage in view.option.stages:
        if stage.name not in MEASURES:
            continue
        needs, has = MEASURES[stage.name](view), figure(stage.value)
        if has is None or Fraction(has) != needs:
            where = f"{view.where}, stage {stage.name!r}"
            text = f"{_text(needs)} {stage.unit}"
            yield finding(Code.LOOK_VALUE, where, "value", text, f"{stage.value} {stage.unit}")


def _text(value: Fraction) -> str:
    number = float(value)
    return str(int(number)) if number.is_integer() else str(number)


def said(view: OptionView) -> Iterator[Finding]:
    """What does not fit is named beside the area that the stage of fit counts."""
    names = [left.item for left in view.option.left_out if left.count]
    for stage in view.option.stages:
        if stage.name != "fit" or not names:
            continue
        text = f"{stage.note or ''} {stage.sentence or ''}"
        if not any(name in text for name in names):
            where = f"{view.where}, stage 'fit'"
            yield from same(Code.LOOK_SAID, where, "what is left out", ", ".join(names), text)


RULES = (listed, rhythm_listed, even_instead, values, said)
"""All rules on the stages of a layout."""
