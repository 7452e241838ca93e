"""What pieces on hand are used for, what is left of them, and which sizes and marks they settle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from solver.carcass.outline import back_counted, boards_added, boards_counted
from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.intake.load import load
from solver.job.case import Case
from solver.job.have import SIZE_TOLERANCE, Have, shelf_of, stock_name
from solver.job.holds import Hold
from solver.job.job import Job
from solver.plan.on_hand import (
    HaveOutcome,
    UnusedPieces,
    UsedPiece,
    is_moulding,
    material_of,
    size_of,
)
from solver.plan.plan import Option
from solver.plan.stocked import Part, Sheet, Stick
from solver.sizing.on_hand_use import pieces_on_hand
from solver.units import Ticks, with_unit

OPEN = ("depth", "width", "height")
"""Sizes of a case that a part may settle."""


def sticks_around(job: Job, problem: StickProblem) -> tuple[StickProblem, list[UsedPiece]]:
    """Return the problem of a moulding around what is there of it, and what serves as it is.

    Pieces are stock at no price: a stick has neither trim nor margin, so that cutting down
    is one way of cutting it.
    """
    name = problem.sticks[0].stock
    left, used, loose = list(problem.pieces), [], []
    waiting = pieces_on_hand(job, name)
    for exact in (True, False):
        rest = []
        for piece in waiting:
            part = next((one for one in left if _serves(piece.have, piece.size, one, exact)), None)
            if part is None:
                rest.append(piece)
                continue
            left.remove(part)
            used.append(UsedPiece(have=piece.number, part=part.id, how="as it is"))
        waiting = rest
    loose = [piece.size[0] for piece in waiting if piece.size]
    stock = tuple(
        StickStock(name, length, None, on_hand=count, limit=0)
        for length, count in sorted(Counter(loose).items())
        if any(length >= part.length for part in left)
    )
    sticks = (*problem.sticks, *stock)
    return replace(problem, pieces=tuple(left), sticks=sticks), used


def _serves(have: Have, size: tuple[Ticks, Ticks] | None, part: StickPart, exact: bool) -> bool:
    if size is not None and abs(size[0] - part.length) > SIZE_TOLERANCE:
        return False
    if have.what == "cut" and (have.name == part.id if exact else _any_lip(have, part)):
        return True
    return size is not None and not exact


def _any_lip(have: Have, part: StickPart) -> bool:
    return part.id.startswith(f"{have.part_case}/lip") and have.name == f"{have.part_case}/lip"


def outcome(
    job: Job,
    parts: Sequence[Part],
    used: Sequence[UsedPiece],
    sheets: Sequence[Sheet],
    sticks: Sequence[Stick],
) -> HaveOutcome:
    """Return what is used for what, what is left over, and what is cut again."""
    taken = Counter(one.have for one in used)
    taken.update(_sawn(job, sheets))
    taken.update(_sticks_sawn(job, sticks))
    done, ids = {one.part for one in used}, {part.id for part in parts}
    left = [
        UnusedPieces(have=number, count=have.count - taken[number], why=_why(job, have))
        for number, have in enumerate(job.have, start=1)
        if have.count > taken[number] and size_or_part(job, have)
    ]
    again = [
        have.name
        for have in job.have
        if have.what in ("short", "spoiled") and have.name in ids - done
    ]
    return HaveOutcome(used=tuple(used), left=tuple(left), again=tuple(dict.fromkeys(again)))


def size_or_part(job: Job, have: Have) -> bool:
    """Whether there is anything: a part that is spoiled, of no size, is gone."""
    return have.what != "spoiled" or size_of(job, have) is not None


def _why(job: Job, have: Have) -> str | None:
    if have.what == "fixed":
        return "the case as planned has no such shelf"
    if size_of(job, have) is None:
        return "the job as planned has no such part"
    return None


def _sawn(job: Job, sheets: Iterable[Sheet]) -> list[int]:
    numbers = {stock_name(have, n): n for n, have in enumerate(job.have, start=1)}
    return [numbers[sheet.stock] for sheet in sheets if sheet.on_hand and sheet.stock in numbers]


def _sticks_sawn(job: Job, sticks: Iterable[Stick]) -> list[int]:
    """Which pieces of moulding sticks were cut from: of one length, the job's own go first."""
    own = Counter(
        (moulding.name, stick.length)
        for moulding in job.mouldings
        for stick in moulding.lengths
        for _ in range(stick.on_hand)
    )
    there = {
        (material_of(job, have), have.length, number): have.count
        for number, have in enumerate(job.have, start=1)
        if is_moulding(job, material_of(job, have))
    }
    found = []
    for stick in sticks:
        if not stick.on_hand:
            continue
        if own[stick.stock, stick.length]:
            own[stick.stock, stick.length] -= 1
            continue
        key = next(k for k, n in there.items() if n and k[:2] == (stick.stock, stick.length))
        there[key] -= 1
        found.append(key[2])
    return found


def settled_by_on_hand(job: Job) -> tuple[Job, tuple[str, ...]]:
    """Return the job with what pieces on hand settle: sizes they were cut to, fixed shelves.

    An open size is settled by the smallest part that was cut to a size within its range; larger
    parts are cut down. Also returned is what is held, in words.
    """
    if not job.have:
        return job, ()
    sizes, said = _settled_sizes(job)
    holds = [hold for have in job.have if (hold := _hold(have)) is not None]
    given = {hold.subject for hold in job.holds}
    holds = [hold for hold in holds if hold.subject not in given]
    said += [hold.text(job.unit) for hold in holds]
    if not sizes and not holds:
        return job, ()
    cases = [
        case.model_copy(
            update={axis: size for (name, axis), size in sizes.items() if name == case.name}
        )
        for case in job.cases
    ]
    data = job.model_dump(by_alias=True)
    data["case"] = [case.model_dump() for case in cases]
    data["hold"] = [hold.model_dump() for hold in (*job.holds, *holds)]
    return load(data), tuple(said)


def _hold(have: Have) -> Hold | None:
    shelf = shelf_of(have)
    if have.what != "fixed" or have.mark is None or shelf is None:
        return None
    return Hold(case=have.part_case, bay=shelf[0], shelf=shelf[1], mark=have.mark)


def _settled_sizes(job: Job) -> tuple[dict[tuple[str, str], Ticks], list[str]]:
    sizes: dict[tuple[str, str], Ticks] = {}
    for have in job.have:
        if have.what not in ("cut", "fixed") or have.length is None:
            continue
        case = job.case(have.part_case)
        for axis, size in _implied(job, case, have).items():
            asked = getattr(case, axis)
            if hasattr(asked, "least") and asked.least <= size <= asked.most:
                sizes[case.name, axis] = min(size, sizes.get((case.name, axis), size))
    said = [
        f"{name}: {axis} {with_unit(size, job.unit)}, to which parts are cut"
        for (name, axis), size in sizes.items()
    ]
    return sizes, said


def _implied(job: Job, case: Case, have: Have) -> dict[str, Ticks]:
    """Sizes of the case, as the job gives them, to which a part is cut [tick]."""
    kind = have.part_kind
    length, width = have.length or 0, have.width or 0
    found: dict[str, Ticks] = {}
    if kind in ("side", "top", "bottom", "upright", "shelf"):
        lip = job.moulding(case.lip.moulding).thickness if kind == "shelf" and case.lip else 0
        found["depth"] = width + back_counted(job, case) + lip
    if kind in ("top", "bottom", "toe"):
        clear = length - (0 if kind == "toe" else 2 * case.dado_depth)
        found["width"] = clear + boards_counted(job, case)[0]
    if kind == "side":
        found["height"] = length - boards_added(job, case)[1]
    return found


def with_on_hand_holds(option: Option, kept: tuple[str, ...]) -> Option:
    """Return the option with the words of what pieces on hand hold."""
    if option.have is None or not kept:
        return option
    return option.model_copy(update={"have": option.have.model_copy(update={"kept": kept})})
