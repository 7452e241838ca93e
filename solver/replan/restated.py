"""An option of the last plan with its things and shelves in new places, cut anew if need be."""

from __future__ import annotations

from fractions import Fraction

from solver.carcass.decided import open_sizes
from solver.changes.saving_changes import with_room
from solver.doorway.swing_analysis import swing_notes
from solver.job.job import Job
from solver.layout.layout_engine import LayoutAnswer
from solver.layout.stage_search import Found
from solver.outcome import Limits, Status
from solver.plan.plan import Cost, Option, Stage
from solver.plan.stocked import Part, Sheet, Stick
from solver.planning.assemble import case_plans, sag_notes, shared_lines
from solver.planning.on_hand_sheets import drawn
from solver.planning.option_stages import scores
from solver.planning.starting_option import Start
from solver.sequence.sequencing import sequence, sequence_sticks
from solver.sizing.purchase import Buyer, sheet_parts
from solver.strength.hang_sheet import with_hanging
from solver.strength.shelves_of_plan import strength_of
from solver.units import TICKS_PER_MM, Ticks, to_mm

MOVED = (("marks moved", "mm"), ("things moved", "things"))
"""Stages of what moves, with what they count."""


def finished(start: Start, answer: LayoutAnswer, limits: Limits) -> Option:
    """Write an option down: the old one with new places, cut anew only where parts changed."""
    cases = case_plans(start.settled, start.problem, answer, start.depths)
    parts = sheet_parts(start.settled, start.old.shelf_counts, start.depths)
    option = start.old
    if parts != option.parts or not _same_stock(start.last.job, start.job):
        option = _cut_anew(start, parts, limits)
    there = {one.part for one in option.have.used} if option.have else set()
    to_cut = [part for part in parts if part.id not in there]
    figures = scores(start.settled, cases, to_cut, option.sheets)
    stages = _stages(option, answer, figures.rhythm)
    proven = all(s.proven for s in stages if s.name in ("fit", "price", "size", "rhythm"))
    bearing = strength_of(start.job, cases)
    made = option.model_copy(
        update={
            "cases": cases,
            "lines": shared_lines(start.problem, cases),
            "lines_apart": start.problem.lines_apart,
            "open_sizes": open_sizes(start.job, cases),
            "scores": figures,
            "strength": bearing,
            "stages": stages,
            "status": Status.OPTIMAL if proven else Status.FEASIBLE,
            "why": None,
            "changes": (),
            "left_out": (),
            "advice": (),
            "advice_note": None,
            "tags": (),
            "band": None,
            "notes": (*swing_notes(cases), *sag_notes(bearing)),
        }
    )
    return with_hanging(start.job, made)


def _same_stock(before: Job, job: Job) -> bool:
    return (before.sheets, before.mouldings, before.shop, before.cases, before.have) == (
        job.sheets,
        job.mouldings,
        job.shop,
        job.cases,
        job.have,
    )


def _cut_anew(start: Start, parts: tuple[Part, ...], limits: Limits) -> Option:
    """Return the old option with sheets and mouldings for the parts as they are now."""
    job, counts = start.job, start.old.shelf_counts
    stock = Buyer(job, limits).stock(counts, start.depths, start.settled)
    made = drawn(job, parts, stock)
    ordered = sequence(made.sheets, job.shop, parts)
    everything: tuple[Sheet | Stick, ...] = (*stock.sheets, *stock.sticks)
    bought = [one for one in everything if not one.on_hand]
    bound = min(stock.bound, stock.price)
    price = Stage(
        name="price",
        value=f"{stock.price:.2f}",
        bound=f"{bound:.2f}",
        unit="money",
        proven=stock.proven,
        note="at these sizes",
    )
    kept = [stage for stage in start.old.stages if stage.name not in ("price", "size")]
    return with_room(
        start.old.model_copy(
            update={
                "stages": (*kept[:1], price, *kept[1:]),
                "parts": parts,
                "sheets": ordered.sheets,
                "settings": ordered.settings,
                "sets": (),
                "have": made.have,
                "mouldings": sequence_sticks(stock.sticks),
                "sheet_count": stock.sheet_count,
                "sheet_bound": min(stock.sheet_bound, stock.sheet_count),
                "cost": Cost(
                    currency=job.head.currency,
                    sheets=stock.sheets_price,
                    mouldings=stock.sticks_price,
                    stock_bound=bound,
                    total=stock.price,
                    complete=all(one.price is not None for one in bought),
                ),
            }
        )
    )


def _stages(option: Option, answer: LayoutAnswer, rhythm: Ticks) -> tuple[Stage, ...]:
    """The order of wishes: what was bought stands as it was, then what moved, then the look."""
    found = answer.stages
    stages = [_figure("fit", found["fit"], "things")]
    stages += [stage for stage in option.stages if stage.name in ("price", "size")]
    for name, unit in MOVED:
        if name in found:
            stages.append(_figure(name, found[name], unit, "from the plan before"))
    held = "with no more moved than that"
    stages.append(_length("rhythm", found["rhythm"], rhythm, held))
    if "headroom" in found:
        stages.append(_figure("headroom", found["headroom"], "mm", held))
    for name, unit in (("places", "things"), ("low weight", "g m")):
        if name in found:
            stages.append(_figure(name, found[name], unit, held))
    return tuple(stages)


def _length(name: str, found: Found, reached: Ticks, note: str) -> Stage:
    """The rhythm: its score to the nearest tick as the finished plan has it, bounds down."""
    value = to_mm(reached)
    bound = value if found.proven else min(value, to_mm(int(found.bound)))
    return Stage(name=name, value=value, bound=bound, proven=found.proven, unit="mm", note=note)


def _figure(name: str, found: Found, unit: str, note: str | None = None) -> Stage:
    value, bound = found.value, found.bound
    if unit == "mm":
        value = None if value is None else Fraction(value, TICKS_PER_MM)
        bound = Fraction(bound, TICKS_PER_MM)
    return Stage(
        name=name,
        value=None if value is None else round(float(value), 6),
        bound=round(float(bound), 6),
        proven=found.proven,
        unit=unit,
        note=note,
    )
