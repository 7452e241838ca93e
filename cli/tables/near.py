"""Near misses: what a small change of the job would gain; changes that let everything fit."""

from __future__ import annotations

from cli.tables.style import Titled, plain_table
from cli.tables.words import amount, count, listed, plain_name
from solver.plan import Change, Plan
from solver.remarks import NearMiss
from solver.units import with_unit


def near_table(plan: Plan) -> Titled:
    """Return the changes and what each gains against the recommended option."""
    table = plain_table("change", "gains")
    for one in plan.near:
        table.add_row(plain_name(one.text), plain_name(gain(plan, one)))
    room = with_unit(plan.near[0].slack, plan.unit)
    return Titled(f"Near misses (each solved again, with room to spare: {room})", table)


def gain(plan: Plan, one: NearMiss) -> str:
    """Return what a change gains: things let in, shelf counts, sheets and money."""
    said = []
    if dict(plan.options[0].shelf_counts) != dict(one.shelf_counts):
        said.append(f"{_let_in(one)} with {shelves(one.shelf_counts)}")
    return "; ".join([*said, saving(one, plan.job.head.currency)])


def _let_in(one: NearMiss) -> str:
    if not one.lets_in:
        return "everything fits"
    named = listed([f"{number} x {name}" for name, number in one.lets_in.items()])
    return f"{named} {'fits' if sum(one.lets_in.values()) == 1 else 'fit'}"


def shelves(counts: dict[str, tuple[int, ...]]) -> str:
    """Return `4 shelves`, `4 + 5 shelves`, `left 4, right 5 shelves`."""
    if len(counts) == 1:
        (bays,) = counts.values()
        return _bays(bays)
    return ", ".join(f"{name}: {_bays(bays)}" for name, bays in counts.items())


def _bays(bays: tuple[int, ...]) -> str:
    if len(set(bays)) == 1:
        each = count(bays[0], "shelf", "shelves")
        return each if len(bays) == 1 else f"{each} a bay"
    return f"{' + '.join(map(str, bays))} shelves"


def saving(one: NearMiss, currency: str) -> str:
    """Return `1 sheet less, saves $92.00`, `costs $34.00 more` or `costs nothing more`.

    Without prices it may only take no more sheets.
    """
    said = []
    if one.sheets_saved:
        word = "less" if one.sheets_saved > 0 else "more"
        said.append(f"{count(abs(one.sheets_saved), 'sheet')} {word}")
    if one.saves:
        money = amount(abs(one.saves), currency)
        said.append(f"saves {money}" if one.saves > 0 else f"costs {money} more")
    return ", ".join(said) or (
        "takes no more sheets" if one.saves is None else "costs nothing more"
    )


def near_line(note: str | None) -> list[str]:
    """Return the line that stands where there is no near miss."""
    return [f"Near misses: {plain_name(note)}."] if note else []


LENGTHS = ("headroom", "gap", "end margin", "height", "width", "depth", "several")


def would_do(change: Change) -> str:
    """Return `would do: 3/8 in more height (proven least)`."""
    text = f"would do: {change.text}"
    if not change.proven:
        return text
    if change.what in LENGTHS:
        return f"{text} (proven least)"
    return f"{text} (proven fewest)" if change.what == "leave out" else text
