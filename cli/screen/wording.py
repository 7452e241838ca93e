"""Words and figures as people in the trade read them, in the job's unit and its terms.

Bays that are alike are shown once, and parts that are alike are counted.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from solver.outcome import Status
from solver.plan.built import Bay, CasePlan
from solver.plan.plan import Option, ShortBy, Stage
from solver.plan.stocked import Part
from solver.units import (
    TICKS_PER_MM,
    Grams,
    Ticks,
    Unit,
    format_length,
    format_mass,
    with_unit,
)
from solver.words import word as word

_CURRENCY = {"USD": "$", "GBP": "£", "EUR": "€"}

MM_PER_INCH = 25.4

UNIT_NAMES: dict[Unit, str] = {"in": "inches", "mm": "millimetres"}
NONE = "–"
"""What stands in a cell that has no value."""


def plain_name(name: str) -> str:
    """Return a name with everything that could steer a terminal made visible as `?`."""
    return "".join(sign if sign.isprintable() else "?" for sign in name)


def amount(value: Decimal, currency: str) -> str:
    """Return an amount of money, `$92.00` or `CAD 92.00`."""
    sign = _CURRENCY.get(currency)
    return f"{sign}{value:,.2f}" if sign else f"{currency} {value:,.2f}"


def percent(share: float) -> str:
    """Return a share [-] in whole per cent."""
    return f"{share * 100:.0f} %"


_MILLILITRES_PER_OUNCE = 29.5735
"""A US fluid ounce [ml]."""


def measured(counted: str, amount: int, unit: Unit) -> str:
    """Return so much of what is counted: fluid ounces and feet in an inch job, else ml and m."""
    if counted == "ml":
        return f"{amount} ml" if unit == "mm" else f"{amount / _MILLILITRES_PER_OUNCE:.0f} fl oz"
    if counted == "mm":
        return f"{amount / 1000:.2g} m" if unit == "mm" else f"{amount / 304.8:.1f} ft"
    return str(amount)


def count(number: int, one: str, many: str | None = None) -> str:
    """Return `1 shelf`, `2 shelves`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(words: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def triple(sizes: tuple[Ticks, Ticks, Ticks], unit: Unit) -> str:
    """Return width x height x depth [tick] without the unit."""
    return " x ".join(format_length(size, unit) for size in sizes)


def of_stage(value: float | str | None, stage: Stage, unit: Unit, currency: str) -> str:
    """Return a stage's value or bound in the job's unit."""
    if value is None:
        return NONE
    if stage.unit == "money":
        return amount(Decimal(str(value)), currency)
    try:
        number = float(value)
    except ValueError:  # several figures, such as the areas left out by how dear they are
        return str(value)
    if stage.unit == "mm":
        return with_unit(round(number * TICKS_PER_MM), unit)
    if stage.unit == "mm2":
        return _area(number, unit)
    if stage.unit == "g":
        return mass_text(round(number), unit)
    if stage.unit == "%":
        return f"{number:g} %"
    return f"{number:g}"


def _area(square_mm: float, unit: Unit) -> str:
    """Return an area [mm2] in square inches, or in square centimetres."""
    if unit == "in":
        return f"{square_mm / MM_PER_INCH**2:,.0f} in²"
    return f"{square_mm / 100:,.0f} cm²"


def tag_words(option: Option) -> tuple[str, ...]:
    """Return what an option is; nothing is called cheapest where prices are missing."""
    priced = option.cost is not None and option.cost.complete
    return tuple(t if t != "cheapest" or priced else "least stock" for t in option.tags)


def status_text(option: Option, unit: Unit, currency: str) -> str:
    """Return the status in plain words, with what is still open on price."""
    if option.status is Status.OPTIMAL:
        return "proven: not everything can fit" if option.left_out else "proven best"
    if option.status is Status.INFEASIBLE:
        return "cannot work"
    if option.status is Status.UNKNOWN:
        return "not settled by the limit"
    return f"best found{_gap(option, unit, currency)}"


def _gap(option: Option, unit: Unit, currency: str) -> str:
    """Say by how much the first stage without proof may still be beaten."""
    for stage in option.stages:
        if stage.proven:
            continue
        if stage.unit == "money" and stage.value is not None and stage.bound is not None:
            gap = Decimal(str(stage.value)) - Decimal(str(stage.bound))
            if not gap:  # sheets without a price are compared by area
                return ", least stock not proven"
            return f", {stage.name} within {amount(gap, currency)} of the bound"
        if stage.value is not None and stage.bound is not None:
            gap_text = of_stage(float(stage.value) - float(stage.bound), stage, unit, currency)
            return f", {stage.name} within {gap_text} of the bound"
        return f", {stage.name} without a bound"
    return ""


def short_text(short: ShortBy, unit: Unit) -> str:
    """Say by how much a thing does not fit, in each direction by itself."""
    texts = [
        f"{with_unit(length, unit)} {phrase}"
        for length, phrase in (
            (short.width, "too wide"),
            (short.height, "too high"),
            (short.depth, "too deep"),
        )
        if length
    ]
    if short.load:
        texts.append(f"{mass_text(short.load, unit)} too heavy")
    return ", ".join(texts) or "no place left"


def mass_text(grams: Grams, unit: Unit) -> str:
    """Return a mass [g] in the job's unit."""
    return format_mass(grams, unit)


T = TypeVar("T")


def grouped(things: Iterable[T], key: Callable[[T], Hashable]) -> list[list[T]]:
    """Return the things in groups of equal key, in the order in which keys first appear."""
    groups: dict[Hashable, list[T]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return list(groups.values())


@dataclass(frozen=True)
class AlikeBays:
    """Bays of one case with the same shelves at the same heights."""

    case: CasePlan
    bays: tuple[Bay, ...]

    @property
    def first(self) -> Bay:
        """The bay that stands for all."""
        return self.bays[0]

    def label(self, option: Option) -> str:
        """Return which bays these are; empty where the option has only one."""
        names = [] if len(option.cases) == 1 else [self.case.name]
        if len(self.case.bays) > 1:
            numbers = ", ".join(str(bay.number) for bay in self.bays)
            names.append(f"bay{'s' if len(self.bays) > 1 else ''} {numbers}")
        return ", ".join(names)


def alike_bays(option: Option) -> list[AlikeBays]:
    """Return the bays of all cases, those with the same marks and heights together."""
    return [
        AlikeBays(case, tuple(bays))
        for case in option.cases
        for bays in grouped(case.bays, _heights)
    ]


def _heights(bay: Bay) -> Hashable:
    return tuple((opening.floor, opening.height) for opening in bay.openings)


def alike_parts(parts: Sequence[Part]) -> list[list[Part]]:
    """Return parts that are cut alike together, whatever they are called within the case."""
    return grouped(parts, lambda part: part.model_copy(update={"id": ""}))
