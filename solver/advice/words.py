"""Advice in the words of the trade."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.advice.changes import JOINT, Change, What, half
from solver.plan import Part
from solver.units import Ticks, Unit, with_unit

KINDS: dict[What, str] = {
    "shorter": "shorter parts",
    "narrower": "narrower parts",
    "kerf": "a thinner blade",
    "edge trim": "less edge trim",
    "grain": "turned grain",
    "two pieces": "parts in two pieces",
}
"""Kinds of change as a list names them."""


def listed(words: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def counted(parts: Sequence[Part]) -> str:
    """Name parts with how many there are: `shelf (4), side (2)`; cases where there are several."""
    names: dict[str, int] = {}
    for part in parts:
        name = f"{part.case}: {part.name}" if part.case else part.name
        names[name] = names.get(name, 0) + 1
    return listed([f"{number} x {name}" for name, number in names.items()])


def text_of(change: Change, amount: int, now: Ticks, parts: Mapping[str, Part], unit: Unit) -> str:
    """Say what to change: `now` is the kerf or trim as it is [tick]."""
    some = [parts[ident] for ident in change.parts]
    if change.what == "kerf":
        return f"kerf {with_unit(amount, unit)} instead of {with_unit(now, unit)}"
    if change.what == "edge trim":
        off = f"{with_unit(amount, unit)} instead of {with_unit(now, unit)}"
        return f"trim {off} off each factory edge"
    if change.what == "grain":
        return f"turn the grain of {counted(some)}: it shows, ask the client"
    if change.what == "two pieces":
        return _in_two(change, some, unit)
    size = with_unit(getattr(some[0], change.side) - amount, unit)
    return f"{counted(some)}: {with_unit(amount, unit)} {change.what}, {size} {_side(change)}"


def _side(change: Change) -> str:
    return "long" if change.side == "length" else "wide"


def _in_two(change: Change, some: Sequence[Part], unit: Unit) -> str:
    sizes = sorted({half(getattr(part, change.side), change.side, unit) for part in some})
    joint = with_unit(JOINT[unit][change.side == "width"], unit)
    how = f"a lap of {joint}" if change.side == "length" else f"{joint} to true the glued edges"
    each = listed([with_unit(size, unit) for size in sizes])
    return f"{counted(some)} in two pieces, each {each} {_side(change)} with {how}"


def nothing(proven: Sequence[What], searched: Sequence[What], unit: str, over: bool) -> str:
    """Say that no change helps, for which kinds that is proven, and which were only searched."""
    text = f"no small change found that saves a {unit}"
    if over:
        text += " by the limit"
    if proven:
        text += f"; proven for {listed([KINDS[what] for what in proven])}"
    if searched:
        text += f"; searched without proof: {listed([KINDS[what] for what in searched])}"
    return text
