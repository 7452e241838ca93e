"""From drawn sheets to numbered cuts: the entry point of the sequence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.cuts import Cut, Panel, SawSetting, SheetCuts
from solver.job import Shop
from solver.sequence.ends import drawn_for
from solver.sequence.offcuts import name_offcuts
from solver.sequence.order import At, Key, Run, Task, in_runs
from solver.sequence.saws import cautions, measured_from, setting_of, ways_of
from solver.sequence.steps import Block, Step, steps_of
from solver.stocked import Part, Sheet


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


def _panel(block: Block | None) -> Panel | None:
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
