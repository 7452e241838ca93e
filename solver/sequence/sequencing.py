"""From drawn sheets and sticks to numbered cuts in order: the entry point of the sequence.

All pieces of mouldings of one length are cut with the stop set once, from whichever stick they
come, the longest first: those can still be recut shorter. The end of the stick lies against the
stop, so each stick is cut from one end, and the sawn end is the next piece's end.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from solver.job.job import Shop
from solver.plan.saw_cuts import Cut, Offcut, Panel, SawSetting, SheetCuts, StickCut
from solver.plan.stocked import Part, Sheet, Stick, StickPiece
from solver.sequence.cut_order import At, Key, Run, Task, in_runs
from solver.sequence.cut_steps import CutPanel, Step, X, Y, steps_of
from solver.sequence.saw_choice import cautions, measured_from, setting_of, way_of, ways_of
from solver.units import Ticks


@dataclass(frozen=True)
class Sequenced:
    """Sheets with their cuts in order, and the settings of the saws over all of them."""

    sheets: tuple[Sheet, ...]
    settings: tuple[SawSetting, ...]


def sequence(sheets: Sequence[Sheet], shop: Shop, parts: Sequence[Part] = ()) -> Sequenced:
    """Put the cuts of all sheets in an order that the shop can follow.

    Parameters
    ----------
    sheets
        As drawn: every cut runs from edge to edge of what the cuts before it left.
    shop
        The saws and their limits.
    parts
        All parts of the job; offcuts that are enough for one of them say so.

    Returns
    -------
    Sequenced
        The same sheets and settings for the same input.
    """
    sheets = [drawn_for(sheet, shop) for sheet in sheets]
    steps = [steps_of(index, sheet) for index, sheet in enumerate(sheets)]
    offcuts = [
        name_offcuts(some, sheet.material, shop, parts)
        for some, sheet in zip(steps, sheets, strict=True)
    ]
    runs = in_runs([task for some in steps for task in tasks_of(some, shop)])
    order = [task for run in runs for task in run.tasks]
    numbers = _numbers(order)
    cuts: list[list[Cut]] = [[] for _ in sheets]
    for task in order:
        cuts[task.at[0]].append(_cut(task, numbers[task.at], shop))
    return Sequenced(
        tuple(
            sheet.model_copy(update={"cuts": tuple(cuts[index]), "offcuts": offcuts[index]})
            for index, sheet in enumerate(sheets)
        ),
        tuple(_setting(n, run, numbers) for n, run in enumerate(runs, start=1)),
    )


def tasks_of(steps: Sequence[Step], shop: Shop) -> list[Task]:
    """Return the steps of a sheet with their saws and settings."""
    return [
        Task(step, (step.sheet, at), Key(way, step.cut.kind == "trim", setting_of(way, step)))
        for at, (step, way) in enumerate(zip(steps, ways_of(steps, shop), strict=True))
    ]


def _numbers(order: Sequence[Task]) -> dict[At, int]:
    """Number the cuts of each sheet from 1 in the order of the work."""
    counts: dict[int, int] = {}
    numbers = {}
    for task in order:
        sheet = task.at[0]
        counts[sheet] = numbers[task.at] = counts.get(sheet, 0) + 1
    return numbers


def _cut(task: Task, number: int, shop: Shop) -> Cut:
    step, way = task.step, task.key.way
    return step.cut.model_copy(
        update={
            "number": number,
            "saw": way.saw,
            "guide": way.guide,
            "setting": task.key.setting,
            "panel": step.panel.name,
            "measured_from": measured_from(way, step),
            "comes_off": _panel(step.comes_off),
            "goes_on": _panel(step.goes_on),
            "cautions": cautions(way, step, shop),
        }
    )


def _panel(block: CutPanel | None) -> Panel | None:
    return None if block is None else block.panel()


def _setting(number: int, run: Run, numbers: dict[At, int]) -> SawSetting:
    key = run.tasks[0].key
    return SawSetting(
        number=number,
        saw=key.way.saw,
        guide=key.way.guide,
        trim=key.trim,
        setting=key.setting,
        as_it_stands=run.as_it_stands,
        cuts=tuple(
            SheetCuts(
                sheet=sheet + 1,
                cuts=tuple(sorted(numbers[task.at] for task in run.tasks if task.at[0] == sheet)),
            )
            for sheet in sorted({task.at[0] for task in run.tasks})
        ),
    )


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
    """Yield the cut; one of the whole sheet from factory edge to factory edge, then the trims."""
    if step.panel.what != "sheet" or step.cut.direction != sheet.first_cut:
        yield step.cut
        return
    whole = sheet.length if sheet.first_cut == "rip" else sheet.width
    yield step.cut.model_copy(update={"start": 0, "end": whole})
    for block in (step.comes_off, step.goes_on):
        if block is not None and block.what in ("strip", "part"):
            yield from _trimmed(sheet, block, trims)


def _trimmed(sheet: Sheet, block: CutPanel, trims: list[Cut]) -> Iterable[Cut]:
    axis = 1 if sheet.first_cut == "rip" else 0
    for trim in trims:
        yield trim.model_copy(update={"start": block.rect[axis], "end": block.rect[axis + 2]})


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


def _size(block: CutPanel) -> tuple[int, int]:
    """Return length and width as drawn: no less can be left [tick]."""
    return block.rect[2] - block.rect[0], block.rect[3] - block.rect[1]


def _worth(block: CutPanel, shop: Shop) -> bool:
    size = _size(block)
    return max(size) >= max(shop.least_offcut) and min(size) >= min(shop.least_offcut)


def _offcut(number: int, block: CutPanel, parts: Sequence[Part]) -> Offcut:
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
    """Return the name of the largest part that an offcut is enough for, shelves first."""
    fitting = [part for part in parts if _fits(part, length, width)]
    best = max(fitting, key=lambda p: (p.name == "shelf", p.length * p.width, p.name), default=None)
    return None if best is None else best.name


def _fits(part: Part, length: int, width: int) -> bool:
    along, across = part.length, part.width
    if part.grain == "width":
        along, across = across, along
    straight = along <= length and across <= width
    return straight or (part.grain == "any" and across <= length and along <= width)


def sequence_sticks(sticks: Sequence[Stick]) -> tuple[Stick, ...]:
    """Return the sticks with their cuts, stops batched over all of them.

    Parameters
    ----------
    sticks
        Of all mouldings of a job; the stop does not mind which one it is.

    Returns
    -------
    tuple of Stick
        Pieces lie longest first from the end that the cuts begin at, so that each stick's cuts
        keep the order of the stops.
    """
    laid = [_longest_first(stick) for stick in sticks]
    lengths = sorted({p.length for stick in laid for p in stick.pieces if _comes_off(stick, p)})
    batches = {length: n for n, length in enumerate(reversed(lengths), start=1)}
    return tuple(stick.model_copy(update={"cuts": _cuts(stick, batches)}) for stick in laid)


def _longest_first(stick: Stick) -> Stick:
    """Lay the pieces longest first, a kerf apart; those of one length stay as they are."""
    pieces, at = [], 0
    for piece in sorted(stick.pieces, key=lambda piece: (-piece.length, piece.start)):
        pieces.append(piece.model_copy(update={"start": at}))
        at += piece.length + stick.kerf
    return stick.model_copy(update={"pieces": tuple(pieces)})


def _comes_off(stick: Stick, piece: StickPiece) -> bool:
    """Whether a piece must be cut off: not where it is all that is left."""
    return piece.start + piece.length < stick.length


def _cuts(stick: Stick, batches: Mapping[Ticks, int]) -> tuple[StickCut, ...]:
    cut = [piece for piece in stick.pieces if _comes_off(stick, piece)]
    return tuple(
        StickCut(
            number=number,
            batch=batches[piece.length],
            setting=piece.length,
            at=piece.start + piece.length,
            measured_from="factory end" if number == 1 else "sawn end",
            part=piece.part,
        )
        for number, piece in enumerate(cut, start=1)
    )
