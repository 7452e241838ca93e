"""The clear heights that the scores of the look are about: each line group's, once."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from solver.checking.views import BayView, OptionView
from solver.units import Ticks

Group = int | tuple[str, int]
"""Bays that share shelf lines by number, or one bay by the name of its case and its own number."""


@dataclass(frozen=True)
class Fall:
    """Clear heights from the lowest opening up, and the step of their marks [tick]."""

    heights: tuple[Ticks, ...]
    marking_step: Ticks
    upward: bool = False
    """Whether the tallest opening is wished on top."""

    @property
    def steps(self) -> tuple[Ticks, ...]:
        """How much lower each opening is than the one before it, from the tallest on [tick]."""
        sign = -1 if self.upward else 1
        return tuple(sign * (low - high) for low, high in pairwise(self.heights))


def falls(view: OptionView) -> tuple[Fall, ...]:
    """What is scored: of each group, every different row of heights of bays with all its lines."""
    lines = view.option.lines
    upward = view.job.look.tallest == "top"
    found: dict[tuple[Group, tuple[Ticks, ...]], Fall] = {}
    for group, bays in groups(view):
        for bay in bays:
            if isinstance(group, int) and len(bay.bay.shelves) < len(lines[group].heights):
                continue
            heights = tuple(opening.height for opening in bay.bay.openings)
            found.setdefault((group, heights), Fall(heights, marking_step(bay), upward))
    return tuple(found.values())


def groups(view: OptionView) -> list[tuple[Group, list[BayView]]]:
    """The bays that share shelf lines together, every other bay by itself."""
    shared = {bay: g for g, lines in enumerate(view.option.lines) for bay in lines.bays}
    found: dict[Group, list[BayView]] = {}
    for bay in view.bays:
        name = bay.case.plan.name, bay.bay.number
        found.setdefault(shared.get(name, name), []).append(bay)
    return list(found.items())


def marking_step(bay: BayView) -> Ticks:
    """Step of a bay's marks: that of the job, or the pitch of the pins [tick]."""
    case = bay.case.case
    return case.pin_pitch if case.fixing == "pins" else bay.case.job.head.marking_step
