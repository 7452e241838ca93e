"""Which boards are glued up together, so that no lot outlasts the open time of the glue."""

from __future__ import annotations

from dataclasses import dataclass

from solver.costing.labour_count import CaseWork

JOINTS_MOST = 8
"""More joints than about this and there are two glue-ups: common practice, no source [-]."""


@dataclass(frozen=True)
class Lot:
    """One glue-up.

    Attributes
    ----------
    boards
        Ids of the boards whose ends are glued, in the order in which they go in.
    sides
        Whether the sides are set up in it; the first lot makes the box.
    """

    boards: tuple[str, ...]
    sides: bool

    @property
    def joints(self) -> int:
        """Two for each board [-]."""
        return 2 * len(self.boards)

    @property
    def too_many(self) -> bool:
        """Whether it has more joints than the open time of common glue allows."""
        return self.joints > JOINTS_MOST


def lots(work: CaseWork) -> tuple[Lot, ...]:
    """Return the glue-ups of a case in order.

    First the box: bottom, uprights, top, toe and as many shelves as the open time allows, from
    the middle outwards, which keep the sides straight. Then the other boards, slid in from
    the back, bay by bay from the lowest.
    """
    box = [one for one in work.jointed if one not in work.ids("shelf")]
    if 2 * len(box) > JOINTS_MOST:  # the toe can wait, the uprights cannot
        box = [one for one in box if one not in work.ids("toe")]
    shelves = [one for one in work.jointed if one not in box]
    room = max(0, JOINTS_MOST // 2 - len(box))
    first = _middle(shelves, room) if len(work.planned.bays) == 1 else []
    order = [*(one for one in box if one not in work.ids("top")), *first, *work.ids("top")]
    rest = [one for one in shelves if one not in first]
    return (Lot(tuple(order), sides=True), *(Lot(one, sides=False) for one in _even(rest)))


def _even(shelves: list[str]) -> list[tuple[str, ...]]:
    """Divide shelves into as few lots as the open time allows, as equal as they can be."""
    count = -(-2 * len(shelves) // JOINTS_MOST)
    sizes = [len(shelves) // count + (at < len(shelves) % count) for at in range(count)]
    return [tuple(shelves[sum(sizes[:at]) : sum(sizes[: at + 1])]) for at in range(count)]


def _middle(shelves: list[str], count: int) -> list[str]:
    """Return so many shelves that divide the height most evenly by their numbers."""
    count = min(count, len(shelves))
    places = [(k + 1) * (len(shelves) + 1) // (count + 1) for k in range(count)]
    return [shelves[place - 1] for place in dict.fromkeys(places)]
