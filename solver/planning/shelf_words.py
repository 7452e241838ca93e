"""Shelves and bays by the names that people give them: "shelf 2", "the bottom of bay 1"."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from solver.plan.built import BayName, CasePlan
from solver.planning.look_figures import Spot

ORDINALS = (
    "bottom", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
    "tenth", "eleventh", "twelfth",
)  # fmt: skip
"""Of shelves by number, as they are numbered everywhere: 0 is the lowest board."""
BAYS_NAMED = 2
"""Most bays whose shelves are named one by one [-]."""


def joined(words: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


@dataclass(frozen=True)
class ShelfNames:
    """Names of the shelves of these cases, as short as tells them apart."""

    cases: tuple[CasePlan, ...]

    def shelf(self, spot: Spot) -> str:
        """Return "shelf 2" or "the bottom", with its bay where there are several."""
        return f"{numbered([spot[2]])}{self._of_bay(spot[:2])}"

    def nth(self, spot: Spot) -> str:
        """Return "the third" or "the bottom", with its bay where there are several."""
        index = spot[2]
        name = f"the {ORDINALS[index]}" if index < len(ORDINALS) else f"shelf {index}"
        return f"{name}{self._of_bay(spot[:2])}"

    def shelves(self, spots: Sequence[Spot]) -> str:
        """Return "shelves 1 and 2", "the bottom and shelf 2", bay by bay where there are several.

        On more than two bays only how many shelves of how many bays.
        """
        of_bay: dict[BayName, list[int]] = defaultdict(list)
        for case, bay, index in spots:
            of_bay[case, bay].append(index)
        if len(of_bay) > BAYS_NAMED:
            return f"{len(spots)} shelves of {len(of_bay)} bays"
        return joined(
            [f"{numbered(indices)}{self._of_bay(bay)}" for bay, indices in of_bay.items()]
        )

    def bays(self, bays: Sequence[BayName]) -> str:
        """Return "bay 2", "bays 1 and 2", or names of cases."""
        if len(self.cases) == 1 and len(bays) > 1:
            return f"bays {joined([str(number) for _, number in bays])}"
        return joined([self._bay(bay) for bay in bays])

    def _of_bay(self, bay: BayName) -> str:
        many = sum(len(case.bays) for case in self.cases)
        return f" of {self._bay(bay)}" if many > 1 else ""

    def _bay(self, bay: BayName) -> str:
        name, number = bay
        case = next(one for one in self.cases if one.name == name)
        if len(self.cases) == 1:
            return f"bay {number}"
        return name if len(case.bays) == 1 else f"bay {number} of {name}"


def numbered(indices: Sequence[int]) -> str:
    """Return "the bottom", "shelf 1", "the bottom and shelves 1 to 3"."""
    shelves = sorted(index for index in indices if index)
    parts = ["the bottom"] if 0 in indices else []
    if len(shelves) == 1:
        parts.append(f"shelf {shelves[0]}")
    elif shelves:
        run = len(shelves) > 2 and shelves[-1] - shelves[0] == len(shelves) - 1
        numbers = f"{shelves[0]} to {shelves[-1]}" if run else joined([str(n) for n in shelves])
        parts.append(f"shelves {numbers}")
    return " and ".join(parts)
