"""From drawn sheets to numbered cuts: the entry point of the sequence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.cuts import Cut, SawSetting, SheetCuts
from solver.job import Shop
from solver.plan import Part, Sheet
from solver.sequence.offcuts import name_offcuts
from solver.sequence.order import Job, in_order, runs
from solver.sequence.saws import cautions, measured_from, setting_of, way_of
from solver.sequence.steps import Step, steps_of


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
    steps = [steps_of(index, sheet) for index, sheet in enumerate(sheets)]
    offcuts = [
        name_offcuts(some, sheet.material, shop, parts)
        for some, sheet in zip(steps, sheets, strict=True)
    ]
    order = in_order([_job(step, at, shop) for some in steps for at, step in enumerate(some)])
    numbers = _numbers(order)
    return Sequenced(
        tuple(
            sheet.model_copy(
                update={"cuts": _cuts(order, index, numbers, shop), "offcuts": offcuts[index]}
            )
            for index, sheet in enumerate(sheets)
        ),
        _settings(order, numbers),
    )


def _job(step: Step, at: int, shop: Shop) -> Job:
    way = way_of(step, shop)
    return Job(step, (step.sheet, at), (way, step.cut.direction, setting_of(way, step)))


def _numbers(order: Sequence[Job]) -> dict[tuple[int, int], int]:
    """Number the cuts of each sheet from 1 in the order of the work."""
    counts: dict[int, int] = {}
    numbers = {}
    for job in order:
        sheet = job.at[0]
        counts[sheet] = numbers[job.at] = counts.get(sheet, 0) + 1
    return numbers


def _cuts(
    order: Sequence[Job], sheet: int, numbers: dict[tuple[int, int], int], shop: Shop
) -> tuple[Cut, ...]:
    return tuple(_cut(job, numbers[job.at], shop) for job in order if job.at[0] == sheet)


def _cut(job: Job, number: int, shop: Shop) -> Cut:
    step, way = job.step, job.key[0]
    return step.cut.model_copy(
        update={
            "number": number,
            "saw": way.saw,
            "guide": way.guide,
            "setting": job.key[2],
            "panel": step.panel.name,
            "measured_from": measured_from(step),
            "comes_off": step.comes_off.panel(),
            "goes_on": None if step.goes_on is None else step.goes_on.panel(),
            "cautions": cautions(way, step, shop),
        }
    )


def _settings(order: Sequence[Job], numbers: dict[tuple[int, int], int]) -> tuple[SawSetting, ...]:
    return tuple(_setting(n, run, numbers) for n, run in enumerate(runs(order), start=1))


def _setting(number: int, run: Sequence[Job], numbers: dict[tuple[int, int], int]) -> SawSetting:
    way, direction, length = run[0].key
    sheets = sorted({job.at[0] for job in run})
    return SawSetting(
        number=number,
        saw=way.saw,
        guide=way.guide,
        direction=direction,
        setting=length,
        cuts=tuple(
            SheetCuts(
                sheet=sheet + 1,
                cuts=tuple(sorted(numbers[job.at] for job in run if job.at[0] == sheet)),
            )
            for sheet in sheets
        ),
    )
