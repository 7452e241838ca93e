"""An independent judge of cut sheets: written from the rules, knows nothing of the solver's trees.

Rectangles are (x0, y0, x1, y1), each with its margin; axis 0 is along the sheet.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import cache
from itertools import combinations
from typing import TypeVar

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.plan.stocked import Sheet

Rect = tuple[int, int, int, int]
T = TypeVar("T")


def problem(
    parts: Sequence[tuple[int, int, int]],
    sheet: tuple[int, int],
    *,
    turn: bool = False,
    kerf: int = 0,
    **rules: object,
) -> CuttingProblem:
    """Parts as (length, width, quantity), one size of sheet without a price."""
    listed = tuple(
        CutPart(f"p{i}#{j}", length, width, turn)
        for i, (length, width, count) in enumerate(parts)
        for j in range(count)
    )
    stock = CutSheet("board", "ply", *sheet, None)
    return CuttingProblem(listed, (stock,), kerf, **rules)  # type: ignore[arg-type]


def faults(problem: CuttingProblem, answer: SheetAnswer) -> list[str]:
    """Everything that is wrong with an answer; empty where it is good."""
    found = _part_faults(problem, answer)
    for number, sheet in enumerate(answer.stock):
        found += [f"sheet {number}: {fault}" for fault in _sheet_faults(problem, sheet)]
    bought = [sheet for sheet in answer.stock if not sheet.on_hand]
    if answer.count != len(bought):
        found.append("count")
    if not 0 <= answer.count_bound <= answer.count:
        found.append("bound on the count")
    if answer.cost != sum((sheet.price or Decimal(0) for sheet in bought), Decimal(0)):
        found.append("cost")
    if not 0 <= answer.cost_bound <= answer.cost:
        found.append("bound on the cost")
    return found + _stock_faults(problem, answer)


def _part_faults(problem: CuttingProblem, answer: SheetAnswer) -> list[str]:
    parts = {part.id: part for part in problem.parts}
    pieces = [piece for sheet in answer.stock for piece in sheet.pieces]
    if sorted(p.part for p in pieces) != sorted(parts):
        return ["each part once"]
    found = []
    for piece in pieces:
        part = parts[piece.part]
        size = (part.width, part.length) if piece.turned else (part.length, part.width)
        if size != (piece.length, piece.width) or (piece.turned and not part.may_turn):
            found.append(f"size or direction of {piece.part}")
    return found


def _stock_faults(problem: CuttingProblem, answer: SheetAnswer) -> list[str]:
    used = Counter((sheet.stock, sheet.on_hand) for sheet in answer.stock)
    found = []
    for stock in problem.sheets:
        if used[stock.stock, True] > stock.on_hand:
            found.append(f"{stock.stock}: more than on hand")
        if stock.limit is not None and used[stock.stock, False] > stock.limit:
            found.append(f"{stock.stock}: more than the limit")
    return found


def _sheet_faults(problem: CuttingProblem, sheet: Sheet) -> list[str]:
    rects = [
        (p.x, p.y, p.x + p.length + problem.margin, p.y + p.width + problem.margin)
        for p in sheet.pieces
    ]
    trim, kerf = problem.edge_trim, problem.kerf
    found = []
    for a, b, c, d in rects:
        if a < trim or b < trim or c > sheet.length - trim or d > sheet.width - trim:
            found.append("outside the trimmed sheet")
    for one, other in combinations(rects, 2):
        gap = max(one[i] - other[i + 2] for i in (0, 1))
        gap = max(gap, *(other[i] - one[i + 2] for i in (0, 1)))
        if gap < kerf:
            found.append("less than a kerf apart")
    axis = {"rip": 1, "crosscut": 0}[sheet.first_cut]
    if problem.first_cut not in ("either", sheet.first_cut):
        found.append("first cut")
    if not can_cut(rects, kerf, axis, problem.stages, trimming=problem.trimming):
        found.append(f"stages {problem.stages}")
    return found


def can_cut(
    rects: Sequence[Rect], kerf: int, axis: int, stages: str, *, trimming: bool = True
) -> bool:
    """Whether so many stages of edge-to-edge cuts, the first dividing `axis`, free all pieces."""
    if stages == "any":
        return _cut(rects, kerf, axis, 99) or _cut(rects, kerf, 1 - axis, 99)
    groups = [list(rects)]
    spans = [list(rects)]
    for stage in range(int(stages)):
        divided = [part for group in groups for part in split(group, kerf, (axis + stage) % 2)]
        spans, groups = groups, divided
    if any(len(group) > 1 for group in groups):
        return False
    last = (axis + int(stages) - 1) % 2
    if stages == "3" or not trimming:  # no further cut: all pieces of one column have its full size
        return all(len({(r[1 - last], r[3 - last]) for r in column}) == 1 for column in spans)
    return True  # the one more cut trims each piece, alone in its column, to its strip's width


def _cut(rects: Sequence[Rect], kerf: int, axis: int, left: int) -> bool:
    if len(rects) < 2:
        return True
    parts = split(rects, kerf, axis)
    if len(parts) == 1:
        return (
            left > 0
            and len(split(rects, kerf, 1 - axis)) > 1
            and _cut(rects, kerf, 1 - axis, left - 1)
        )
    return left > 0 and all(_cut(part, kerf, 1 - axis, left - 1) for part in parts)


def split(rects: Sequence[Rect], kerf: int, axis: int) -> list[list[Rect]]:
    """Divide wherever a whole saw cut passes between pieces."""
    parts: list[list[Rect]] = []
    for rect in sorted(rects, key=lambda r: r[axis]):
        if parts and rect[axis] - max(r[axis + 2] for r in parts[-1]) < kerf:
            parts[-1].append(rect)
        else:
            parts.append([rect])
    return parts


def fewest_sheets(parts: Sequence[tuple[int, int, bool]], room: tuple[int, int], kerf: int) -> int:
    """Fewest sheets by trying every edge-to-edge cut of every subset; for tiny lists only.

    `parts` are (length, width, may turn).
    """
    return _fewest(lambda some: _fits_any(tuple(sorted(some)), *room, kerf), parts)


def fewest_rip_first(parts: Sequence[tuple[int, int]], room: tuple[int, int], kerf: int) -> int:
    """Fewest sheets with two stages, rips first and a trimming cut, by trying every strip."""
    return _fewest(lambda some: _fits_strips(tuple(sorted(some)), *room, kerf), parts)


def _fewest(fits: Callable[[list[T]], bool], parts: Sequence[T]) -> int:
    @cache
    def need(left: frozenset[int]) -> int:
        if not left:
            return 0
        first, *rest = sorted(left)
        best = len(left)
        for size in range(len(rest) + 1):
            for chosen in combinations(rest, size):
                if fits([parts[i] for i in (first, *chosen)]):
                    best = min(best, 1 + need(left - {first, *chosen}))
        return best

    return need(frozenset(range(len(parts))))


@cache
def _fits_any(parts: tuple[tuple[int, int, bool], ...], length: int, width: int, kerf: int) -> bool:
    if not parts:
        return True
    if sum(a * b for a, b, _ in parts) > max(0, length) * max(0, width):
        return False
    if len(parts) == 1:
        a, b, turns = parts[0]
        return (a <= length and b <= width) or (turns and b <= length and a <= width)
    first, rest = parts[0], parts[1:]
    for size in range(len(rest)):
        for chosen in combinations(range(len(rest)), size):
            near = tuple(sorted((first, *(rest[i] for i in chosen))))
            far = tuple(rest[i] for i in range(len(rest)) if i not in chosen)
            for at in range(1, length):
                if _fits_any(near, at, width, kerf) and _fits_any(
                    far, length - at - kerf, width, kerf
                ):
                    return True
            for at in range(1, width):
                if _fits_any(near, length, at, kerf) and _fits_any(
                    far, length, width - at - kerf, kerf
                ):
                    return True
    return False


@cache
def _fits_strips(parts: tuple[tuple[int, int], ...], length: int, width: int, kerf: int) -> bool:
    if not parts:
        return True
    widest = max(parts, key=lambda part: part[1])
    rest = list(parts)
    rest.remove(widest)
    for size in range(len(rest) + 1):
        for chosen in combinations(range(len(rest)), size):
            strip = [widest, *(rest[i] for i in chosen)]
            if sum(a for a, _ in strip) + kerf * (len(strip) - 1) > length or widest[1] > width:
                continue
            left = tuple(rest[i] for i in range(len(rest)) if i not in chosen)
            if _fits_strips(left, length, width - widest[1] - kerf, kerf):
                return True
    return False
