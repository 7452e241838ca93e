"""The cuts of a sheet as a shop makes them: by names and settings alone, panel by panel.

The drawing of the cuts is not looked at; :mod:`solver.checking.cuts` is about that.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from solver.checking.findings import Code, Finding, finding
from solver.checking.guillotine import Rect
from solver.checking.pieces import SheetView
from solver.job.job import Shop
from solver.plan.saw_cuts import Cut, Panel
from solver.plan.stocked import Piece, Sheet
from solver.units import Ticks, to_mm


def axis_of(cut: Cut) -> int:
    """Axis that a cut divides: a crosscut lies at one x, a rip at one y."""
    return 1 if cut.direction == "rip" else 0


@dataclass(frozen=True)
class BenchPanel:
    """A panel on the bench: as drawn, and as large as the settings make it [tick]."""

    rect: Rect
    size: tuple[Ticks, Ticks]


@dataclass(frozen=True)
class SawnCut:
    """A cut, the panel that it names, and what then lies on the bench."""

    cut: Cut
    panel: BenchPanel | None
    off: BenchPanel | None
    on: BenchPanel | None
    taken: Ticks
    """Size of what comes off, or of the edge that is trimmed off [tick]."""

    @property
    def axis(self) -> int:
        """Axis that the cut divides."""
        return axis_of(self.cut)

    def parts(self) -> Iterator[tuple[Panel | None, BenchPanel | None]]:
        """What comes off and what goes on, as named and as worked out."""
        yield self.cut.comes_off, self.off
        yield self.cut.goes_on, self.on


@dataclass(frozen=True)
class SawView:
    """One sheet with the shop that cuts it."""

    view: SheetView
    shop: Shop | None

    @property
    def sheet(self) -> Sheet:
        """The sheet."""
        return self.view.sheet

    @cached_property
    def sawn_cuts(self) -> tuple[SawnCut, ...]:
        """All cuts, made one after the other."""
        whole = (0, 0, self.sheet.length, self.sheet.width)
        bench: dict[str, BenchPanel] = {"sheet": BenchPanel(whole, (whole[2], whole[3]))}
        cuts = []
        for cut in self.sheet.cuts:
            sawn = _make(self.sheet, cut, bench.pop(cut.panel, None))
            for named, lying in sawn.parts():
                if named is not None and lying is not None:
                    bench[named.name] = lying
            cuts.append(sawn)
        return tuple(cuts)

    def place(self, cut: Cut) -> str:
        """Where a finding about a cut is."""
        return f"{self.view.where}, cut {cut.number}"

    def piece_on(self, lying: BenchPanel) -> Piece | None:
        """Return a piece that lies on a panel."""
        r = lying.rect
        inside = (p for p in self.sheet.pieces if r[0] <= p.x < r[2] and r[1] <= p.y < r[3])
        return next(inside, None)

    @cached_property
    def _last_cut(self) -> dict[str, int]:
        """Place in the order of the last cut of each panel, by name."""
        return {sawn.cut.panel: place for place, sawn in enumerate(self.sawn_cuts)}

    def cut_again(self, place: int, named: Panel) -> bool:
        """Whether a panel that the cut at a place in the order leaves is cut later on."""
        return self._last_cut.get(named.name, -1) > place


def _make(sheet: Sheet, cut: Cut, panel: BenchPanel | None) -> SawnCut:
    if panel is None:
        return SawnCut(cut, None, None, None, 0)
    axis, kerf = axis_of(cut), sheet.kerf
    whole = panel.size[axis]
    low, high = list(panel.rect), list(panel.rect)
    low[axis + 2], high[axis] = cut.at, cut.at + kerf
    if cut.kind != "trim":
        on = _lying(high, panel, axis, whole - cut.setting - kerf)
        return SawnCut(cut, panel, _lying(low, panel, axis, cut.setting), on, cut.setting)
    taken = whole - cut.setting if cut.guide == "fence" else cut.setting
    gone, stays = (low, high) if is_near(sheet, cut, panel) else (high, low)
    off, on = _lying(gone, panel, axis, taken - kerf), _lying(stays, panel, axis, whole - taken)
    return SawnCut(cut, panel, off, on, taken)


def _lying(rect: list[Ticks], panel: BenchPanel, axis: int, size: Ticks) -> BenchPanel | None:
    if size <= 0:
        return None
    sizes = (size, panel.size[1]) if axis == 0 else (panel.size[0], size)
    return BenchPanel((rect[0], rect[1], rect[2], rect[3]), sizes)


def is_near(sheet: Sheet, cut: Cut, panel: BenchPanel) -> bool:
    """Whether a trim takes the edge off that is nearer to the factory corner."""
    return panel.rect[axis_of(cut)] == 0 and cut.at + sheet.kerf <= sheet.edge_trim


def panel(view: SawView) -> Iterator[Finding]:
    """Each cut is made on the panel that it names, and no other."""
    for sawn in view.sawn_cuts:
        axis, cut = sawn.axis, sawn.cut
        if sawn.panel is None:
            has = f"{cut.panel!r}, which is not there"
            yield finding(Code.CUT_PANEL, view.place(cut), "panel", "one on the bench", has)
            continue
        low, high = sawn.panel.rect[1 - axis], sawn.panel.rect[3 - axis]
        if not (low <= cut.start < cut.end <= high):
            yield finding(
                Code.CUT_PANEL,
                view.place(cut),
                f"panel {cut.panel!r}",
                f"from {to_mm(cut.start)} to {to_mm(cut.end)} mm",
                f"from {to_mm(low)} to {to_mm(high)} mm",
            )


def setting(view: SawView) -> Iterator[Finding]:
    """What comes off is as large as the setting; the margin may be left behind it, no more."""
    for sawn in view.sawn_cuts:
        if sawn.panel is None:
            continue
        if sawn.cut.kind == "trim":
            least = most = view.sheet.edge_trim
        else:
            most = sawn.cut.at - sawn.panel.rect[sawn.axis]
            least = most - view.sheet.margin
        most = min(most, sawn.panel.size[sawn.axis])
        if not least <= sawn.taken <= most:
            yield finding(
                Code.CUT_SETTING,
                view.place(sawn.cut),
                "what the setting takes off",
                f"from {to_mm(least)} to {to_mm(most)} mm",
                f"{to_mm(sawn.taken)} mm",
            )


def left(view: SawView) -> Iterator[Finding]:
    """What comes off and what goes on are as large as the settings leave them."""
    for sawn in view.sawn_cuts:
        for what, (named, lying) in zip(("comes off", "goes on"), sawn.parts(), strict=True):
            has = None if named is None else (named.length, named.width)
            needs = None if lying is None else lying.size
            if sawn.panel is not None and has != needs:
                where = view.place(sawn.cut)
                yield finding(Code.CUT_LEFT, where, f"what {what}", _size(needs), _size(has))


def _size(size: tuple[Ticks, Ticks] | None) -> str:
    return "nothing" if size is None else f"{to_mm(size[0])} x {to_mm(size[1])} mm"


def named(view: SawView) -> Iterator[Finding]:
    """Each panel is called by its kind: a part, a strip or blank to be cut again, offcut, waste."""
    seen: set[str] = {"sheet"}
    for place, sawn in enumerate(view.sawn_cuts):
        for panel_, lying in sawn.parts():
            if panel_ is None or lying is None:
                continue
            needs = _called(view, place, panel_, lying)
            has = f"{panel_.what} {panel_.name}"
            again = panel_.name in seen and panel_.name not in (sawn.cut.panel, "waste")
            if again or has != needs:
                needs = "a new name" if again else needs
                yield finding(Code.CUT_NAMED, view.place(sawn.cut), "name", needs, has)
            seen.add(panel_.name)


def _called(view: SawView, place: int, panel_: Panel, lying: BenchPanel) -> str:
    """What a panel must be called; the names of strips and blanks are free."""
    sawn = view.sawn_cuts[place]
    if panel_.name == sawn.cut.panel:
        return _goes_on(view, place, panel_)
    if view.cut_again(place, panel_):
        return f"{'strip' if sawn.cut.panel == 'sheet' else 'blank'} {panel_.name}"
    piece = view.piece_on(lying)
    if piece is not None:
        return f"part {piece.part}"
    listed = panel_.name in {offcut.name for offcut in view.sheet.offcuts}
    return f"offcut {panel_.name}" if listed else "waste waste"


def _goes_on(view: SawView, place: int, panel_: Panel) -> str:
    """A panel keeps its name where it is cut on, and what it was."""
    if not view.cut_again(place, panel_):
        return "another name, for it is not cut again"
    before = [q for m in view.sawn_cuts for q in (m.cut.comes_off, m.cut.goes_on) if q is not None]
    first = next((q.what for q in before if q.name == panel_.name), panel_.what)
    return f"{'sheet' if panel_.name == 'sheet' else first} {panel_.name}"


def parts(view: SawView) -> Iterator[Finding]:
    """Every piece comes off by its name, once, and exactly as large as it is to be."""
    came: dict[str, list[tuple[Ticks, Ticks]]] = {}
    for sawn in view.sawn_cuts:
        for panel_, lying in sawn.parts():
            if panel_ is not None and panel_.what == "part" and lying is not None:
                came.setdefault(panel_.name, []).append(lying.size)
    for piece in view.sheet.pieces:
        has, needs = came.get(piece.part, []), [(piece.length, piece.width)]
        whole = not view.sheet.cuts and (view.sheet.length, view.sheet.width) == needs[0]
        if has != needs and not whole:
            where = f"{view.view.where}, {piece.part}"
            texts = " and ".join(map(_size, has)) or "not freed by name"
            yield finding(Code.CUT_PART_SIZE, where, "piece as cut", _size(needs[0]), texts)


RULES = (panel, setting, left, named, parts)
"""Rules on one sheet's cuts by names and settings."""
