"""From labelled sizes to width, height and depth: diameters, cubes, square bases, lengths."""

from __future__ import annotations

from dataclasses import dataclass

from solver.listing.draft import SIDES, Draft, UnreadableError
from solver.listing.line_readings import Choice, Doubt
from solver.units import Ticks, Unit, with_unit

TWO_SIDED = ("diameter", "square", "across")
"""Labels of a size that stands for width and depth."""
ONE_SIZE = ("cube", "sphere")
"""Labels of a size that stands for all three."""


@dataclass(frozen=True)
class Around:
    """What a line says beside its sizes: a stated order of sides, round, a ball, equal sides."""

    order: tuple[str, ...] = ()
    unit: str = ""
    """The unit that the list says its sizes are in, where it does."""
    is_round: bool = False
    is_ball: bool = False
    same_depth: bool = False


def spread(draft: Draft, around: Around = Around()) -> None:
    """Give every side its size where one stands for several: a diameter, a cube, a square base."""
    sizes = draft.sizes
    for label in ONE_SIZE:
        if (size := sizes.pop(label, None)) is not None:
            sizes.update(dict.fromkeys(SIDES, size))
    if around.same_depth and "width" in sizes:
        sizes["depth"] = sizes["width"]
    if around.is_round and set(sizes) == {"width", "height"}:
        sizes["diameter"] = sizes.pop("width")
    _spread_across(draft)
    if (size := sizes.pop("square", None)) is not None:
        sizes.update(width=size, depth=size)
        draft.notes.append("square: as deep as wide")
    if around.is_ball and set(sizes) == {"diameter"}:
        sizes.update(dict.fromkeys(SIDES, sizes.pop("diameter")))
    _spread_diameter(draft)
    _use_length(draft)


def _spread_across(draft: Draft) -> None:
    """A size across is the width, or, with only a height beside it, a diameter."""
    sizes = draft.sizes
    if (across := sizes.pop("across", None)) is None:
        return
    if set(sizes) == {"depth"}:
        _ask_how_deep(draft, across, sizes["depth"])
    else:
        sizes["diameter" if set(sizes) <= {"height"} else "width"] = across


def _ask_how_deep(draft: Draft, across: Ticks, deep: Ticks) -> None:
    """Ask whether a round thing that is so deep is so high, or stands on its edge."""
    draft.sizes = {"width": across, "height": deep, "depth": across}
    flat = Choice("it is the height, and the thing is round")
    edge = Choice("it stands on edge", {"width": across, "height": across, "depth": deep})
    draft.doubts.append(Doubt("across and deep are given: which way is deep?", (flat, edge)))


def _spread_diameter(draft: Draft) -> None:
    """A diameter stands for width and depth, or, with only a depth beside it, width and height."""
    across = draft.sizes.pop("diameter", None)
    if across is None:
        return
    others = set(draft.sizes)
    if others not in ({"height"}, {"depth"}, set()):
        msg = "beside a diameter one size is needed: the height, or of a standing disc the depth"
        raise UnreadableError(msg)
    draft.sizes["width"] = across
    if others == {"depth"} and 4 * draft.sizes["depth"] > across:
        _ask_how_deep(draft, across, draft.sizes["depth"])
    elif others:
        draft.sizes["depth" if others == {"height"} else "height"] = across
        draft.notes.append("diameter taken for two sides")
    else:
        draft.sizes["depth"] = across


def _use_length(draft: Draft) -> None:
    """A length is the width where no width is given; else which way it runs must be asked."""
    length = draft.sizes.pop("length", None)
    if length is None:
        return
    if "width" not in draft.sizes:
        draft.sizes["width"] = length
        draft.notes.append("length taken for the width")
        return
    width = draft.sizes["width"]
    if set(draft.sizes) != {"width", "height"}:
        msg = "length and width are both given; say width, height and depth as it stands"
        raise UnreadableError(msg)
    draft.sizes.update(width=length, depth=width)
    along = Choice("the length runs along the shelf")
    back = Choice("the length runs front to back", {"width": width, "depth": length})
    draft.doubts.append(Doubt("length and width are both given: which runs along?", (along, back)))


def report_missing(draft: Draft, unit: Unit) -> None:
    """Raise UnreadableError where a side has no size, with what was read of the others."""
    missing = [side for side in SIDES if side not in draft.sizes]
    if not missing:
        return
    given = ", ".join(
        f"{side} {with_unit(draft.sizes[side], unit)}" for side in SIDES if side in draft.sizes
    )
    what = missing[0] if len(missing) == 1 else f"{', '.join(missing[:-1])} and {missing[-1]}"
    verb = "is" if len(missing) == 1 else "are"
    msg = f"the {what} {verb} missing (read: {given or 'no sizes'})"
    raise UnreadableError(msg)
