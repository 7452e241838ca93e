"""The estimate of an option: labour, extras, contingency, overhead, profit, tax, payments."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.costing.buy_list import buy_list
from solver.costing.labour_tasks import why_none, works
from solver.job.defaults import CP
from solver.job.job import Job
from solver.job.labour_table import CONTINGENCY, FORGOTTEN, SECOND_PERSON, TASKS
from solver.job.price_terms import HOUR, SECOND_HOUR, PriceList, Terms
from solver.plan.bought import BuyList
from solver.plan.estimated import (
    Estimate,
    ExtraLine,
    LabourLine,
    OneMoreShelf,
    Payment,
    SumLine,
    to_cents,
)
from solver.plan.plan import Option
from solver.plan.work import Work


def estimate(job: Job, option: Option, prices: PriceList | None = None) -> Estimate:
    """Return what an option costs; what has no price is named in `missing`.

    Raises
    ------
    InputError
        Where the price list is in another currency than the job.
    """
    price_list, terms = prices or PriceList(), job.terms
    buying = buy_list(job, option, prices)
    hourly = _rate(terms.hourly, price_list, HOUR)
    second = _rate(terms.hourly_second, price_list, SECOND_HOUR)
    second = hourly if second is None else second
    all_work = works(job, option)
    labour = labour_lines(job, all_work, hourly)
    extras = tuple(extra_lines(job, all_work, hourly, second))
    contingency = _contingency(terms, buying, labour, extras)
    sums = tuple(_sum_lines(terms, buying, labour, extras, contingency))
    missing = list(buying.missing)
    if hourly is None and None in _amounts(labour, extras):
        missing.insert(0, HOUR)
    if terms.tax is None:
        missing.append("tax")
    return Estimate(
        option=option.name,
        currency=job.head.currency,
        buying=buying,
        labour=labour,
        extras=(*extras, contingency),
        sums=sums,
        payments=payments(terms, sums[-1].amount),
        valid_days=terms.valid_days,
        minutes=_minutes(labour) + _minutes(extras),
        shelf=shelf_labour(all_work, job, option, hourly),
        missing=tuple(missing),
    )


def labour_lines(
    job: Job, all_work: tuple[Work, ...], hourly: Decimal | None
) -> tuple[LabourLine, ...]:
    """Return a line for each task that is no extra, in the order of the labour table."""
    return tuple(
        _labour_line(job, task, all_work, hourly)
        for task, row in TASKS.items()
        if row.phase != "forgotten" and any(work.task == task for work in all_work)
    )


def _labour_line(
    job: Job, task: str, all_work: tuple[Work, ...], hourly: Decimal | None
) -> LabourLine:
    row, mine = TASKS[task], [work for work in all_work if work.task == task]
    minutes = sum((work.minutes for work in mine), Decimal(0))
    return LabourLine(
        task=task,
        phase=row.phase,
        per=row.per,
        count=sum((work.count for work in mine), Decimal(0)),
        each=job.terms.minutes(task),
        minutes=minutes,
        amount=priced(minutes, hourly),
        source="[price] labour" if task in job.terms.labour else CP,
    )


def priced(minutes: Decimal, hourly: Decimal | None) -> Decimal | None:
    """Price of so many minutes [min], rounded to the cent; None where an hour has no price."""
    return None if hourly is None else to_cents(minutes * hourly / 60)


def second_minutes(all_work: tuple[Work, ...]) -> Decimal:
    """Minutes of everybody beyond the first at tasks that need more than one person [min]."""
    return sum((work.minutes * (work.people - 1) for work in all_work), Decimal(0))


def extra_lines(
    job: Job, all_work: tuple[Work, ...], hourly: Decimal | None, second: Decimal | None
) -> Iterator[ExtraLine]:
    """Yield each extra that is often left out, but the contingency, and why it is counted."""
    for what in FORGOTTEN:
        if what in job.terms.extras:
            yield _given_extra(what, job.terms.extras[what])
        elif what == SECOND_PERSON:
            yield _second_person(all_work, second)
        elif what != CONTINGENCY:
            yield _counted_extra(job, what, all_work, hourly)


def _given_extra(what: str, amount: Decimal) -> ExtraLine:
    why = "as the job says" if amount else "none, as the job says"
    state = "given" if amount else "none"
    return ExtraLine.model_validate(
        {"what": what, "state": state, "minutes": Decimal(0), "amount": amount, "why": why}
    )


def _counted_extra(
    job: Job, what: str, all_work: tuple[Work, ...], hourly: Decimal | None
) -> ExtraLine:
    mine = [work for work in all_work if work.task == what]
    if not mine:
        why = why_none(what, job, job.cases) or "no time is allowed for it"
        return ExtraLine(
            what=what, state="none", minutes=Decimal(0), amount=Decimal("0.00"), why=why
        )
    minutes = sum((work.minutes for work in mine), Decimal(0))
    count = sum((work.count for work in mine), Decimal(0))
    why = f"{count} {TASKS[what].per}{'s' if count != 1 else ''}"
    return ExtraLine(
        what=what, state="counted", minutes=minutes, amount=priced(minutes, hourly), why=why
    )


def _second_person(all_work: tuple[Work, ...], second: Decimal | None) -> ExtraLine:
    minutes = second_minutes(all_work)
    if not minutes:
        return ExtraLine(
            what=SECOND_PERSON,
            state="none",
            minutes=Decimal(0),
            amount=Decimal("0.00"),
            why="nothing wants two",
        )
    tasks = dict.fromkeys(work.task for work in all_work if work.people > 1)
    return ExtraLine(
        what=SECOND_PERSON,
        state="counted",
        minutes=minutes,
        amount=priced(minutes, second),
        why=", ".join(tasks),
    )


def shelf_labour(
    all_work: tuple[Work, ...], job: Job, option: Option, hourly: Decimal | None
) -> OneMoreShelf | None:
    """Labour of one shelf: the mean over the shelves of what is counted by part, joint or area.

    A lip, and the band on its edge, belong to a shelf. Settings of the saws are shared by all
    parts and left out; cuts count by the piece. This is a mean: what one shelf more costs exactly
    is the difference of two options.
    """
    areas = {part.id: part.length * part.width for part in option.parts}
    shelves = {part.id for part in option.parts if part.name == "shelf"}
    if not shelves:
        return None
    names = {name.rpartition("/")[2] for name in shelves}
    mine = shelves | {
        part
        for work in all_work
        for part in work.of
        if part.rpartition("/")[2].startswith("lip-") or part.rpartition("trim-band-")[2] in names
    }
    shares = [(work.task, _share(work, mine, areas)) for work in all_work if mine & set(work.of)]
    minutes = sum((one for _, one in shares), Decimal(0)) / len(shelves)
    minutes = minutes.quantize(Decimal("0.1"))
    tasks = tuple(dict.fromkeys(task for task, share in shares if share))
    return OneMoreShelf(minutes=minutes, amount=priced(minutes, hourly), tasks=tasks)


def _share(work: Work, mine: set[str], areas: dict[str, int]) -> Decimal:
    """Minutes of a work that these parts take: by area, or the same for each part."""
    sides = {part for part in work.of if part.rpartition("/")[2].startswith("side-")}
    of = [part for part in work.of if work.task != "glue-up" or part not in sides]
    by_area = TASKS[work.task].per == "m2"
    weights = {part: areas.get(part, 0) if by_area else 1 for part in of}
    whole = sum(weights.values())
    if not whole:
        return Decimal(0)
    return work.minutes * sum(weights[one] for one in of if one in mine) / whole


def _rate(given: Decimal | None, price_list: PriceList, item: str) -> Decimal | None:
    if given is not None:
        return given
    listed = price_list.of(item)
    return listed.price if listed else None


def _sum(amounts: list[Decimal | None]) -> Decimal:
    return sum((amount for amount in amounts if amount is not None), Decimal("0.00"))


def _amounts(labour: tuple[LabourLine, ...], extras: tuple[ExtraLine, ...]) -> list[Decimal | None]:
    return [*(line.amount for line in labour), *(line.amount for line in extras)]


def _minutes(lines: tuple[LabourLine, ...] | tuple[ExtraLine, ...]) -> Decimal:
    return sum((line.minutes for line in lines), Decimal(0))


def _percent(share: Decimal, of: Decimal) -> Decimal:
    return to_cents(of * share / 100)


def _contingency(
    terms: Terms, buying: BuyList, labour: tuple[LabourLine, ...], extras: tuple[ExtraLine, ...]
) -> ExtraLine:
    share = terms.contingency
    net = buying.total + _sum(_amounts(labour, extras))
    return ExtraLine(
        what=CONTINGENCY,
        state="counted" if share else "none",
        minutes=Decimal(0),
        amount=_percent(share, net),
        why=f"{share} % of materials, labour and extras" if share else "none, as the job says",
    )


def _sum_lines(
    terms: Terms,
    buying: BuyList,
    labour: tuple[LabourLine, ...],
    extras: tuple[ExtraLine, ...],
    contingency: ExtraLine,
) -> list[SumLine]:
    """Return the summing up, line by line; the last line is the total."""
    materials = buying.total
    work = _sum([line.amount for line in labour])
    more = _sum([line.amount for line in (*extras, contingency)])
    direct = materials + work + more
    overhead = _percent(terms.overhead, direct)
    profit = _percent(terms.profit, direct + overhead)
    net = direct + overhead + profit
    sums = [
        SumLine(kind="materials", what="materials", amount=materials),
        SumLine(kind="labour", what="labour", amount=work),
        SumLine(kind="extras", what="extras", amount=more),
        SumLine(kind="overhead", what=f"overhead, {terms.overhead} %", amount=overhead),
        SumLine(kind="profit", what=f"profit, {terms.profit} %", amount=profit),
        SumLine(kind="net", what="net", amount=net),
    ]
    if terms.tax is not None:
        taxed = net if terms.tax_on == "everything" else materials
        on = "" if terms.tax_on == "everything" else " on materials"
        tax = _percent(terms.tax, taxed)
        sums.append(SumLine(kind="tax", what=f"tax, {terms.tax} %{on}", amount=tax))
        net += tax
    return [*sums, SumLine(kind="total", what="total", amount=net)]


def payments(terms: Terms, total: Decimal) -> tuple[Payment, ...]:
    """Divide a total into the payments of its stages.

    The sum due up to each stage is rounded, so that the payments add up to the total.
    """
    dues, share, paid = [], Decimal(0), Decimal("0.00")
    for stage in terms.stages:
        share += stage.share
        due = _percent(share, total)
        dues.append(Payment(when=stage.when, share=stage.share, amount=due - paid))
        paid = due
    return tuple(dues)
