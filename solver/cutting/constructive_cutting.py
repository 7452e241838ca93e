"""Constructive heuristics: first layouts, by several orders of parts, first cuts and stocks.

Every part in turn goes to its best place (:class:`solver.cutting.cut_tree.Layout`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from solver.cutting.cut_tree import RIP, Layout, Rules, rules_of
from solver.cutting.padded_sizes import Board, Kind, PaddedProblem

SortKey = Callable[[Kind], tuple[int, ...]]

ORDERS: tuple[SortKey, ...] = (
    lambda k: (k.area,),
    lambda k: (k.lies[0][1], k.lies[0][0]),
    lambda k: (k.lies[0][0], k.lies[0][1]),
    lambda k: (max(k.lies[0][:2]), min(k.lies[0][:2])),
    lambda k: (k.lies[0][0] + k.lies[0][1], k.area),
    lambda k: (min(k.lies[0][:2]), max(k.lies[0][:2])),
)
"""What parts are sorted by, largest first."""

FEW = 600
"""Up to so many parts every free place on every sheet is tried for each part [-]."""

FILLED = 2
"""The first orders by which short lists are also filled board by board [-]."""

STRIPS = Rules(deepest=3, usable=2, roots=(RIP,))
"""Strips, crosscuts, and one more cut that trims each piece."""


@dataclass(frozen=True)
class StockOrder:
    """The boards in the order in which they are opened, each with how many (None: any number)."""

    boards: tuple[tuple[Board, int | None], ...]


def rule_variants(rules: Rules) -> list[Rules]:
    """Return the rules, each allowed first cut alone, and strips with one trimming cut.

    All of them keep to the rules: two-stage patterns are three-stage and free ones too,
    and strips are what a shop would rather cut.
    """
    allowed = [rules]
    if len(rules.roots) > 1:
        allowed += [replace(rules, roots=(root,)) for root in rules.roots]
    if rules.usable > STRIPS.usable:
        allowed.append(replace(STRIPS, roots=rules.roots[:1]))
    return allowed


def stock_orders(padded: PaddedProblem) -> list[StockOrder]:
    """Return orders in which boards are opened: on hand first, then each size in turn first.

    The other sizes follow by price for their area, for parts that the first has no room for
    and for when its number is limited.
    """
    free = [(b, b.most) for b in padded.boards if b.free]
    bought = sorted(
        (b for b in padded.boards if not b.free), key=lambda b: (b.cost / b.area, b.cost, b.source)
    )
    orders = [
        StockOrder((*free, (b, b.most), *((o, o.most) for o in bought if o is not b)))
        for b in bought
    ]
    return orders or [StockOrder(tuple(free))]


def build_layout(
    padded: PaddedProblem,
    rules: Rules,
    order: Sequence[int],
    stock: StockOrder,
    demand: Mapping[int, int] | None = None,
    layout: Layout | None = None,
) -> Layout | list[int]:
    """Place kinds in `order`, opening boards as needed.

    Parameters
    ----------
    demand
        How many of each kind are wanted, where not all of them [-].
    layout
        Sheets that are filled already.

    Returns
    -------
    Layout | list[int]
        The filled sheets, or the kinds that are left over when the stock runs out.
    """
    layout = Layout(padded, rules) if layout is None else layout
    left: list[int] = []
    for kind in order:
        for _ in range(padded.kinds[kind].count if demand is None else demand[kind]):
            placed = layout.insert(kind, layout.sheets) or _open(layout, kind, stock)
            left += [] if placed else [kind]
    return left or layout


def fill_boards(
    padded: PaddedProblem, rules: Rules, order: Sequence[int], stock: StockOrder
) -> Layout | list[int]:
    """Fill one board after the other, each with all that still fits into it, in `order`.

    The time grows with the number of parts; with :func:`build_layout` it grows with its square.
    """
    layout = Layout(padded, rules)
    left = {kind: padded.kinds[kind].count for kind in order}
    while left:
        first = next(iter(left))
        if not _open(layout, first, stock):
            return [kind for kind, count in left.items() for _ in range(count)]
        left[first] -= 1
        sheet = layout.sheets[-1]
        for kind in left:
            while left[kind] and sheet.wastes and layout.insert(kind, [sheet]):
                left[kind] -= 1
        left = {kind: count for kind, count in left.items() if count}
    return layout


def _open(layout: Layout, kind: int, stock: StockOrder) -> bool:
    """Open the next board that has room for a part of `kind`, and place it there."""
    lies = layout.padded.kinds[kind].lies
    for board, most in stock.boards:
        if most is not None and layout.opened[board] >= most:
            continue
        if any(a <= board.length and b <= board.width for a, b, _ in lies):
            return layout.insert(kind, [layout.open(board)])
    return False


def sorted_kinds(padded: PaddedProblem, key: SortKey) -> list[int]:
    """Return the kinds from the largest by `key`; ties as in the problem."""
    return sorted(range(len(padded.kinds)), key=key_of(padded, key))


def key_of(padded: PaddedProblem, key: SortKey) -> Callable[[int], tuple[int, ...]]:
    """Return the sort key of a kind's index, largest first."""
    return lambda i: tuple(-x for x in key(padded.kinds[i]))


def portfolio(padded: PaddedProblem) -> Iterator[Layout | list[int]]:
    """Yield layouts by every order, first cut and stock, the most promising first.

    Where the stock runs out the kinds that are left over are yielded instead.
    """
    rules = rules_of(padded)
    few = padded.part_count <= FEW
    for number, key in enumerate(ORDERS):
        order = sorted_kinds(padded, key)
        for way in rule_variants(rules):
            for stock in stock_orders(padded):
                if few:
                    yield build_layout(padded, way, order, stock)
                if not few or number < FILLED:
                    yield fill_boards(padded, way, order, stock)
