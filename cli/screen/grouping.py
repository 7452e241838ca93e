"""Bays that are alike are shown once, parts that are alike are counted."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from solver.plan.built import Bay, CasePlan
from solver.plan.plan import Option
from solver.plan.stocked import Part

T = TypeVar("T")


def grouped(things: Iterable[T], key: Callable[[T], Hashable]) -> list[list[T]]:
    """Return the things in groups of equal key, in the order in which keys first appear."""
    groups: dict[Hashable, list[T]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return list(groups.values())


@dataclass(frozen=True)
class AlikeBays:
    """Bays of one case with the same shelves at the same heights."""

    case: CasePlan
    bays: tuple[Bay, ...]

    @property
    def first(self) -> Bay:
        """The bay that stands for all."""
        return self.bays[0]

    def label(self, option: Option) -> str:
        """Return which bays these are; empty where the option has only one."""
        names = [] if len(option.cases) == 1 else [self.case.name]
        if len(self.case.bays) > 1:
            numbers = ", ".join(str(bay.number) for bay in self.bays)
            names.append(f"bay{'s' if len(self.bays) > 1 else ''} {numbers}")
        return ", ".join(names)


def alike_bays(option: Option) -> list[AlikeBays]:
    """Return the bays of all cases, those with the same marks and heights together."""
    return [
        AlikeBays(case, tuple(bays))
        for case in option.cases
        for bays in grouped(case.bays, _heights)
    ]


def _heights(bay: Bay) -> Hashable:
    return tuple((opening.floor, opening.height) for opening in bay.openings)


def alike_parts(parts: Sequence[Part]) -> list[list[Part]]:
    """Return parts that are cut alike together, whatever they are called within the case."""
    return grouped(parts, lambda part: part.model_copy(update={"id": ""}))
