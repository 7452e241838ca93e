"""Trimming the ends of the strips where no saw of the shop can trim the whole sheet's.

A sheet whose first cuts are rips is ripped as long as it came; each strip then has its
ends trimmed, on the mitre saw or the sled. The same the other way round.
"""

from __future__ import annotations

from collections.abc import Iterable

from solver.cuts import Cut
from solver.job import Shop
from solver.sequence.saws import way_of
from solver.sequence.steps import Block, Step, steps_of
from solver.stocked import Sheet


def drawn_for(sheet: Sheet, shop: Shop) -> Sheet:
    """Return the sheet, its ends trimmed strip by strip where that is the only way."""
    steps = steps_of(0, sheet)
    ends = [s for s in steps if s.cut.kind == "trim" and s.cut.direction != sheet.first_cut]
    first = [s for s in steps if s.cut.kind == sheet.first_cut and s.panel.what == "sheet"]
    if not first or not any(way_of([step], shop).saw is None for step in ends):
        return sheet  # a sheet that is one strip is trimmed as it is
    trims = [step.cut for step in ends]
    cuts = [cut for step in steps if step not in ends for cut in _redrawn(sheet, step, trims)]
    return sheet.model_copy(update={"cuts": tuple(cuts)})


def _redrawn(sheet: Sheet, step: Step, trims: list[Cut]) -> Iterable[Cut]:
    """A cut of the whole sheet runs from factory edge to factory edge; strips are trimmed."""
    if step.panel.what != "sheet" or step.cut.direction != sheet.first_cut:
        yield step.cut
        return
    whole = sheet.length if sheet.first_cut == "rip" else sheet.width
    yield step.cut.model_copy(update={"start": 0, "end": whole})
    for block in (step.comes_off, step.goes_on):
        if block is not None and block.what in ("strip", "part"):
            yield from _trimmed(sheet, block, trims)


def _trimmed(sheet: Sheet, block: Block, trims: list[Cut]) -> Iterable[Cut]:
    axis = 1 if sheet.first_cut == "rip" else 0
    for trim in trims:
        yield trim.model_copy(update={"start": block.rect[axis], "end": block.rect[axis + 2]})
