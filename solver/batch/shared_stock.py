"""Which jobs can share stock: the same material, as thick, sold in the same sizes at one price."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from solver.carcass.settled_job import depths_of, settled_job
from solver.cutting.cutting_problem import CutPart, CutSheet, StickPart, StickStock
from solver.job.job import Job
from solver.plan.joint_purchase import part_of
from solver.plan.plan import Option
from solver.plan.stocked import Part
from solver.trim.moulding_pieces import moulding_pieces
from solver.units import Ticks, Unit, with_unit

Stock: TypeAlias = CutSheet | StickStock


@dataclass(frozen=True)
class Listed:
    """A job of the batch with all parts that are cut for it.

    Attributes
    ----------
    job
        The job with its sizes settled.
    counts
        Shelves in each bay of each case [-].
    depths
        Inside depth of each case [tick].
    """

    name: str
    job: Job
    counts: Mapping[str, Sequence[int]]
    depths: Mapping[str, Ticks]
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class ChosenJob:
    """A job of the batch and the option that is built."""

    name: str
    job: Job
    option: Option

    @property
    def listed(self) -> Listed:
        """Return the job with all parts that are cut for it."""
        settled, option = settled_job(self.job, self.option), self.option
        return Listed(self.name, settled, option.shelf_counts, depths_of(option), option.parts)


@dataclass(frozen=True)
class SheetPool:
    """Parts of one material of several jobs, and what they may be cut from."""

    material: str
    thickness: Ticks
    parts: tuple[CutPart, ...]
    sheets: tuple[CutSheet, ...]
    jobs: tuple[str, ...]


@dataclass(frozen=True)
class StickPool:
    """Pieces of one moulding of several jobs, and what they may be cut from."""

    material: str
    thickness: Ticks
    pieces: tuple[StickPart, ...]
    sticks: tuple[StickStock, ...]
    jobs: tuple[str, ...]


def batch_parts(listed: Sequence[Listed]) -> tuple[Part, ...]:
    """Return the sheet parts of all jobs, their ids and cases carrying the job's name."""
    return tuple(
        part.model_copy(
            update={"id": part_of(one.name, part.id), "case": part_of(one.name, part.case)}
        )
        for one in listed
        for part in one.parts
    )


def sheet_pools(listed: Sequence[Listed]) -> list[SheetPool]:
    """Return the sheet parts that are cut together, in the order in which materials come up."""
    pools: dict[Hashable, SheetPool] = {}
    for one in listed:
        for material in dict.fromkeys(part.material for part in one.parts):
            mine = tuple(
                CutPart(part_of(one.name, p.id), p.length, p.width, p.grain == "any")
                for p in one.parts
                if p.material == material
            )
            pool = SheetPool(
                material, one.job.thickness(material), mine, _sheets(one.job, material), (one.name,)
            )
            key = (material, pool.thickness, one.job.grain(material), _sold(pool.sheets))
            known = pools.get(key)
            pools[key] = pool if known is None else _joined(known, pool)
    return list(pools.values())


def _sheets(job: Job, material: str) -> tuple[CutSheet, ...]:
    return tuple(
        CutSheet(s.name, s.material, s.length, s.width, s.price, s.on_hand, s.limit)
        for s in job.sheets
        if s.material == material
    )


def _sold(stock: Sequence[Stock]) -> frozenset[tuple[object, ...]]:
    """Return sizes and prices of stock to buy: these must agree for it to be shared."""
    return frozenset((*_size(s), s.price) for s in stock if s.limit != 0)


def _size(stock: Stock) -> tuple[Ticks, Ticks]:
    return stock.length, stock.width if isinstance(stock, CutSheet) else 0


def _joined(one: SheetPool, other: SheetPool) -> SheetPool:
    return replace(
        one,
        parts=(*one.parts, *other.parts),
        sheets=_merged(one.sheets, other.sheets),
        jobs=(*one.jobs, *other.jobs),
    )


def _merged(own: tuple[CutSheet, ...], more: tuple[CutSheet, ...]) -> tuple[CutSheet, ...]:
    """Add the stock of a further job to that of those before: numbers of one size add up."""
    sheets = list(own)
    for sheet in more:
        at = next((i for i, s in enumerate(sheets) if _alike(s, sheet)), None)
        if at is None:
            sheets.append(sheet)
            continue
        sheets[at] = replace(
            sheets[at],
            on_hand=sheets[at].on_hand + sheet.on_hand,
            limit=_added(sheets[at].limit, sheet.limit),
        )
    return tuple(sheets)


def _alike(one: Stock, other: Stock) -> bool:
    """True where two are one size at one price, both sold or both only on hand."""
    same = _size(one) == _size(other) and one.price == other.price
    return same and (one.limit == 0) == (other.limit == 0)


def _added(one: int | None, other: int | None) -> int | None:
    return None if one is None or other is None else one + other


def stick_pools(listed: Sequence[Listed]) -> list[StickPool]:
    """Return the mouldings that are cut together."""
    pools: dict[Hashable, StickPool] = {}
    for one in listed:
        for name, pieces in _pieces(one).items():
            moulding = one.job.moulding(name)
            sticks = tuple(
                StickStock(name, s.length, s.price, s.on_hand, s.limit) for s in moulding.lengths
            )
            pool = StickPool(name, moulding.thickness, tuple(pieces), sticks, (one.name,))
            key = (name, moulding.thickness, moulding.width, _sold(sticks))
            known = pools.get(key)
            pools[key] = pool if known is None else _stick_joined(known, pool)
    return list(pools.values())


def _pieces(one: Listed) -> dict[str, list[StickPart]]:
    found: dict[str, list[StickPart]] = {}
    for case in one.job.cases:
        counts, depth = one.counts[case.name], one.depths[case.name]
        for ident, moulding, length in moulding_pieces(one.job, case, counts, depth):
            piece = StickPart(part_of(one.name, ident), length)
            found.setdefault(moulding, []).append(piece)
    return found


def _stick_joined(one: StickPool, other: StickPool) -> StickPool:
    sticks = list(one.sticks)
    for stick in other.sticks:
        at = next((i for i, s in enumerate(sticks) if _alike(s, stick)), None)
        if at is None:
            sticks.append(stick)
            continue
        sticks[at] = replace(
            sticks[at],
            on_hand=sticks[at].on_hand + stick.on_hand,
            limit=_added(sticks[at].limit, stick.limit),
        )
    return replace(
        one,
        pieces=(*one.pieces, *other.pieces),
        sticks=tuple(sticks),
        jobs=(*one.jobs, *other.jobs),
    )


def sharing_notes(
    pools: Sequence[SheetPool | StickPool], listed: Sequence[Listed], unit: Unit
) -> list[str]:
    """Say which materials of one name are not shared and why, and what on hand adds up."""
    notes = []
    for name in dict.fromkeys(pool.material for pool in pools):
        alike = [pool for pool in pools if pool.material == name]
        if len(alike) > 1:
            terms = "; ".join(f"{', '.join(p.jobs)}: {_terms(p, listed, unit)}" for p in alike)
            notes.append(f"{name} is not shared by all jobs, since it is not the same: {terms}")
        notes += [note for pool in alike for note in _on_hand_notes(pool, listed)]
    return notes


def _terms(pool: SheetPool | StickPool, listed: Sequence[Listed], unit: Unit) -> str:
    stock: Sequence[Stock] = pool.sheets if isinstance(pool, SheetPool) else pool.sticks
    sold = ", ".join(_priced(one, unit) for one in stock if one.limit != 0)
    grain = ""
    if isinstance(pool, SheetPool):
        job = next(one.job for one in listed if one.name == pool.jobs[0])
        grain = ", with grain" if job.grain(pool.material) == "length" else ", without grain"
    return f"{with_unit(pool.thickness, unit)} thick{grain}, {sold or 'none to buy'}"


def _priced(stock: Stock, unit: Unit) -> str:
    size = with_unit(stock.length, unit)
    if isinstance(stock, CutSheet):
        size = f"{size} x {with_unit(stock.width, unit)}"
    return f"{size} at {'no price' if stock.price is None else f'{stock.price:.2f}'}"


def _on_hand_notes(pool: SheetPool | StickPool, listed: Sequence[Listed]) -> list[str]:
    """Say where stock on hand of several jobs adds up: one pile may have been listed twice."""
    of = {one.name: one.job for one in listed}
    listing = [name for name in pool.jobs if _has_on_hand(of[name], pool.material)]
    if len(listing) < 2:
        return []
    return [
        f"{pool.material} on hand is taken as so many for each of {', '.join(listing)}; "
        "where it is one pile, list it in one of the jobs only"
    ]


def _has_on_hand(job: Job, material: str) -> bool:
    if any(sheet.on_hand for sheet in job.sheets if sheet.material == material):
        return True
    return any(
        stick.on_hand for one in job.mouldings if one.name == material for stick in one.lengths
    )
