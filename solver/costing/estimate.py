"""The estimate of an option: labour, extras, contingency, overhead, profit, tax, payments."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from solver.costing.buy_list import buy_list
from solver.costing.works import why_none, works
from solver.job.defaults import CP
from solver.job.job import Job
from solver.job.labour_table import CONTINGENCY, FORGOTTEN, SECOND_PERSON, TASKS
from solver.job.terms import HOUR, SECOND_HOUR, PriceList, Terms
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


def labour_lines(
    job: Job, found: tuple[Work, ...], hourly: Decimal | None
) -> tuple[LabourLine, ...]:
    """Return a line for each task that is no extra, in the order of the labour table."""
    return tuple(
        _labour_line(job, task, found, hourly)
        for task, row in TASKS.items()
        if row.phase != "forgotten" and any(work.task == task for work in found)
    )


def _labour_line(
    job: Job, task: str, found: tuple[Work, ...], hourly: Decimal | None
) -> LabourLine:
    row, mine = TASKS[task], [work for work in found if work.task == task]
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


def second_minutes(found: tuple[Work, ...]) -> Decimal:
    """Minutes of everybody beyond the first at steps that want more than one [min]."""
    return sum((work.minutes * (work.people - 1) for work in found), Decimal(0))


def extra_lines(
    job: Job, found: tuple[Work, ...], hourly: Decimal | None, second: Decimal | None
) -> Iterator[ExtraLine]:
    """Yield every forgotten one but the contingency, with hours, an amount, or none and why."""
    for what in FORGOTTEN:
        if what in job.terms.extras:
            yield _given(what, job.terms.extras[what])
        elif what == SECOND_PERSON:
            yield _second(found, second)
        elif what != CONTINGENCY:
            yield _counted(job, what, found, hourly)


def _given(what: str, amount: Decimal) -> ExtraLine:
    why = "as the job says" if amount else "none, as the job says"
    state = "given" if amount else "none"
    return ExtraLine.model_validate(
        {"what": what, "state": state, "minutes": Decimal(0), "amount": amount, "why": why}
    )


def _counted(job: Job, what: str, found: tuple[Work, ...], hourly: Decimal | None) -> ExtraLine:
    mine = [work for work in found if work.task == what]
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


def _second(found: tuple[Work, ...], second: Decimal | None) -> ExtraLine:
    minutes = second_minutes(found)
    if not minutes:
        return ExtraLine(
            what=SECOND_PERSON,
            state="none",
            minutes=Decimal(0),
            amount=Decimal("0.00"),
            why="nothing wants two",
        )
    tasks = dict.fromkeys(work.task for work in found if work.people > 1)
    return ExtraLine(
        what=SECOND_PERSON,
        state="counted",
        minutes=minutes,
        amount=priced(minutes, second),
        why=", ".join(tasks),
    )


def one_shelf(
    found: tuple[Work, ...], job: Job, option: Option, hourly: Decimal | None
) -> OneMoreShelf | None:
    """Labour of one shelf: the mean over the shelves of what is counted by part, joint or area.

    A lip, and the band on its edge, belong to a shelf. Settings of the saws are shared by all
    parts and left out; cuts count by the piece. What an option costs more that has one shelf
    more is in the options side by side, to the minute.
    """
    areas = {part.id: part.length * part.width for part in option.parts}
    shelves = {part.id for part in option.parts if part.name == "shelf"}
    if not shelves:
        return None
    names = {name.rpartition("/")[2] for name in shelves}
    mine = shelves | {
        part
        for work in found
        for part in work.of
        if part.rpartition("/")[2].startswith("lip-") or part.rpartition("trim-band-")[2] in names
    }
    shares = [(work.task, _share(work, mine, areas)) for work in found if mine & set(work.of)]
    minutes = sum((one for _, one in shares), Decimal(0)) / len(shelves)
    minutes = minutes.quantize(Decimal("0.1"))
    tasks = tuple(dict.fromkeys(task for task, share in shares if share))
    return OneMoreShelf(minutes=minutes, amount=priced(minutes, hourly), tasks=tasks)


def _share(work: Work, mine: set[str], areas: dict[str, int]) -> Decimal:
    """Minutes of a work that fall to these parts: by area, or alike for each part."""
    sides = {part for part in work.of if part.rpartition("/")[2].startswith("side-")}
    of = [part for part in work.of if work.task != "glue-up" or part not in sides]
    by_area = TASKS[work.task].per == "m2"
    weights = {part: areas.get(part, 0) if by_area else 1 for part in of}
    whole = sum(weights.values())
    if not whole:
        return Decimal(0)
    return work.minutes * sum(weights[one] for one in of if one in mine) / whole


def estimate(job: Job, option: Option, prices: PriceList | None = None) -> Estimate:
    """Return what an option costs, with everything that has no price named.

    Raises
    ------
    InputError
        Where the price list is in another currency than the job.
    """
    known, terms = prices or PriceList(), job.terms
    buying = buy_list(job, option, prices)
    hourly = _rate(terms.hourly, known, HOUR)
    second = _rate(terms.hourly_second, known, SECOND_HOUR)
    second = hourly if second is None else second
    found = works(job, option)
    labour = labour_lines(job, found, hourly)
    extras = tuple(extra_lines(job, found, hourly, second))
    contingency = _contingency(terms, buying, labour, extras)
    sums = tuple(_sums(terms, buying, labour, extras, contingency))
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
        shelf=one_shelf(found, job, option, hourly),
        missing=tuple(missing),
    )


def _rate(said: Decimal | None, known: PriceList, item: str) -> Decimal | None:
    if said is not None:
        return said
    listed = known.of(item)
    return listed.price if listed else None


def _added(amounts: list[Decimal | None]) -> Decimal:
    return sum((one for one in amounts if one is not None), Decimal("0.00"))


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
    net = buying.total + _added(_amounts(labour, extras))
    return ExtraLine(
        what=CONTINGENCY,
        state="counted" if share else "none",
        minutes=Decimal(0),
        amount=_percent(share, net),
        why=f"{share} % of materials, labour and extras" if share else "none, as the job says",
    )


def _sums(
    terms: Terms,
    buying: BuyList,
    labour: tuple[LabourLine, ...],
    extras: tuple[ExtraLine, ...],
    contingency: ExtraLine,
) -> list[SumLine]:
    """Sum up, line by line; the last line is the total."""
    materials = buying.total
    work = _added([line.amount for line in labour])
    more = _added([line.amount for line in (*extras, contingency)])
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
    """Divide a total into its stages.

    What is due up to each stage is rounded, so that the payments add up to the total.
    """
    made, share, before = [], Decimal(0), Decimal("0.00")
    for stage in terms.stages:
        share += stage.share
        due = _percent(share, total)
        made.append(Payment(when=stage.when, share=stage.share, amount=due - before))
        before = due
    return tuple(made)
