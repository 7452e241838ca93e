"""Kinds of hardware with packs, spares and sources, and how needs become lines of whole packs.

Packs are those of common shops, no source; a job's [[hardware]] may say otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from solver.carcass.settled_job import PlannedCase
from solver.carcass.trim_face import doorway
from solver.errors import InputError
from solver.job.defaults import CP
from solver.job.doorway import Doorway
from solver.job.finish_and_overrides import HardwareOrder
from solver.plan.bought import BoughtAt, HardwareCounted, HardwareLine, Use
from solver.plan.hanging import HangSheet
from solver.plan.trimming import TrimSet
from solver.units import Unit


@dataclass(frozen=True)
class Kind:
    """One kind of hardware or consumable.

    Attributes
    ----------
    key, what
        How a job file or price list names it, and what it is.
    at, counted
        Where it is bought, and what is counted.
    packs
        Sizes of pack, in an inch job and in a metric one, the smallest first.
    spare
        Spares in per cent of the need, and the least number of them [-].
    source
        Where the quantity is from.
    """

    key: str
    what: str
    at: BoughtAt
    counted: HardwareCounted = "each"
    packs: tuple[tuple[int, ...], tuple[int, ...]] = ((1,), (1,))
    spare: tuple[int, int] = (0, 0)
    source: str = CP

    def pack_for(self, need: int, unit: Unit) -> int:
        """Return the pack to buy for a need: the smallest of which two at most are enough."""
        sizes = self.packs[0 if unit == "in" else 1]
        return next((size for size in sizes if need <= 2 * size), sizes[-1])


_FIFTY = ((50, 100), (50, 200))
_NAILS = ((500, 1000), (500, 1000))
_LIQUID = ((946, 3785), (750, 2500))
"""A US quart and gallon; metric tins [ml]."""

HINGE = Kind("hinge", "hinge, ball-bearing or the like", "hardware", source="doors: woodweb.com "
             "Hinge_Placement_Rules_and_Traditions; the maker's load rating decides")  # fmt: skip
JAMB_SCREW = Kind(
    "hinge screw, jamb", "hinge screw into the jamb and stud", "fixings",
    packs=((25, 50), (25, 50)), spare=(0, 4),
    source="2 to 3 in into the stud: sethrylan.org bookcase door",
)  # fmt: skip
CASE_SCREW = Kind(
    "hinge screw, case", "hinge screw into the case's hinge stile", "fixings",
    packs=((25, 50), (25, 50)), spare=(0, 4),
)  # fmt: skip
JOINT_SCREW = Kind(
    "joint screw", "wood screw", "fixings", packs=_FIFTY, spare=(5, 4),
    source="3 to a joint to 10 in deep, 4 to 14 in: common practice, no source",
)  # fmt: skip
BACK_STAPLE = Kind(
    "back staple", "narrow crown staple", "fixings", packs=((1000, 5000), (1000, 5000)),
    spare=(10, 10), source="4 to 6 in apart at edges, 6 to 8 along shelves: " + CP,
)  # fmt: skip
BACK_SCREW = Kind(
    "back screw", "wood screw, back", "fixings", packs=_FIFTY, spare=(5, 4),
    source="screws on a 1/2 in back: sawmillcreek.org 189643; how far apart: " + CP,
)  # fmt: skip
BRAD = Kind("brad", "brad, 18 gauge", "fixings", packs=_NAILS, spare=(10, 10))
NAIL = Kind("finish nail", "finish nail, 15 or 16 gauge", "fixings", packs=_NAILS, spare=(10, 10))
TRIM_SCREW = Kind("trim screw", "screw from behind, trim that travels", "fixings", packs=_FIFTY,
                  spare=(5, 4))  # fmt: skip
WALL_SCREW = Kind("wall screw", "wall screw into the stud", "fixings", packs=((25, 50), (25, 50)),
                  spare=(0, 2), source="two a stud through a cleat: woodcentral.com 2494007; a "
                  "second strip over 60 in: Architectural Woodwork Standards p. 281")  # fmt: skip
CLEAT = Kind("cleat", "half of a cleat, or a screw strip", "trim", source="strips 1/2 x 2-1/2 in "
             "or more: Architectural Woodwork Standards 1st ed. p. 281")  # fmt: skip
STRAP = Kind("strap", "strap to a stud, with its screws", "hardware", packs=((2,), (2,)),
             source="at least two studs near the top: earthquakecountry.org bookcases")  # fmt: skip
SHIM = Kind("shim", "tapered shims", "fixings", "pair", packs=((6,), (6,)), spare=(10, 1))
CATCH = Kind("catch", "magnetic or roller catch", "hardware",
             source="top and bottom of the latch side: sethrylan.org bookcase door")  # fmt: skip
PULL = Kind("pull", "pull, or a recessed handhold", "hardware")
BUMPER = Kind("bumper", "bumper", "hardware", packs=((4,), (4,)))
STOP = Kind("limit stop", "limit stop", "hardware")
PIN = Kind("shelf pin", "shelf pin", "hardware", packs=((25,), (20,)), spare=(10, 2),
           source="four to a shelf: paperzz.com 7843242, 16 for 4 shelves")  # fmt: skip
PLINTH = Kind("plinth block", "plinth block", "trim")
BLOCK = Kind("corner block", "corner block", "trim")
GLUE = Kind("glue", "wood glue (PVA)", "glue", "ml", packs=((237, 473, 946), (250, 500, 750)),
            source="6 m2 a litre (250 ft2 a gallon): from memory; a quarter is lost")  # fmt: skip
FILLER = Kind("filler", "wood filler", "glue", "ml", packs=((118, 473), (125, 500)),
              source="about 0.5 ml a hole: " + CP)  # fmt: skip
PRIMER = Kind("primer", "primer", "paint", "ml", packs=_LIQUID,
              source="200 to 300 ft2 a gallon: engineerfix.com paint for cabinets")  # fmt: skip
PAINT = Kind("paint", "paint, topcoat", "paint", "ml", packs=_LIQUID,
             source="350 to 400 ft2 a gallon, 10 to 15 % more: engineerfix.com paint for "
             "cabinets")  # fmt: skip
CLEAR = Kind("clear finish", "clear finish", "paint", "ml", packs=_LIQUID,
             source="coverage as the job says; the tin has the last word")  # fmt: skip
DISC = Kind("sanding disc", "sanding disc, 5 in (125 mm)", "paint", packs=((10, 50), (10, 50)),
            spare=(0, 1), source="one to about 1 m2 (10 ft2) and grit: from memory")  # fmt: skip
SLEEVE = Kind("roller sleeve", "fine roller sleeve", "paint", packs=((2,), (2,)))
STRIP = Kind("light strip", "light strip, low voltage", "hardware", "mm",
             packs=((4877, 9754), (5000, 10000)), spare=(0, 0))  # fmt: skip
"""16 ft and 5 m rolls."""
DRIVER = Kind("driver", "driver, limited power", "hardware")
CHANNEL = Kind("channel", "metal channel for the strip", "hardware", "mm",
               packs=((1000, 2000), (1000, 2000)))  # fmt: skip


SQUARE_METRES_PER_FT2 = Fraction(3048, 10000) ** 2


def area_text(area: Fraction, unit: Unit, places: int = 0) -> str:
    """Write an area [m2] in the job's unit, to so many places of ft2, one more of m2 [-]."""
    if unit == "in":
        return f"{float(area / SQUARE_METRES_PER_FT2):.{places}f} ft2"
    return f"{float(area):.{places + 1}f} m2"


@dataclass(frozen=True)
class Need:
    """How many pieces of a kind one use takes.

    Attributes
    ----------
    kind, size
        What, and its size in the job's unit; "" where it has none.
    count
        In what the kind counts.
    use, how, note
        What for, the arithmetic, and a remark on all such lines.
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
        return doorway(self.job, self.case)


def packed_lines(
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
    order_of = {order.key: order for order in orders}
    list_lines = tuple(_line(alike, order_of, unit) for alike in grouped.values())
    named = {line.key for line in list_lines} | {key for key, _ in grouped}
    unknown = [order.key for order in orders if order.key not in named]
    if unknown:
        msg = f"[[hardware]] key {unknown[0]!r} is no line of this plan; lines: " + ", ".join(
            repr(line.key) for line in list_lines
        )
        raise InputError(msg)
    return list_lines


def _line(needs: Sequence[Need], order_of: dict[str, HardwareOrder], unit: Unit) -> HardwareLine:
    kind, size = needs[0].kind, needs[0].size
    key = f"{kind.key}, {size}" if size else kind.key
    order = order_of.get(key) or order_of.get(kind.key)
    need = sum(use_need.count for use_need in needs)
    spare = max(-(-need * kind.spare[0] // 100), kind.spare[1])
    if order is not None and order.spare is not None:
        spare = order.spare
    pack = kind.pack_for(need + spare, unit)
    if order is not None and order.pack is not None:
        pack = order.pack
    notes = [use_need.note for use_need in needs if use_need.note]
    uses: dict[Use, int] = {}
    for use_need in needs:
        uses[use_need.use] = uses.get(use_need.use, 0) + use_need.count
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
        how="; ".join(dict.fromkeys([use_need.how for use_need in needs] + notes)),
        source=kind.source,
    )
