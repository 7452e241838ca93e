"""A batch on the console: who pays what, what is bought together, whose parts are where."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from textwrap import fill

from rich.console import Console
from rich.text import Text

from cli.screen.advice_tables import slack_lines
from cli.screen.console import Titled, plain_table, points
from cli.screen.cutting_tables import (
    mouldings_table,
    parts_table,
    sheet_tables,
    sheet_used_share,
    stops_table,
)
from cli.screen.sawing_tables import sawing_notes
from cli.screen.wording import amount, count, percent, plain_name
from solver.outcome import Status
from solver.plan.joint_purchase import Batch
from solver.plan.stocked import Sheet, Stick
from solver.units import Unit, format_length, with_unit


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


def jobs_table(batch: Batch) -> Titled:
    """Return each job with its share, what it would pay by itself, and where its parts are."""
    right = ("parts", *(_PAID if batch.cost.complete else ("board",)))
    table = plain_table("job", "built as", *right, "on sheets", right=right)
    board = sum(part.length * part.width for part in batch.parts)
    for job in batch.jobs:
        own = job.plan.options[0].parts
        table.add_row(
            plain_name(job.name),
            plain_name(job.option),
            str(len(own)),
            *_paid(batch, job.share, job.alone),
            *_share(batch, sum(part.length * part.width for part in own) / board),
            ranges(job.sheets),
        )
    table.add_section()
    paid = _paid(batch, batch.cost.total, batch.alone)
    sheets = count(len(batch.sheets), "sheet")
    table.add_row("together", "", str(len(batch.parts)), *paid, *_share(batch, 1), sheets)
    return Titled("Jobs, and what each pays" if batch.cost.complete else "Jobs", table)


_PAID = ("pays", "by itself", "saves")


def _share(batch: Batch, share: float) -> list[str]:
    """Return the share of the parts' area; nothing where prices tell what each pays."""
    return [] if batch.cost.complete else [percent(share)]


def _paid(batch: Batch, share: Decimal, alone: Decimal) -> list[str]:
    """Return what is paid, alone, and saved; nothing where prices are missing."""
    currency = batch.cost.currency
    if not batch.cost.complete:
        return []
    saved = amount(abs(alone - share), currency)
    return [
        amount(share, currency),
        amount(alone, currency),
        ("-" if share > alone else "") + saved,
    ]


def sizes_table(batch: Batch) -> list[Titled]:
    """Return the open sizes that are others than each job would have by itself; none: nothing."""
    if batch.sizes is None or not batch.sizes.moved:
        return []
    right = ("wish", "by itself", "built")
    table = plain_table("job", "case", "size", *right, right=right)
    for job in batch.jobs:
        alone, built = (plan.options[0].open_sizes for plan in (job.plan, job.built))
        for was, now in zip(alone, built, strict=True):
            if was != now:
                lengths = (format_length(n, batch.unit) for n in (now.wish, was.chosen, now.chosen))
                table.add_row(plain_name(job.name), plain_name(now.case), now.what, *lengths)
    return [Titled(f"Sizes chosen together, other than by itself ({batch.unit})", table)]


def ranges(numbers: Sequence[int]) -> str:
    """Return numbers in order, runs of three and more shortened: ``1-4, 7, 8``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    texts = [f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(texts)


def pools_table(batch: Batch) -> Titled:
    """Return what is bought of each material, beside what the jobs would buy by themselves."""
    figures = ("to buy", "apart", "fewest")
    right = (*figures, "price", "at least") if batch.cost.complete else figures
    table = plain_table("material", *right, "proof", right=right)
    currency = batch.cost.currency
    for pool in batch.pools:
        prices = (pool.price, pool.bound) if batch.cost.complete else ()
        table.add_row(
            plain_name(pool.material),
            count(pool.count, "sheet" if pool.kind == "sheets" else "stick"),
            str(pool.alone_count),
            str(pool.count_bound),
            *(amount(price, currency) for price in prices),
            "proven" if pool.status is Status.OPTIMAL else "best found",
        )
    return Titled("Bought together", table)


def carriers_table(batch: Batch) -> Titled:
    """Return for each sheet and stick how many parts of which job it carries."""
    table = plain_table("no.", "stock", "parts of", "used", right=("no.", "used"))
    for number, sheet in enumerate(batch.sheets, start=1):
        name = f"{_stock_name(sheet)} ({_size(sheet, batch.unit)})"
        table.add_row(str(number), name, _whose(batch, sheet), percent(sheet_used_share(sheet)))
    if batch.mouldings:
        table.add_section()
    for number, stick in enumerate(batch.mouldings, start=1):
        cut = sum(piece.length for piece in stick.pieces) / stick.length
        name = f"{_stock_name(stick)} ({format_length(stick.length, batch.unit)})"
        table.add_row(str(number), name, _whose(batch, stick), percent(cut))
    return Titled(f"Which sheet carries parts of which job ({batch.unit})", table)


def _stock_name(one: Sheet | Stick) -> str:
    return plain_name(one.stock) + (", on hand" if one.on_hand else "")


def _size(sheet: Sheet, unit: Unit) -> str:
    return f"{format_length(sheet.length, unit)} x {format_length(sheet.width, unit)}"


def _whose(batch: Batch, one: Sheet | Stick) -> str:
    """How many parts of which job, in the order of the jobs."""
    parts = Counter(piece.part.split("/")[0] for piece in one.pieces)
    names = [job.name for job in batch.jobs if job.name in parts]
    return ", ".join(f"{plain_name(name)}: {parts[name]}" for name in names)


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
    sentence = f"{count(sizes.count, 'size')} {'is' if sizes.count == 1 else 'are'} open"
    sentence += ", chosen over all jobs at once"
    if not batch.cost.complete:
        sentence += "; prices are missing, so that sheets are counted by area"
    else:
        sentence += ": with these shelf counts no sizes cost less"
        sentence += "" if sizes.proven else f" than {amount(sizes.bound, batch.cost.currency)}"
    away, least = (with_unit(length, batch.unit) for length in (sizes.away, sizes.away_bound))
    if sizes.away <= sizes.away_bound:
        return [
            f"{sentence}. They are {away} from the wishes in all; at this price none are nearer."
        ]
    return [f"{sentence}. They are {away} from the wishes in all, at this price at least {least}."]


def _dearer(batch: Batch) -> list[str]:
    names = [job.name for job in batch.jobs if job.share > job.alone]
    if not names:
        return []
    pays = "pays" if len(names) == 1 else "pay"
    return [f"By area {', '.join(names)} {pays} more than by itself; you may share otherwise."]
