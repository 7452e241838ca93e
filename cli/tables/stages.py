"""The order of wishes: what each stage reached and what is proven about it."""

from __future__ import annotations

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, of_stage
from solver.plan import Option
from solver.units import Unit


def stages_table(option: Option, unit: Unit, currency: str) -> Titled:
    """Return the stages of an option with value, proven bound and whether they meet."""
    table = plain_table("wish", "reached", "bound", "proven", "", right=("reached", "bound"))
    for stage in option.stages:
        bound = NONE if stage.bound is None else of_stage(stage.bound, stage, unit, currency)
        reached = of_stage(stage.value, stage, unit, currency)
        if stage.unit == "money" and _no_prices(option):
            reached = bound = NONE
        table.add_row(
            stage.name,
            reached,
            bound,
            "yes" if stage.proven else "no",
            stage.note or "",
        )
    return Titled("What is proven, in the order of wishes", table)


def _no_prices(option: Option) -> bool:
    """Whether nothing that is bought has a price, so that amounts would all read nothing."""
    return option.cost is not None and not option.cost.complete and not option.cost.total
