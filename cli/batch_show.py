"""A batch on the console: who pays what, what is bought, whose parts are on which sheet."""

from __future__ import annotations

from decimal import Decimal
from textwrap import fill

from rich.console import Console
from rich.text import Text

from cli.console import points
from cli.tables.batch import carriers_table, jobs_table, pools_table, sizes_table
from cli.tables.cutting import mouldings_table, parts_table, sheet_tables
from cli.tables.sawing import sawing_notes
from cli.tables.slack import slack_lines
from cli.tables.stops import stops_table
from cli.tables.style import Titled
from cli.tables.words import amount, count
from solver.batch import Batch
from solver.outcome import Status
from solver.units import with_unit


def print_batch(console: Console, batch: Batch, *, every: bool) -> None:
    """Print the batch; with `every` the pieces and cuts of each sheet too."""
    console.print(Text(fill(head_line(batch), console.width), style="bold"))
    console.print()
    tables = [jobs_table(batch), *sizes_table(batch), pools_table(batch), carriers_table(batch)]
    for titled in [*tables, *(_details(batch, console.width) if every else [])]:
        console.print(Text(titled.title, style="bold"))
        console.print(titled.table)
        console.print()
    points(console, remarks(batch, every=every))


def head_line(batch: Batch) -> str:
    """Say in one line what is bought and what that saves."""
    jobs, sheets = count(len(batch.jobs), "job"), count(batch.sheet_count, "sheet")
    if not batch.cost.complete:
        return f"{jobs} together: {sheets}; each by itself: {batch.alone_sheets}."
    price, alone, saved = (
        amount(money, batch.cost.currency)
        for money in (batch.cost.total, batch.alone, batch.saving)
    )
    return (
        f"{jobs} together: {sheets}, {price}; each by itself: {batch.alone_sheets}, {alone}. "
        f"Saved: {saved}."
    )


def _details(batch: Batch, width: int) -> list[Titled]:
    tables = [parts_table(batch.parts, batch.unit)]
    tables += sheet_tables(batch.sheets, batch.unit, width, batch.settings)
    if batch.mouldings:
        tables.append(mouldings_table(batch.mouldings, batch.unit))
        tables.append(stops_table(batch.mouldings, batch.unit))
    return tables


def remarks(batch: Batch, *, every: bool) -> list[str]:
    """Return what is proven, what could not be shared, and what is to be known."""
    lines = [gap_line(batch), *sizes_lines(batch), *batch.notes, *_dearer(batch)]
    if batch.cost.complete:
        lines.append("Each pays for a material by the area of its parts, for a moulding by length.")
    lines += slack_lines(batch.sheets, batch.mouldings, batch.unit)
    if every:
        return [*lines, *sawing_notes(batch.sheets)]
    return [*lines, "--all shows the pieces and the cuts of each sheet."]


def gap_line(batch: Batch) -> str:
    """Say how far the price is from what is proven, for the parts of these options."""
    cost = batch.cost
    if not cost.complete:
        fewest = f"fewer than {count(batch.sheet_bound, 'sheet')} cannot do"
        return f"Prices are missing, so that sheets are counted by area; {fewest}."
    if batch.status is Status.OPTIMAL:
        return "Proven: these parts cannot be cut from cheaper stock."
    gap = cost.total - cost.stock_bound
    share = gap / cost.total * 100 if cost.total else Decimal(0)
    return (
        f"Best found: these parts cannot cost less than {amount(cost.stock_bound, cost.currency)}, "
        f"so that at most {amount(gap, cost.currency)} ({share:.1f} %) could still be saved."
    )


def sizes_lines(batch: Batch) -> list[str]:
    """Say what is proven of the open sizes of all jobs together."""
    sizes = batch.sizes
    if sizes is None:
        return []
    said = f"{count(sizes.count, 'size')} {'is' if sizes.count == 1 else 'are'} open"
    said += ", chosen over all jobs at once"
    if not batch.cost.complete:
        said += "; prices are missing, so that sheets are counted by area"
    else:
        said += ": with these shelf counts no sizes cost less"
        said += "" if sizes.proven else f" than {amount(sizes.bound, batch.cost.currency)}"
    away, least = (with_unit(length, batch.unit) for length in (sizes.away, sizes.away_bound))
    if sizes.away <= sizes.away_bound:
        return [f"{said}. They are {away} from the wishes in all; at this price none are nearer."]
    return [f"{said}. They are {away} from the wishes in all, at this price at least {least}."]


def _dearer(batch: Batch) -> list[str]:
    names = [job.name for job in batch.jobs if job.share > job.alone]
    if not names:
        return []
    pays = "pays" if len(names) == 1 else "pay"
    return [f"By area {', '.join(names)} {pays} more than by itself; you may share otherwise."]
