"""Rules on a trade-off front: each option as any plan, then what the options are to each other.

That no option is missing cannot be seen from the front alone; that none of those shown is
beaten by another can.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from solver.checking.check import check
from solver.checking.findings import Code, Finding, finding
from solver.checking.look_scores import places_parted
from solver.checking.structure import view
from solver.checking.views import OptionView, same
from solver.plan.price_front import FrontPoint, TradeOff
from solver.units import TICKS_PER_MM

WHERE = "the front"
AREA_NEAR = 1e-5
"""Areas in square metres are written to six places [m²]."""
MARKS = ("recommended", "cheapest", "best-looking")


def check_front(front: TradeOff) -> tuple[Finding, ...]:
    """Check a front from itself alone: every option as a plan, then its figures as a front."""
    plans = list(zip(front.points, front.plans(), strict=True))
    of_plans = [_placed(point, one) for point, plan in plans for one in check(plan)]
    views = [(point, view(plan, plan.options[0])) for point, plan in plans]
    whole = [(point, seen) for point, seen in views if seen.whole]
    figures = [f for point, seen in whole for rule in POINT_RULES for f in rule(point, seen)]
    return (*of_plans, *figures, *(f for rule in RULES for f in rule(front)))


def _placed(point: FrontPoint, one: Finding) -> Finding:
    """Say of which option: several may have one name."""
    number = f"no. {point.number}, "
    return replace(one, where=number + one.where, text=number + one.text)


def _at(point: FrontPoint) -> str:
    return f"no. {point.number}"


def price(point: FrontPoint, seen: OptionView) -> Iterator[Finding]:
    """The price is that of the option's sheets and mouldings, and the area that without price."""
    cost = seen.option.cost
    needs = None if cost is None else cost.sheets + cost.mouldings
    yield from same(Code.FRONT_PRICE, _at(point), "price", needs, point.price)
    bought = [s for s in seen.option.sheets if not s.on_hand and s.price is None]
    area = sum(s.length * s.width for s in bought) / (1000 * TICKS_PER_MM) ** 2
    if not abs(area - point.area) <= AREA_NEAR:
        what = "area bought without a price"
        yield finding(Code.FRONT_PRICE, _at(point), what, f"{area:.6f} m²", f"{point.area:.6f} m²")


def parted(point: FrontPoint, seen: OptionView) -> Iterator[Finding]:
    """The places parted are those of the option."""
    needs = places_parted(seen)
    yield from same(Code.FRONT_PARTED, _at(point), "places parted", needs, point.places_parted)


def order(front: TradeOff) -> Iterator[Finding]:
    """Options are numbered from 1, the cheapest first."""
    numbers = list(range(1, len(front.points) + 1))
    has = [point.number for point in front.points]
    yield from same(Code.FRONT_ORDER, WHERE, "numbers", numbers, has)
    costs = [_cost(point) for point in front.points]
    if costs != sorted(costs):
        yield finding(Code.FRONT_ORDER, WHERE, "order", "cheapest first", "another")


def _cost(point: FrontPoint) -> tuple[float, Decimal]:
    """Area bought without a price, then the price: where some has none, that is compared first."""
    return point.area, point.price


def beaten(front: TradeOff) -> Iterator[Finding]:
    """None is beaten by another, or its twin: as good in price and in places parted."""
    for at, one in enumerate(front.points):
        for other in (*front.points[:at], *front.points[at + 1 :]):
            if _cost(other) <= _cost(one) and other.places_parted <= one.places_parted:
                what = "price and places parted"
                yield finding(
                    Code.FRONT_BEATEN, _at(one), what, "not beaten", f"beaten by no. {other.number}"
                )
                break


def bounds(front: TradeOff) -> Iterator[Finding]:
    """No bound is above what it bounds; what is called proven meets its bounds."""
    for point in front.points:
        pairs: dict[str, tuple[Decimal, Decimal]] = {
            "price": (point.price_bound, point.price),
            "places parted": (Decimal(point.parted_bound), Decimal(point.places_parted)),
        }
        for what, (least, value) in pairs.items():
            if least > value:
                yield finding(
                    Code.FRONT_BOUND, _at(point), f"bound of {what}", f"{value} or less", f"{least}"
                )
            elif point.proven and least != value:
                yield finding(
                    Code.FRONT_BOUND, _at(point), f"proven {what}", f"bound {value}", f"{least}"
                )


def marks(front: TradeOff) -> Iterator[Finding]:
    """One option is recommended, one the cheapest, one the best-looking; cheapest is cheapest."""
    if not front.points:
        return
    for mark in MARKS:
        has = [point for point in front.points if mark in point.option.tags]
        yield from same(Code.FRONT_MARKS, WHERE, f"options marked {mark}", 1, len(has))
        least = min(_cost(point) for point in front.points)
        if mark == "cheapest" and any(_cost(point) != least for point in has):
            yield finding(Code.FRONT_MARKS, WHERE, "cheapest option", f"{least[1]}", "a dearer one")


def premium(front: TradeOff) -> Iterator[Finding]:
    """The premium is the price less that of the recommended one; none where that is less."""
    best = front.tagged("recommended")
    for point in front.points if best is not None else ():
        assert best is not None
        more = point.price - best.price
        shown = more >= 0 and not point.area and not best.area
        needs = more if shown else None
        yield from same(Code.FRONT_PREMIUM, _at(point), "premium", needs, point.premium)


def complete(front: TradeOff) -> Iterator[Finding]:
    """It is called complete only where all is proven, and nothing was left open or untried."""
    whole = all(point.proven for point in front.points)
    needs = whole and not front.open_parts and not front.not_tried and not front.stopped
    if front.complete and not needs:
        yield finding(
            Code.FRONT_COMPLETE, WHERE, "complete", "false, since something is open", "true"
        )


def job_hash(front: TradeOff) -> Iterator[Finding]:
    """The hash is that of the job, also where there is no option."""
    if not front.points:
        yield from same(Code.PLAN_JOB_HASH, WHERE, "job_hash", front.job.hash, front.job_hash)


POINT_RULES = (price, parted)
"""Rules on one option of the front."""
RULES = (order, beaten, bounds, marks, premium, complete, job_hash)
"""Rules on the front."""
