"""What other simple ways of cutting take: a general-purpose packer, and strips first-fit.

Both speak of one size of sheet, in any number. A kerf is put into the sizes: so much more for
each part and for the trimmed sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import product
from typing import TypeAlias

from solver.cutting.cutting_problem import CuttingProblem

Size: TypeAlias = tuple[int, int]
Part: TypeAlias = tuple[int, int, bool]
"""Length, width, and whether it may turn."""

PACKED_MOST = 1000
"""Longer lists are not given to the packer, which would take minutes [-]."""
CHOICES = ("Bssf", "Blsf", "Baf")
SPLITS = ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
SORTS = ("SORT_AREA", "SORT_PERI", "SORT_SSIDE", "SORT_LSIDE")


def padded(problem: CuttingProblem) -> tuple[list[Part], Size] | None:
    """Sizes with the kerf in them, and the room; None where there are several sizes of sheet."""
    if len(problem.sheets) != 1 or problem.sheets[0].on_hand or problem.sheets[0].limit is not None:
        return None
    extra, lost = problem.kerf + problem.margin, 2 * problem.edge_trim - problem.kerf
    parts = [(p.length + extra, p.width + extra, p.may_turn) for p in problem.parts]
    return parts, (problem.sheets[0].length - lost, problem.sheets[0].width - lost)


def packer_count(problem: CuttingProblem) -> int | None:
    """Fewest sheets of the packer over its guillotine settings; None where it cannot be compared.

    Its merging of free rectangles is off, since merged ones need not be free by edge-to-edge
    cuts. Turning is one switch for all parts, so that a mixed list keeps its direction. An
    answer counts only where it places every part.
    """
    known = padded(problem)
    free = problem.stages == "any" and problem.first_cut == "either"
    if known is None or not free or len(problem.parts) > PACKED_MOST:
        return None
    parts, room = known
    turn = all(turns for *_, turns in parts)
    counts = [
        _packed(parts, room, f"Guillotine{choice}{split}", sort, turn)
        for choice, split, sort in product(CHOICES, SPLITS, SORTS)
    ]
    return min((count for count in counts if count is not None), default=None)


def _packed(parts: Sequence[Part], room: Size, name: str, sort: str, turn: bool) -> int | None:
    """Sheets of one setting; None where a part is left out."""
    import rectpack
    from rectpack import guillotine

    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        pack_algo=partial(getattr(guillotine, name), merge=False),
        sort_algo=getattr(rectpack, sort),
        rotation=turn,
    )
    for length, width, _ in parts:
        packer.add_rect(length, width)
    packer.add_bin(*room, count=len(parts))
    packer.pack()
    return len(packer) if sum(len(sheet) for sheet in packer) == len(parts) else None


def strips_count(problem: CuttingProblem) -> int | None:
    """Sheets by strips first-fit: widest parts first, the better of both directions.

    Strips are ripped as wide as their first part, parts are crosscut along them and, where
    narrower, ripped again: two stages and the trimming cut. None where it cannot be compared.
    """
    known = padded(problem)
    if known is None:
        return None
    parts, (length, width) = known
    across = [(b, a, turns) for a, b, turns in parts]
    ways = []
    if problem.first_cut != "crosscut":
        ways.append(_strips(parts, (length, width)))
    if problem.first_cut != "rip":
        ways.append(_strips(across, (width, length)))
    return min((way for way in ways if way is not None), default=None)


def _strips(parts: Sequence[Part], room: Size) -> int | None:
    """Sheets of strips along the first side of the room; a part that may turn lies along them."""
    lying = [_along(part, room) for part in parts]
    if None in lying:
        return None
    strips: list[list[int]] = []  # width, and length left
    for length, width in sorted((one for one in lying if one), key=lambda s: (-s[1], -s[0])):
        strip = next((s for s in strips if s[1] >= length), None)
        if strip is None:
            strips.append(strip := [width, room[0]])
        strip[1] -= length
    sheets: list[int] = []  # width left
    for width, _ in strips:
        at = next((i for i, left in enumerate(sheets) if left >= width), len(sheets))
        if at == len(sheets):
            sheets.append(room[1])
        sheets[at] -= width
    return len(sheets)


def _along(part: Part, room: Size) -> Size | None:
    a, b, turns = part
    ways = ((max(a, b), min(a, b)), (min(a, b), max(a, b))) if turns else ((a, b),)
    return next((way for way in ways if way[0] <= room[0] and way[1] <= room[1]), None)
