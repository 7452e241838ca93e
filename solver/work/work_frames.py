"""Shelves, hinges, trim, buying, labour, price and steps of a plan as pandas DataFrames.

As in :mod:`solver.plan.plan_frames`: a row for each line of each option, lengths twice, names
untouched. pandas is imported when asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from solver.costing.estimate import estimate
from solver.job.price_terms import PriceList
from solver.plan.estimated import Estimate
from solver.plan.plan import Option, Plan
from solver.plan.plan_frames import Row, frame_of
from solver.strength.hang_sheet import hanging_of
from solver.trim.trim_sets import trim_sets
from solver.work.build_steps import build_steps

if TYPE_CHECKING:
    from pandas import DataFrame


def shelves_frame(plan: Plan) -> DataFrame:
    """Return one row for each board that things stand on.

    Columns: option, case, bay [-], shelf [-] (0 is the lowest board), load_g and load_limit_g
    [g], and lengths in the job's unit, empty where the board is borne over its whole length:
    span, sag_first, sag_long (first day, after years), allowed_first, allowed_long (display).
    """
    plain = ("option", "case", "bay", "shelf", "load_g", "load_limit_g")
    return _frame(plan, _shelves, plain, SAG_LENGTHS)


def hinges_frame(plan: Plan) -> DataFrame:
    """Return one row for each hinge of each hung case, from the top down.

    Columns: option, case, hinge [-], old_mortise, and lengths in the job's unit to the top of
    the leaf: from_top (of the case), from_head (the head jamb).
    """
    plain = ("option", "case", "hinge", "old_mortise")
    return _frame(plan, lambda o: _hinges(plan, o), plain, ("from_top", "from_head"))


def trim_frame(plan: Plan) -> DataFrame:
    """Return one row for each piece of trim.

    Columns: option, case, piece, name, where, moulding, travels, and lengths in the job's unit:
    length (finished), width, thickness, cut_length (empty where it is cut from no moulding).
    """
    plain = ("option", "case", "piece", "name", "where", "moulding", "travels")
    return _frame(plan, lambda o: _trim(plan, o), plain, (*TRIM_LENGTHS, "cut_length"))


def buying_frame(plan: Plan, prices: PriceList | None = None) -> DataFrame:
    """Return one row for each line of the buy list, priced by the job and by `prices`.

    Columns: option, place, what, size, counted, need [-], on_hand [-], pack [-], packs [-] to
    buy, each and amount in the job's currency (empty where there is no price), parts.
    """
    plain = ("option", *BUYING, "parts")
    return _frame(plan, lambda o: _buying(estimate(plan.job, o, prices)), plain, ())


def labour_frame(plan: Plan, prices: PriceList | None = None) -> DataFrame:
    """Return one row for each task and each of what is often left out.

    Columns: option, phase, task, count [-], minutes_each and minutes [min], amount in the job's
    currency (empty where an hour has no price), why.
    """
    plain = ("option", "phase", "task", "count", "minutes_each", "minutes", "amount", "why")
    return _frame(plan, lambda o: _labour(estimate(plan.job, o, prices)), plain, ())


def price_frame(plan: Plan, prices: PriceList | None = None) -> DataFrame:
    """Return one row for each line of the summing up, then for each payment.

    Columns: option, line, share [%] of a payment, amount in the job's currency.
    """
    return _frame(
        plan,
        lambda o: _price(estimate(plan.job, o, prices)),
        ("option", "line", "share", "amount"),
        (),
    )


def steps_frame(plan: Plan) -> DataFrame:
    """Return one row for each step of the work, each after what it waits for.

    Columns: option, step [-], what, case, where, minutes [min], people [-], does, tools,
    cautions, after.
    """
    plain = ("option", *STEPS)
    return _frame(plan, lambda o: _steps(plan, o), plain, ())


SAG_LENGTHS = ("span", "sag_first", "sag_long", "allowed_first", "allowed_long")
TRIM_LENGTHS = ("length", "width", "thickness")
BUYING = (
    "place",
    "what",
    "size",
    "counted",
    "need",
    "on_hand",
    "pack",
    "packs",
    "each",
    "amount",
)
STEPS = (
    "step",
    "what",
    "case",
    "where",
    "minutes",
    "people",
    "does",
    "tools",
    "cautions",
    "after",
)


def _frame(
    plan: Plan,
    rows: Callable[[Option], Iterator[Row]],
    plain: tuple[str, ...],
    lengths: tuple[str, ...],
) -> DataFrame:
    """Return the rows of every option that has a layout."""
    named = [(option.name, rows(option)) for option in plan.options if option.cases]
    return frame_of(plan.unit, named, plain, lengths)


def _shelves(option: Option) -> Iterator[Row]:
    strength = () if option.strength is None else option.strength.shelves
    known = {(one.case, one.bay, one.index): one for one in strength}
    for case in option.cases:
        for bay in case.bays:
            for opening in bay.openings:
                one = known.get((case.name, bay.number, opening.index))
                yield {
                    "case": case.name,
                    "bay": bay.number,
                    "shelf": opening.index,
                    "load_g": opening.load,
                    "load_limit_g": opening.load_limit,
                    **{name: None if one is None else getattr(one, name) for name in SAG_LENGTHS},
                }


def _hinges(plan: Plan, option: Option) -> Iterator[Row]:
    for sheet in (option.hanging or hanging_of(plan.job, option)).cases:
        for number, one in enumerate(sheet.hinges, start=1):
            yield {
                "case": sheet.case,
                "hinge": number,
                "old_mortise": one.old,
                "from_top": one.from_top,
                "from_head": one.from_head,
            }


def _trim(plan: Plan, option: Option) -> Iterator[Row]:
    for trim in trim_sets(plan.job, option):
        for one in trim.pieces:
            names = ("case", "name", "where", "moulding", "travels", "cut_length", *TRIM_LENGTHS)
            yield {"piece": one.id, **{name: getattr(one, name) for name in names}}


def _buying(made: Estimate) -> Iterator[Row]:
    for line in made.buying.lines:
        yield {"parts": ", ".join(line.of), **{name: getattr(line, name) for name in BUYING}}


def _labour(made: Estimate) -> Iterator[Row]:
    for line in made.labour:
        yield {
            "phase": line.phase,
            "task": line.task,
            "count": line.count,
            "minutes_each": line.each,
            "minutes": line.minutes,
            "amount": line.amount,
            "why": line.per,
        }
    for extra in made.extras:
        yield {
            "phase": "often left out",
            "task": extra.what,
            "count": None,
            "minutes_each": None,
            "minutes": extra.minutes,
            "amount": extra.amount,
            "why": extra.why,
        }


def _price(made: Estimate) -> Iterator[Row]:
    for line in made.sums:
        yield {"line": line.what, "share": None, "amount": line.amount}
    for payment in made.payments:
        yield {"line": f"due {payment.when}", "share": payment.share, "amount": payment.amount}


def _steps(plan: Plan, option: Option) -> Iterator[Row]:
    steps = build_steps(plan.job, option)
    numbers = {step.key: number for number, step in enumerate(steps, start=1)}
    for step in steps:
        yield {
            "step": numbers[step.key],
            "what": step.what,
            "case": step.case,
            "where": step.where,
            "minutes": step.minutes,
            "people": step.people,
            "does": "; ".join(step.does),
            "tools": ", ".join(step.tools),
            "cautions": " ".join(one.text for one in step.cautions),
            "after": ", ".join(str(numbers[one.step]) for one in step.after),
        }
