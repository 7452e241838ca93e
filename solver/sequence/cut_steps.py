"""The cuts of a sheet as steps that free panels, each with the step that must come before it.

Two sizes are kept of every panel: the rectangle drawn on the sheet, with the margins of
all that lies before it, and the size that it has when every setting is kept exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from solver.plan.saw_cuts import Cut, Panel
from solver.plan.stocked import Piece, Sheet
from solver.units import Ticks

X, Y = 0, 1
Rect: TypeAlias = tuple[Ticks, Ticks, Ticks, Ticks]
What: TypeAlias = Literal["sheet", "strip", "blank", "part", "offcut", "waste"]


@dataclass
class CutPanel:
    """A panel while the steps are worked out.

    Attributes
    ----------
    rect
        As drawn on the sheet [tick].
    size
        Length and width when every setting is kept exactly [tick].
    maker
        Number of the step that frees it; None is the sheet itself.
    """

    rect: Rect
    size: tuple[Ticks, Ticks]
    maker: int | None = None
    name: str = ""
    what: What = "waste"
    depth: int = 0

    def panel(self) -> Panel:
        """Return the panel as a model of the plan."""
        return Panel(name=self.name, what=self.what, length=self.size[X], width=self.size[Y])


@dataclass
class Step:
    """One cut of one sheet: the panel that it cuts, what comes off, and what goes on."""

    sheet: int
    """Index of the sheet."""
    cut: Cut
    panel: CutPanel
    comes_off: CutPanel | None
    goes_on: CutPanel | None
    before: int | None
    """Index of the step of the same sheet that frees the panel."""

    @property
    def axis(self) -> int:
        """Axis that the cut divides."""
        return Y if self.cut.direction == "rip" else X

    @property
    def cut_length(self) -> Ticks:
        """How long the saw runs through the panel [tick]."""
        return self.panel.size[1 - self.axis]

    @property
    def fed(self) -> Ticks:
        """Size of the panel in the direction that the cut divides [tick]."""
        return self.panel.size[self.axis]


def steps_of(index: int, sheet: Sheet) -> list[Step]:
    """Return the cuts of a sheet as steps, in the order in which they stand, panels named."""
    panels = [CutPanel((0, 0, sheet.length, sheet.width), (sheet.length, sheet.width), None)]
    panels[0].name, panels[0].what = "sheet", "sheet"
    steps: list[Step] = []
    for cut in sheet.cuts:
        axis = Y if cut.direction == "rip" else X
        panel = next(block for block in panels if _crosses(cut, block.rect, axis, sheet.kerf))
        off, on = _divided(sheet, cut, panel, axis)
        for block in (off, on):
            if block is not None:
                block.maker = len(steps)
        panels.remove(panel)
        panels += [block for block in (off, on) if block is not None]
        steps.append(Step(index, cut, panel, off, on, panel.maker))
    _name(sheet, steps)
    return steps


def _crosses(cut: Cut, rect: Rect, axis: int, kerf: Ticks) -> bool:
    """Whether a cut runs from edge to edge of a panel; the blade may overhang its sides."""
    other = 1 - axis
    spans = (rect[other], rect[other + 2]) == (cut.start, cut.end)
    return spans and rect[axis] - kerf < cut.at <= rect[axis + 2]


def _divided(
    sheet: Sheet, cut: Cut, panel: CutPanel, axis: int
) -> tuple[CutPanel | None, CutPanel | None]:
    """Return what comes off and what goes on; a trim takes off an edge at either side."""
    low, high = list(panel.rect), list(panel.rect)
    low[axis + 2], high[axis] = cut.at, cut.at + sheet.kerf
    if cut.kind != "trim":
        rest = panel.size[axis] - cut.setting - sheet.kerf
        return _block(low, panel, axis, cut.setting), _block(high, panel, axis, rest)
    near = panel.rect[axis] == 0 and cut.at + sheet.kerf <= sheet.edge_trim
    gone, kept = (low, high) if near else (high, low)
    off = _block(gone, panel, axis, cut.setting - sheet.kerf)
    return off, _block(kept, panel, axis, panel.size[axis] - cut.setting)


def _block(rect: list[Ticks], panel: CutPanel, axis: int, size: Ticks) -> CutPanel | None:
    """Return a panel of that size, or None where the blade leaves nothing."""
    if size <= 0:
        return None
    sizes = (size, panel.size[Y]) if axis == X else (panel.size[X], size)
    return CutPanel((rect[0], rect[1], rect[2], rect[3]), sizes)


def _name(sheet: Sheet, steps: list[Step]) -> None:
    """Name all panels: what goes on keeps its name while it is cut the same way."""
    step_of: dict[int, Step] = {id(step.panel): step for step in steps}
    counts: dict[str, int] = {}
    for step in steps:
        on = step.goes_on
        if on is not None and _goes_on(step, step_of.get(id(on))):
            on.name, on.what, on.depth = step.panel.name, step.panel.what, step.panel.depth
        for block in (step.comes_off, on):
            if block is not None and not block.name:
                _name_one(sheet, block, step.panel, step_of.get(id(block)), counts)


def _goes_on(step: Step, then: Step | None) -> bool:
    """Whether what is left is cut on in the same direction, or only its edge was trimmed."""
    return then is not None and (step.cut.kind == "trim" or then.axis == step.axis)


def _name_one(
    sheet: Sheet, block: CutPanel, parent: CutPanel, then: Step | None, counts: dict[str, int]
) -> None:
    if then is not None:
        stem = "" if parent.what == "sheet" else parent.name
        counts[stem] = counts.get(stem, 0) + 1
        block.depth = parent.depth + 1
        block.what = "strip" if parent.what == "sheet" else "blank"
        block.name = stem + _mark(counts[stem], letter=block.depth % 2 == 1)
        return
    piece = next((p for p in sheet.pieces if _holds(block.rect, p)), None)
    if piece is not None:
        block.name, block.what = piece.part, "part"
    else:
        block.name, block.what = "waste", "waste"


def _mark(number: int, *, letter: bool) -> str:
    """Return A, B, C and so on, AA after Z, or 1, 2, 3."""
    if not letter:
        return str(number)
    text = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def _holds(rect: Rect, piece: Piece) -> bool:
    return rect[0] <= piece.x < rect[2] and rect[1] <= piece.y < rect[3]
