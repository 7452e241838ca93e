"""Bays that are alike in every way that a model sees."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

from solver.layout.layout_problem import BayShape, LayoutProblem


@dataclass(frozen=True)
class BayClass:
    """Bays that are alike in every way that the model sees, taken together.

    With more than one bay the model is a relaxation: what fits into their openings of
    one height taken together need not fit bay by bay.
    """

    shape: BayShape
    bays: tuple[int, ...]
    group: int

    @property
    def times(self) -> int:
        """How many bays it stands for [-]."""
        return len(self.bays)


def classes_of(problem: LayoutProblem, *, merge: bool) -> tuple[BayClass, ...]:
    """One class a bay, or with `merge` one class for all bays of a line group that are alike.

    Bays that use some of their group's lines only stay by themselves: each may use others.
    """
    home: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for number, group in enumerate(problem.groups):
        for bay in group.bays:
            alike = replace(problem.bays[bay], case=0, number=0, wider=0)
            together = merge and alike.shelves == group.most
            home[(number, alike) if together else (number, bay)].append(bay)
    return tuple(
        BayClass(problem.bays[bays[0]], tuple(bays), int(str(key[0]))) for key, bays in home.items()
    )


def can_be_ranked(problem: LayoutProblem) -> bool:
    """Whether every line group is of bays that are alike and use all its lines."""
    return len(classes_of(problem, merge=True)) == len(problem.groups)
