"""The estimate of an option."""

from __future__ import annotations

from decimal import Decimal

from solver.bought import BuyList
from solver.buying.buy_list import buy_list
from solver.estimate.labour import extra_lines, labour_lines, one_shelf
from solver.estimated import Estimate, ExtraLine, LabourLine, Payment, SumLine, to_cents
from solver.job import Job
from solver.labour.works import works
from solver.labour_table import CONTINGENCY
from solver.plan import Option
from solver.price_list import HOUR, SECOND_HOUR, PriceList
from solver.terms import Terms


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
