"""A plan made by hand for looking at tables and pictures: plausible, but never decided or checked.

Things are stood left to right in the first opening that is tall and wide enough, and
pieces are laid in rows; nothing here is the best, and nothing here is used to judge a plan.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from solver.carcass.boards_of_case import Box, box, case_parts, load_limit, mass_of, shelf_id
from solver.intake.load import load
from solver.job.case import Case
from solver.job.job import Job
from solver.outcome import Status
from solver.plan.built import Bay, CasePlan, Opening, Placement, Shelf, Size
from solver.plan.plan import Change, Cost, LeftOut, Option, Plan, Scores, ShortBy, Stage, Timing
from solver.plan.saw_cuts import Cut
from solver.plan.stocked import Part, Piece, Sheet
from solver.units import inches

DEMO = Path(__file__).parent.parent / "cli" / "demo" / "clock-alcove.toml"


def sample_job() -> Job:
    """The demo job, read without the command line."""
    return load(tomllib.loads(DEMO.read_text()), "in")


def sample_plan(job: Job | None = None) -> Plan:
    """Two options that work and one that cannot, of any job with plain cases."""
    job = job or sample_job()
    options = [
        sample_option(job, 6, ("recommended", "best-looking")),
        sample_option(job, 7, ("cheapest",)),
        infeasible_option(job, 12),
    ]
    return Plan(
        version="0.1.0",
        unit=job.unit,
        job=job,
        job_hash=job.hash,
        options=tuple(options),
        recommendation="6 shelves is recommended: every kind on one shelf",
        timing=Timing(seconds=1.5),
    )


def renamed(plan: Plan, names: Sequence[str]) -> Plan:
    """The plan's first option alone, the first of its things, from the lowest, named otherwise."""
    option, left = plan.options[0], list(names)
    cases = [
        case.model_copy(update={"bays": tuple(renamed_bay(bay, left) for bay in case.bays)})
        for case in option.cases
    ]
    option = option.model_copy(update={"cases": tuple(cases)})
    return plan.model_copy(update={"options": (option,)})


def renamed_bay(bay: Bay, left: list[str]) -> Bay:
    """The bay with its first things named as in `left`, which is used up."""
    openings = []
    for opening in bay.openings:
        things = tuple(
            thing.model_copy(update={"item": left.pop(0) if left else thing.item})
            for thing in opening.items
        )
        openings.append(opening.model_copy(update={"items": things}))
    return bay.model_copy(update={"openings": tuple(openings)})


def infeasible_option(job: Job, count: int) -> Option:
    """An option that cannot work, with what would make it work."""
    return Option.without_layout(
        f"{count} shelves",
        {case.name: (count,) * case.bay_count for case in job.cases},
        Status.INFEASIBLE,
        "the openings would be lower than the tallest things",
        changes=(
            Change(what="height", by=inches("4-1/2"), text="4-1/2 in more height", proven=True),
        ),
    )


def sample_option(job: Job, count: int, tags: Sequence[str]) -> Option:
    """An option with `count` shelves in each bay, things stood where they first fit."""
    left = {item.name: item.count for item in job.items}
    cases = tuple(sample_case(job, case, count, left) for case in job.cases)
    parts = tuple(
        p for case in job.cases for p in case_parts(job, case, (count,) * case.bay_count, depth())
    )
    sheets = sample_sheets(job, parts)
    price = sum((s.price or Decimal(0) for s in sheets), Decimal(0))
    missing = {name: number for name, number in left.items() if number}
    return Option(
        name=f"{count} shelves",
        shelf_counts={case.name: (count,) * case.bay_count for case in job.cases},
        status=Status.FEASIBLE,
        why=None,
        stages=sample_stages(price),
        cases=cases,
        left_out=tuple(
            LeftOut(item=name, count=number, short_by=ShortBy(height=inches("3/8")))
            for name, number in missing.items()
        ),
        parts=parts,
        sheets=sheets,
        mouldings=(),
        sheet_count=len(sheets),
        sheet_bound=len(sheets) - 1,
        cost=Cost(
            currency=job.head.currency,
            sheets=price,
            mouldings=Decimal("0.00"),
            stock_bound=price - Decimal("38.00"),
            total=price,
            complete=True,
        ),
        scores=Scores(
            places_parted=2,
            steps_range=inches("1/16"),
            steps_mean=inches("2-1/8"),
            outline_missed=2.4,
            headroom_least=inches("1"),
            headroom_typical=inches("2-3/8"),
            headroom_spread=inches("3-1/16"),
            wishes_missed=1,
            fill_least=0.3,
            fill_most=0.88,
            board_used=0.71,
        ),
        tags=tuple(tags),
    )


def sample_stages(price: Decimal) -> tuple[Stage, ...]:
    """One stage of each kind of unit."""
    return (
        Stage(name="fit", value=0, bound=0, proven=True, unit="mm2", sentence="everything fits"),
        Stage(name="price", value=str(price), bound=str(price - 38), proven=False, unit="money"),
        Stage(name="size", value=3.175, bound=3.175, proven=True, unit="mm"),
        Stage(
            name="together",
            value=2,
            bound=2,
            proven=True,
            unit="places",
            sentence="every kind on one shelf but teapot (shelves 1 and 2)",
        ),
        Stage(
            name="steady",
            value=1.5875,
            bound=1.5875,
            proven=True,
            unit="mm",
            sentence="each opening 2-1/8 in lower than the one below",
        ),
        Stage(name="void", value=81250, bound=79000, proven=False, unit="mm2"),
        Stage(name="heavy", value=4200, bound=4200, proven=True, unit="g"),
        Stage(name="composition", value=2.4, bound=None, proven=False, unit="%"),
    )


def depth() -> int:
    """Inside depth of all sample cases [tick]."""
    return inches("11-1/2")


def sample_case(job: Job, case: Case, count: int, left: dict[str, int]) -> CasePlan:
    """A case with shelves; takes what it holds out of `left`."""
    sizes = box(job, case, depth())
    bays = tuple(
        sample_bay(job, case, sizes, number, count, left) for number in range(1, case.bay_count + 1)
    )
    return CasePlan(
        name=case.name,
        kind=case.kind,
        above_floor=case.above_floor,
        outside=Size(
            width=sizes.outside_width, height=sizes.outside_height, depth=sizes.outside_depth
        ),
        bays=bays,
    )


def sample_bay(
    job: Job, case: Case, sizes: Box, number: int, count: int, left: dict[str, int]
) -> Bay:
    """One bay: openings that fall steadily, the lowest twice the top, marks on marking steps."""
    x, width = sizes.bays[number - 1]
    t, step = sizes.thickness, job.head.marking_step
    room = sizes.inside_height - count * t
    weights = [2.0 - k / count for k in range(count + 1)]
    marks, at = [], float(sizes.floor)
    for weight in weights[:-1]:
        at += room * weight / sum(weights)
        marks.append(round(at / step) * step)
        at += t
    floors = [sizes.floor, *(mark + t for mark in marks)]
    ceilings = [*marks, sizes.floor + sizes.inside_height]
    openings = tuple(
        sample_opening(job, index, floor, ceiling - floor, width, left)
        for index, (floor, ceiling) in enumerate(zip(floors, ceilings, strict=True))
    )
    shelves = tuple(
        Shelf(
            index=k,
            underside=mark,
            top=mark + t,
            thickness=t,
            depth=sizes.depth,
            part=f"{case.name}/{shelf_id(case, number, k)}",
        )
        for k, mark in enumerate(marks, start=1)
    )
    inside = Size(width=width, height=sizes.inside_height, depth=sizes.depth)
    return Bay(number=number, x=x, inside=inside, openings=openings, shelves=shelves)


def sample_opening(
    job: Job, index: int, floor: int, height: int, width: int, left: dict[str, int]
) -> Opening:
    """One opening, filled left to right with what still fits."""
    x = job.look.end_margin
    items: list[Placement] = []
    for item in sorted(job.items, key=lambda i: -i.height):
        while left[item.name] and item.height + job.look.headroom <= height:
            if x + item.width + job.look.end_margin > width:
                break
            mass, assumed = mass_of(job, item)
            items.append(
                Placement(
                    item=item.name,
                    number=item.count - left[item.name] + 1,
                    x=x,
                    y=0,
                    z=0,
                    row=1,
                    on=None,
                    lying=False,
                    width=item.width,
                    height=item.height,
                    depth=item.depth,
                    headroom=height - item.height,
                    mass=mass,
                    mass_assumed=assumed,
                )
            )
            left[item.name] -= 1
            x += item.width + job.look.gap // 2
    return Opening(
        index=index,
        floor=floor,
        height=height,
        lip_above_floor=0,
        lip_below_ceiling=0,
        items=tuple(items),
        fill=sum(i.width for i in items) / width,
        load=sum(i.mass for i in items),
        load_limit=load_limit(job, width, depth()),
    )


def sample_sheets(job: Job, parts: Sequence[Part]) -> tuple[Sheet, ...]:
    """Pieces laid in rows across as many sheets as it takes."""
    return tuple(
        sheet
        for material in dict.fromkeys(part.material for part in parts)
        for sheet in material_sheets(job, material, [p for p in parts if p.material == material])
    )


def material_sheets(job: Job, material: str, parts: Sequence[Part]) -> list[Sheet]:
    """Rows along the length, the widest parts first."""
    stock = next(s for s in job.sheets if s.material == material)
    trim, kerf = job.shop.edge_trim, job.shop.kerf
    sheets: list[list[Piece]] = [[]]
    x = y = trim
    row = 0
    for part in sorted(parts, key=lambda p: (-p.width, -p.length)):
        if x + part.length > stock.length - trim:
            x, y = trim, y + row + kerf
            row = 0
        if y + part.width > stock.width - trim:
            sheets.append([])
            x = y = trim
            row = 0
        sheets[-1].append(
            Piece(part=part.id, x=x, y=y, length=part.length, width=part.width, turned=False)
        )
        x, row = x + part.length + kerf, max(row, part.width)
    return [
        Sheet(
            stock=stock.name,
            material=material,
            length=stock.length,
            width=stock.width,
            edge_trim=trim,
            kerf=kerf,
            margin=job.shop.margin,
            price=stock.price,
            on_hand=False,
            first_cut="rip",
            pieces=tuple(pieces),
            cuts=(
                Cut(
                    number=1,
                    kind="trim",
                    direction="rip",
                    at=0,
                    start=0,
                    end=stock.length,
                    setting=trim,
                ),
            ),
        )
        for pieces in sheets
    ]
