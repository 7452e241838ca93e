"""What has changed since the plan before: marks, things, parts, and the figures side by side."""

from __future__ import annotations

from collections.abc import Iterator

from cli.screen.console import Titled, plain_table
from cli.screen.wording import NONE, amount, count, plain_name
from solver.plan.compared import ComparedFigures, Comparison, OpeningPlace
from solver.plan.plan import Plan
from solver.units import Ticks, Unit, caliper, format_length, with_unit

_MARKS = ("shelf", "mark before", "mark now", "moves")


def changed_tables(plan: Plan) -> list[Titled]:
    """Return the tables of what has changed; none where there was no plan before."""
    compared = plan.comparison
    if compared is None:
        return []
    single = len(plan.job.cases) == 1 and len(plan.options[0].cases[0].bays) == 1
    return [_figures(plan, compared), *moved_tables(compared, plan.unit, single=single)]


def moved_tables(compared: Comparison, unit: Unit, *, single: bool) -> list[Titled]:
    """Return the tables of the shelves, things and parts that differ, as far as there are any.

    `single` says that there is one bay, which then needs no name.
    """
    tables = []
    if compared.marks:
        tables.append(_marks(compared, unit, single=single))
    if compared.things:
        tables.append(_things(compared, single=single))
    if compared.parts:
        tables.append(_parts(compared, unit))
    return tables


def changed_line(compared: Comparison, unit: Unit) -> str:
    """Say in one sentence what moved and what did not."""
    shelves = _of(len(compared.marks), compared.marks_kept, "shelf", "shelves")
    moving = sum(one.count for one in compared.things if one.from_ and one.to)
    things = _of(moving, compared.things_kept, "thing", "things")
    measured = "".join(
        f"{plain_name(one.material)} is {caliper(one.after, unit)} thick, "
        f"not {caliper(one.before, unit)}: "
        for one in compared.measured
    )
    sentence = f"{measured}{shelves} moved, {things} moved."
    return sentence if measured else sentence[0].upper() + sentence[1:]


def freely_line(plan: Plan) -> list[str]:
    """Say how to see what it would gain to let everything move, where that could be something."""
    compared = plan.comparison
    least = any(stage.name == "marks moved" for stage in plan.options[0].stages)
    if compared is None or not least or not plan.job.holds:
        return []
    worse = _worse(compared.before, compared.after)
    if not worse:
        return []
    return [
        f"{worse} because as little as possible was moved; with --anew everything "
        "that is not held may move, and the gain is shown."
    ]


def _worse(was: ComparedFigures, now: ComparedFigures) -> str:
    """Say what looks worse than before: more is parted, or the steps differ more."""
    if (now.places_parted or 0) > (was.places_parted or 0):
        return "More is parted"
    more = (now.steps_range or 0) > (was.steps_range or 0)
    return "The openings fall less steadily" if more else ""


def _of(moved: int, kept: int, one: str, many: str) -> str:
    if not moved:
        return f"no {one}"
    whole = moved + kept
    return f"{moved} of {whole} {one if whole == 1 else many}"


def _figures(plan: Plan, compared: Comparison) -> Titled:
    table = plain_table("", "before", "now", "change", right=("before", "now", "change"))
    for row in _rows(plan, compared.before, compared.after):
        table.add_row(*row)
    was, now = plain_name(compared.option), plain_name(plan.options[0].name)
    title = f"Before and now ({was})" if was == now else f"Before ({was}) and now ({now})"
    return Titled(title, table)


def _rows(
    plan: Plan, was: ComparedFigures, now: ComparedFigures
) -> Iterator[tuple[str, str, str, str]]:
    unit, currency = plan.unit, plan.job.head.currency
    if was.price is not None and now.price is not None:
        way = now.price - was.price
        sign = "+" if way > 0 else "−"
        change = f"{sign}{amount(abs(way), currency)}" if way else "same"
        yield "price", amount(was.price, currency), amount(now.price, currency), change
    yield "sheets", str(was.sheets), str(now.sheets), _signed(now.sheets - was.sheets)
    if was.places_parted is not None and now.places_parted is not None:
        parted = now.places_parted - was.places_parted
        yield "places parted", str(was.places_parted), str(now.places_parted), _signed(parted)
    lengths = (
        ("steps differ by", was.steps_range, now.steps_range),
        ("least headroom", was.headroom_least, now.headroom_least),
        ("air differs by", was.headroom_spread, now.headroom_spread),
    )
    for label, before, after in lengths:
        yield label, _length(before, unit), _length(after, unit), _change(before, after, unit)


def _signed(number: int) -> str:
    return "same" if not number else f"{'+' if number > 0 else '−'}{abs(number)}"


def _length(value: Ticks | None, unit: Unit) -> str:
    return NONE if value is None else with_unit(value, unit)


def _change(before: Ticks | None, after: Ticks | None, unit: Unit) -> str:
    if before is None or after is None:
        return NONE
    if before == after:
        return "same"
    sign = "+" if after > before else "−"
    return f"{sign}{with_unit(abs(after - before), unit)}"


def _marks(compared: Comparison, unit: Unit, *, single: bool) -> Titled:
    table = plain_table(*_MARKS, right=_MARKS[1:])
    for one in compared.marks:
        where = "" if single else f"{plain_name(one.case)}/{one.bay} "
        way = one.after - one.before
        table.add_row(
            f"{where}shelf {one.shelf}",
            format_length(one.before, unit),
            format_length(one.after, unit),
            f"{'up' if way > 0 else 'down'} {format_length(abs(way), unit)}",
        )
    return Titled(f"Shelves that moved ({unit}, underside from the bottom end of the side)", table)


def _things(compared: Comparison, *, single: bool) -> Titled:
    table = plain_table("things", "from opening", "to opening")
    for one in compared.things:
        name = plain_name(one.item)
        many = name if one.count == 1 else f"{one.count} x {name}"
        source = _place(one.from_, "new", single=single)
        table.add_row(many, source, _place(one.to, "left out or gone", single=single))
    return Titled("Things that changed their opening", table)


def _place(where: OpeningPlace | None, nowhere: str, *, single: bool) -> str:
    if where is None:
        return nowhere
    return (
        str(where.opening) if single else f"{plain_name(where.case)}/{where.bay}: {where.opening}"
    )


def _parts(compared: Comparison, unit: Unit) -> Titled:
    single = len({one.part.rpartition("/")[0] for one in compared.parts}) == 1
    table = plain_table("part", "cut before", "cut now")
    groups: dict[tuple[str, str], list[str]] = {}
    for one in compared.parts:
        was = _size(one.length_before, one.width_before, unit)
        groups.setdefault((was, _size(one.length, one.width, unit)), []).append(
            one.part.partition("/")[2] if single else one.part
        )
    for (was, now), parts in groups.items():
        table.add_row(", ".join(map(plain_name, parts)), was, now)
    changed = count(len(compared.parts), "part")
    return Titled(f"Parts cut to another size ({changed}, {unit}, length x width)", table)


def _size(length: Ticks | None, width: Ticks | None, unit: Unit) -> str:
    if length is None or width is None:
        return NONE
    return f"{format_length(length, unit)} x {format_length(width, unit)}"
