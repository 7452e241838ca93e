"""Leftovers worth keeping, by name, size and place."""

from __future__ import annotations

from collections.abc import Sequence

from solver.cuts import Offcut
from solver.job import Shop
from solver.sequence.steps import Block, Step, X, Y
from solver.stocked import Part
from solver.units import Ticks


def name_offcuts(
    steps: Sequence[Step], material: str, shop: Shop, parts: Sequence[Part]
) -> tuple[Offcut, ...]:
    """Name the leftovers of a sheet that are worth keeping, and return them largest first."""
    blocks = [block for step in steps for block in (step.comes_off, step.goes_on) if block]
    kept = [block for block in blocks if block.what == "waste" and _worth(block, shop)]
    kept.sort(key=lambda block: (-_size(block)[0] * _size(block)[1], block.rect))
    alike = {_size_of(part): part for part in parts if part.material == material} if kept else {}
    return tuple(_offcut(n, block, [*alike.values()]) for n, block in enumerate(kept, start=1))


def _size_of(part: Part) -> tuple[str, Ticks, Ticks, str]:
    return part.name, part.length, part.width, part.grain


def _size(block: Block) -> tuple[int, int]:
    """Length and width as drawn: no less can be left [tick]."""
    return block.rect[2] - block.rect[0], block.rect[3] - block.rect[1]


def _worth(block: Block, shop: Shop) -> bool:
    size = _size(block)
    return max(size) >= max(shop.least_offcut) and min(size) >= min(shop.least_offcut)


def _offcut(number: int, block: Block, parts: Sequence[Part]) -> Offcut:
    block.name, block.what = f"offcut {number}", "offcut"
    length, width = _size(block)
    return Offcut(
        name=block.name,
        x=block.rect[X],
        y=block.rect[Y],
        length=length,
        width=width,
        enough_for=_enough_for(length, width, parts),
    )


def _enough_for(length: int, width: int, parts: Sequence[Part]) -> str | None:
    """Name of the largest part that could be cut from an offcut once more, shelves before all."""
    fitting = [part for part in parts if _fits(part, length, width)]
    best = max(fitting, key=lambda p: (p.name == "shelf", p.length * p.width, p.name), default=None)
    return None if best is None else best.name


def _fits(part: Part, length: int, width: int) -> bool:
    along, across = part.length, part.width
    if part.grain == "width":
        along, across = across, along
    straight = along <= length and across <= width
    return straight or (part.grain == "any" and across <= length and along <= width)
