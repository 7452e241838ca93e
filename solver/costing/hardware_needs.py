"""What one use needs, and how uses of the same thing become a line of whole packs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from solver.carcass.decided import PlannedCase
from solver.costing.hardware_kinds import Kind
from solver.errors import InputError
from solver.job.doorway import Doorway
from solver.job.hardware_order import HardwareOrder
from solver.plan.hanging import HangSheet
from solver.plan.hardware_list import HardwareLine, Use
from solver.plan.trimming import TrimSet
from solver.units import Unit


@dataclass(frozen=True)
class Need:
    """How many of a kind one use takes.

    Attributes
    ----------
    kind, size
        What, and its size in the job's unit; "" where it has none.
    count
        In what the kind counts.
    use, how, note
        What for, the arithmetic, and what is to be known of all such.
    """

    kind: Kind
    size: str
    count: int
    use: Use
    how: str
    note: str = ""


@dataclass(frozen=True)
class FastenedCase(PlannedCase):
    """A case with what holds it together and up: its hanging sheet and its trim."""

    sheet: HangSheet
    trim: TrimSet

    @property
    def unit(self) -> Unit:
        """Unit of the job."""
        return self.job.unit

    @property
    def door(self) -> Doorway | None:
        """The place it goes into."""
        return next((one for one in self.job.doorways if one.name == self.case.doorway), None)


def lines(
    needs: Iterable[Need], orders: Sequence[HardwareOrder], unit: Unit
) -> tuple[HardwareLine, ...]:
    """Return a line for each kind and size, uses added up, with spares and whole packs.

    Raises
    ------
    InputError
        Where a [[hardware]] of the job names no line.
    """
    grouped: dict[tuple[str, str], list[Need]] = {}
    for need in needs:
        if need.count > 0:
            grouped.setdefault((need.kind.key, need.size), []).append(need)
    asked = {order.key: order for order in orders}
    made = tuple(_line(alike, asked, unit) for alike in grouped.values())
    named = {line.key for line in made} | {key for key, _ in grouped}
    strange = [order.key for order in orders if order.key not in named]
    if strange:
        msg = f"[[hardware]] key {strange[0]!r} is no line of this plan; lines: " + ", ".join(
            repr(line.key) for line in made
        )
        raise InputError(msg)
    return made


def _line(alike: Sequence[Need], asked: dict[str, HardwareOrder], unit: Unit) -> HardwareLine:
    kind, size = alike[0].kind, alike[0].size
    key = f"{kind.key}, {size}" if size else kind.key
    order = asked.get(key) or asked.get(kind.key)
    need = sum(one.count for one in alike)
    spare = max(-(-need * kind.spare[0] // 100), kind.spare[1])
    if order is not None and order.spare is not None:
        spare = order.spare
    pack = kind.pack_for(need + spare, unit)
    if order is not None and order.pack is not None:
        pack = order.pack
    notes = [one.note for one in alike if one.note]
    uses: dict[Use, int] = {}
    for one in alike:
        uses[one.use] = uses.get(one.use, 0) + one.count
    return HardwareLine(
        key=key,
        kind=kind.key,
        what=kind.what,
        size=size,
        counted=kind.counted,
        need=need,
        spare=spare,
        pack=pack,
        packs=-(-(need + spare) // pack),
        at=kind.at,
        uses=tuple(uses.items()),
        how="; ".join(dict.fromkeys([one.how for one in alike] + notes)),
        source=kind.source,
    )
