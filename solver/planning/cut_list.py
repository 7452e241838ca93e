"""A list of parts cut without any case: what is asked, and a cutting problem a material."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeAlias

from solver.cutting.cutting_problem import (
    CutPart,
    CutSheet,
    CuttingProblem,
    FirstCut,
    Stages,
    StickPart,
    StickProblem,
    StickStock,
)
from solver.job.assumed import explicit_defaults
from solver.job.job import Saw, Shop
from solver.plan.stocked import Allowance, Part
from solver.units import Ticks, Unit, format_length, with_unit

GrainWord: TypeAlias = Literal["length", "width", "any"]
NO_MATERIAL = "sheet"
"""Material of parts that name none."""


@dataclass(frozen=True)
class PartRow:
    """One row: so many alike parts.

    Attributes
    ----------
    names
        Of the single pieces: part#1, part#2, …
    length, width, thickness
        As written; width 0 for mouldings, thickness 0 where there is none [tick].
    mitres
        Mitred ends of a piece of moulding [-].
    set
        Name of the set that is wished from one sheet, in the order of the list.
    """

    part: str
    names: tuple[str, ...]
    length: Ticks
    width: Ticks
    material: str
    thickness: Ticks
    grain: GrainWord
    mitres: int
    set: str | None = None


@dataclass(frozen=True)
class StockOption:
    """A size that may be bought; `width` is 0 for mouldings [tick]."""

    text: str
    length: Ticks
    width: Ticks
    price: Decimal | None
    limit: int | None


@dataclass(frozen=True)
class CutList:
    """A list of parts with its stock and how it is to be cut; lengths in ticks [tick].

    Attributes
    ----------
    mitre
        Added to a piece of moulding for each mitred end [tick].
    saws
        Saws there are; empty: those of the defaults.
    """

    rows: list[PartRow]
    stock: list[StockOption]
    unit: Unit
    kerf: Ticks
    edge_trim: Ticks
    margin: Ticks
    mitre: Ticks
    turn: bool
    stages: Stages
    first: FirstCut
    mouldings: bool
    saws: tuple[Saw, ...] = ()
    trimming: bool = True


def parts_of(job: CutList) -> tuple[Part, ...]:
    """Return the single pieces as the plan's parts."""
    return tuple(_part(job, row, name) for row in job.rows for name in row.names)


def _part(job: CutList, row: PartRow, name: str) -> Part:
    extra = row.mitres * job.mitre
    return Part(
        id=name,
        name=row.part,
        case="",
        material=row.material or ("moulding" if job.mouldings else NO_MATERIAL),
        length=row.length + extra,
        width=row.width,
        thickness=row.thickness,
        grain=row.grain,
        allowances=(Allowance(what="mitre", length=extra),) if extra else (),
        set=row.set,
    )


def _by_material(parts: tuple[Part, ...]) -> dict[tuple[str, Ticks], list[Part]]:
    """Parts by material and thickness: each is bought for itself."""
    groups: dict[tuple[str, Ticks], list[Part]] = {}
    for part in parts:
        groups.setdefault((part.material, part.thickness), []).append(part)
    return groups


def sheet_problems(job: CutList, parts: tuple[Part, ...]) -> list[CuttingProblem]:
    """Return the problem of each material and thickness of board."""
    problems = []
    for (material, thickness), some in _by_material(parts).items():
        label = _label(job, material, thickness)
        problems.append(
            CuttingProblem(
                parts=tuple(
                    CutPart(p.id, p.width, p.length, may_turn=False, set=p.set)
                    if p.grain == "width"
                    else CutPart(p.id, p.length, p.width, job.turn and p.grain == "any", p.set)
                    for p in some
                ),
                sheets=tuple(
                    CutSheet(
                        f"{label}{_size(s, job.unit)}",
                        material,
                        s.length,
                        s.width,
                        s.price,
                        limit=s.limit,
                    )
                    for s in job.stock
                ),
                kerf=job.kerf,
                edge_trim=job.edge_trim,
                margin=job.margin,
                stages=job.stages,
                trimming=job.trimming,
                first_cut=job.first,
                unit=job.unit,
            )
        )
    return problems


def stick_problems(job: CutList, parts: tuple[Part, ...]) -> list[StickProblem]:
    """Return the problem of each moulding."""
    return [
        StickProblem(
            pieces=tuple(StickPart(p.id, p.length) for p in some),
            sticks=tuple(
                StickStock(
                    f"{_label(job, material, thickness)}{with_unit(s.length, job.unit)}",
                    s.length,
                    s.price,
                    limit=s.limit,
                )
                for s in job.stock
            ),
            kerf=job.kerf,
            unit=job.unit,
            margin=job.margin,
        )
        for (material, thickness), some in _by_material(parts).items()
    ]


def _label(job: CutList, material: str, thickness: Ticks) -> str:
    """Name what is bought, as far as the list names it: `oak ply 18 mm, `."""
    words = [] if material in (NO_MATERIAL, "moulding") else [material]
    words += [with_unit(thickness, job.unit)] if thickness else []
    return " ".join(words) + ", " if words else ""


def _size(stock: StockOption, unit: Unit) -> str:
    return f"{format_length(stock.length, unit)} x {with_unit(stock.width, unit)}"


def shop_of(job: CutList) -> Shop:
    """Return the shop that the cuts are meant for: that of the defaults, with the saws named."""
    return Shop.model_validate(
        {
            **explicit_defaults("shop", job.unit),
            **({"saws": job.saws} if job.saws else {}),
            "kerf": job.kerf,
            "edge_trim": job.edge_trim,
            "margin": job.margin,
            "stages": job.stages,
            "trimming": job.trimming,
            "first_cut": job.first,
        }
    )
