"""Rules on the cuts as drawn: they are made one by one on the sheet, in their order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from solver.checking.findings import Code, Finding, finding
from solver.checking.guillotine import Rect, divide, in_stages
from solver.checking.pieces import SheetView, rect
from solver.checking.views import same
from solver.job.job import Shop
from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Sheet
from solver.units import Ticks, to_mm

AXIS = {"crosscut": 0, "rip": 1}
"""Axis that a cut divides: a crosscut lies at one x, a rip at one y."""


@dataclass
class Bench:
    """The panels on the bench while the cuts are made."""

    sheet: Sheet
    panels: list[Rect] = field(default_factory=list)
    edgeless: list[Cut] = field(default_factory=list)
    """Cuts that run from edge to edge of no panel."""
    through: list[tuple[Cut, str]] = field(default_factory=list)
    """Cuts that run through a piece, with the piece."""

    def __post_init__(self) -> None:
        self.panels = [(0, 0, self.sheet.length, self.sheet.width)]
        for cut in self.sheet.cuts:
            self._make(cut)

    def _make(self, cut: Cut) -> None:
        axis = 1 if cut.direction == "rip" else 0
        panel = _panel(self.panels, cut, axis, self.sheet.kerf)
        if panel is None:
            self.edgeless.append(cut)
            return
        self.through += [
            (cut, piece.part)
            for piece in self.sheet.pieces
            if _inside(rect(piece), panel) and _hits(rect(piece), cut, axis, self.sheet.kerf)
        ]
        self.panels.remove(panel)
        self.panels += _halves(panel, axis, cut.at, self.sheet.kerf)


def replayed(sheet: Sheet) -> Bench:
    """Make the cuts in the order in which they stand."""
    return Bench(sheet)


def _panel(panels: list[Rect], cut: Cut, axis: int, kerf: Ticks) -> Rect | None:
    """The panel that the cut crosses from edge to edge; the blade may overhang its sides."""
    other = 1 - axis
    for panel in panels:
        if (panel[other], panel[other + 2]) == (cut.start, cut.end) and (
            panel[axis] - kerf < cut.at <= panel[axis + 2]
        ):
            return panel
    return None


def _hits(piece: Rect, cut: Cut, axis: int, kerf: Ticks) -> bool:
    return piece[axis] < cut.at + kerf and cut.at < piece[axis + 2]


def _inside(piece: Rect, panel: Rect) -> bool:
    return all(piece[i] >= panel[i] and piece[i + 2] <= panel[i + 2] for i in (0, 1))


def _halves(panel: Rect, axis: int, at: Ticks, kerf: Ticks) -> list[Rect]:
    first, second = list(panel), list(panel)
    first[axis + 2] = at
    second[axis] = at + kerf
    return [(h[0], h[1], h[2], h[3]) for h in (first, second) if h[axis] < h[axis + 2]]


def number(view: SheetView) -> Iterator[Finding]:
    """Cuts are numbered from 1 in the order in which they are made."""
    has = [cut.number for cut in view.sheet.cuts]
    wanted = list(range(1, len(has) + 1))
    yield from same(Code.CUT_NUMBER, view.where, "numbers of the cuts", wanted, has)


def kind(view: SheetView) -> Iterator[Finding]:
    """A cut is called a trim, or what its direction is: which guide and which hand follow."""
    for cut in view.sheet.cuts:
        if cut.kind not in ("trim", cut.direction):
            where = f"{view.where}, cut {cut.number}"
            yield finding(Code.CUT_KIND, where, "kind", f"trim or {cut.direction}", cut.kind)


def edge_to_edge(view: SheetView) -> Iterator[Finding]:
    """Every cut runs from edge to edge of the sheet or of what an earlier cut left."""
    for cut in replayed(view.sheet).edgeless:
        yield finding(
            Code.CUT_EDGE_TO_EDGE,
            f"{view.where}, cut {cut.number}",
            f"{cut.kind} at {to_mm(cut.at)} mm",
            "from edge to edge of a panel on the bench",
            f"from {to_mm(cut.start)} to {to_mm(cut.end)} mm",
        )


def through(view: SheetView) -> Iterator[Finding]:
    """No cut runs through a piece."""
    for cut, part in replayed(view.sheet).through:
        yield finding(
            Code.CUT_THROUGH,
            f"{view.where}, cut {cut.number}",
            f"{cut.kind} at {to_mm(cut.at)} mm",
            f"clear of {part}",
            "through it",
        )


def freed(view: SheetView) -> Iterator[Finding]:
    """When all cuts are made, every piece lies free, with no more than the margin left on it."""
    bench = replayed(view.sheet)
    spoilt = {part for _, part in bench.through}
    for piece in view.sheet.pieces:
        free = any(_fits(rect(piece), panel, view.sheet.margin) for panel in bench.panels)
        if not free and piece.part not in spoilt:
            yield finding(
                Code.CUT_FREED, f"{view.where}, {piece.part}", "piece", "cut free", "not freed"
            )


def _fits(piece: Rect, panel: Rect, margin: Ticks) -> bool:
    left = [f - r for r, f in zip(piece[2:], panel[2:], strict=True)]
    return piece[:2] == panel[:2] and all(0 <= rest <= margin for rest in left)


def first_kind(view: SheetView) -> Iterator[Finding]:
    """The first cut after trimming is of the kind that the sheet names, if that divides it."""
    kinds = [cut.kind for cut in view.sheet.cuts if cut.kind != "trim"]
    first = view.sheet.first_cut
    if kinds and len(divide(view.rects(), AXIS[first], view.sheet.kerf)) > 1:
        yield from same(Code.CUT_FIRST, view.where, "first cut", first, kinds[0])


def shop_first(view: SheetView, shop: Shop) -> Iterator[Finding]:
    """The sheet begins with the kind of cut that the shop begins with."""
    if shop.first_cut != "either":
        yield from same(
            Code.CUT_FIRST, view.where, "first cut", shop.first_cut, view.sheet.first_cut
        )


def stages(view: SheetView, shop: Shop) -> Iterator[Finding]:
    """The pattern takes no more stages of cuts than the shop allows.

    Two stages allow one more trimming cut for each piece, unless the shop wants none; three
    do not add another.
    """
    if shop.stages == "any" or not view.sound:
        return
    count, first = int(shop.stages), AXIS[view.sheet.first_cut]
    trim = count == 2 and shop.trimming
    if not in_stages(view.rects(), view.sheet.kerf, view.panel, first, count, trim=trim):
        yield finding(
            Code.CUT_STAGES,
            view.where,
            f"stages of cuts, {view.sheet.first_cut} first",
            f"at most {count}",
            "more",
        )


RULES = (number, kind, edge_to_edge, through, freed, first_kind)
"""All rules on one sheet's cuts."""
SHOP_RULES = (shop_first, stages)
"""Rules on one sheet's cuts that the shop sets."""
