"""Least cost of tiny lists by trying everything, for every kind of pattern; knows no solver.

Parts are (length, width, may turn); the kerf is taken between pieces.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, product
from typing import TypeAlias

from solver.cutting.cutting_problem import CuttingProblem
from tests.cutting_checks import fewest_sheets

Part: TypeAlias = tuple[int, int, bool]
Size: TypeAlias = tuple[int, int]


def least_cost(asked: CuttingProblem, costs: Sequence[int]) -> int:
    """Least cost of all parts on any number of each sheet, no trim and no margin."""
    parts = [(part.length, part.width, part.may_turn) for part in asked.parts]

    @cache
    def need(left: frozenset[int]) -> int:
        if not left:
            return 0
        first, *rest = sorted(left)
        best = 10**9
        for chosen in subsets(rest):
            on = (first, *chosen)
            cost = on_one(tuple(sorted(parts[i] for i in on)))
            if cost is not None:
                best = min(best, cost + need(left - set(on)))
        return best

    @cache
    def on_one(some: tuple[Part, ...]) -> int | None:
        fitting = [
            cost
            for sheet, cost in zip(asked.sheets, costs, strict=True)
            if fits(asked, some, (sheet.length, sheet.width))
        ]
        return min(fitting, default=None)

    return need(frozenset(range(len(parts))))


def fits(asked: CuttingProblem, parts: tuple[Part, ...], room: Size) -> bool:
    """Whether one sheet gives the parts, as it is to be cut."""
    if asked.stages == "any":
        return fewest_sheets(parts, room, asked.kerf) == 1
    crossed = tuple((b, a, turns) for a, b, turns in parts)
    ways = {
        "rip": [(parts, room)],
        "crosscut": [(crossed, room[::-1])],
        "either": [(parts, room), (crossed, room[::-1])],
    }[asked.first_cut]
    return any(
        _in_strips(columns, *size, asked.kerf)
        for some, size in ways
        for lying in _lying(some)
        for columns in _columns(lying, asked)
    )


def subsets(items: Sequence[int]) -> Iterator[tuple[int, ...]]:
    for count in range(len(items) + 1):
        yield from combinations(items, count)


def _lying(parts: tuple[Part, ...]) -> Iterator[list[Size]]:
    """Every choice of which parts are turned."""
    for turned in product(*((False, True) if turns else (False,) for _, _, turns in parts)):
        yield [(b, a) if t else (a, b) for t, (a, b, _) in zip(turned, parts, strict=True)]


def _columns(lying: list[Size], asked: CuttingProblem) -> Iterator[tuple[Size, ...]]:
    """Every way to stack equally long pieces into columns; in two stages each stands alone."""
    if asked.stages == "2":
        yield tuple(sorted(lying))
        return
    for stacks in _groups(lying):
        if all(len({length for length, _ in stack}) == 1 for stack in stacks):
            yield tuple(
                sorted(
                    (stack[0][0], sum(w for _, w in stack) + asked.kerf * (len(stack) - 1))
                    for stack in stacks
                )
            )


def _groups(items: list[Size]) -> Iterator[list[list[Size]]]:
    if not items:
        yield []
        return
    first, *rest = items
    for groups in _groups(rest):
        yield [[first], *groups]
        for i, group in enumerate(groups):
            yield [*groups[:i], [first, *group], *groups[i + 1 :]]


@cache
def _in_strips(columns: tuple[Size, ...], length: int, width: int, kerf: int) -> bool:
    """Whether the columns fit in strips along the sheet, the widest of each strip first."""
    if not columns:
        return True
    widest = max(columns, key=lambda column: column[1])
    rest = list(columns)
    rest.remove(widest)
    if widest[1] > width:
        return False
    for chosen in subsets(range(len(rest))):
        strip = [widest, *(rest[i] for i in chosen)]
        if sum(a for a, _ in strip) + kerf * (len(strip) - 1) <= length:
            left = tuple(rest[i] for i in range(len(rest)) if i not in chosen)
            if _in_strips(left, length, width - widest[1] - kerf, kerf):
                return True
    return False
