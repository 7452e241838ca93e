"""Which piece on hand serves for which part, which is stock, and the cutting around them.

A part that has its size serves as it is. That never costs a sheet: wherever the part would be cut
instead, all that the piece could yield can be cut. A part cut too large is cut down, or is stock
like any leftover, whichever buys less.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import TypeAlias

from solver.cutting.cutting_answer import SheetAnswer
from solver.cutting.cutting_problem import CutPart, CutSheet, CuttingProblem
from solver.errors import CannotBeDoneError
from solver.job.have import SIZE_TOLERANCE, Have, stock_name
from solver.job.job import Job
from solver.outcome import Status
from solver.plan.on_hand import Remnant, UsedPiece, material_of, size_of
from solver.plan.stocked import Part
from solver.units import TICKS_PER_MM, Ticks

REST_LEAST: Ticks = 20 * TICKS_PER_MM
"""A rest narrower than this is no stock [tick]."""
Size: TypeAlias = tuple[Ticks, Ticks]


@dataclass(frozen=True)
class Piece:
    """One physical piece: the number of its [[have]] from 1, and its size, None: as planned."""

    number: int
    have: Have
    size: Size | None

    @property
    def name(self) -> str:
        """What it is called as stock."""
        return stock_name(self.have, self.number)


@dataclass
class PieceMatch:
    """Pieces given to parts of one material, and what is stock.

    Attributes
    ----------
    used
        Parts that need not be cut from a sheet.
    stock
        Pieces on hand, by name, size and whether their edges are clean, one for each.
    """

    used: list[UsedPiece] = field(default_factory=list)
    stock: list[tuple[str, Size, bool]] = field(default_factory=list)

    @property
    def done(self) -> set[str]:
        """Ids of the parts that are there."""
        return {one.part for one in self.used}

    @property
    def cuts_down(self) -> bool:
        """Whether anything is cut down that could be stock instead."""
        return any(one.how == "cut down" for one in self.used)


def pieces_on_hand(job: Job, material: str) -> list[Piece]:
    """Return what is there of a material, or a moulding, piece by piece."""
    return [
        Piece(number, have, size_of(job, have))
        for number, have in enumerate(job.have, start=1)
        if material_of(job, have) == material
        for _ in range(have.count)
    ]


def match(job: Job, material: str, parts: Sequence[Part], *, cut_down: bool = True) -> PieceMatch:
    """Give pieces to parts of one material; the other pieces are stock.

    Parameters
    ----------
    cut_down
        Whether parts that were cut too large are cut down for the part they are; else they
        are stock.
    """
    matched, free = PieceMatch(), {part.id: part for part in parts}
    waiting = pieces_on_hand(job, material)
    for rule in (*RULES, *((_too_large,) if cut_down else ())):
        unmatched = []
        for piece in waiting:
            part = next((one for one in free.values() if rule(piece, one)), None)
            if part is None:
                unmatched.append(piece)
                continue
            matched.used.append(_used(job, piece, part))
            del free[part.id]
        waiting = unmatched
    matched.stock = [
        (piece.name, piece.size, piece.have.is_clean)
        for piece in waiting
        if piece.size and piece.have.what != "fixed"
    ]
    matched.stock += [
        (f"rest of {stock_name(job.have[one.have - 1], one.have)}", (r.length, r.width), True)
        for one in matched.used
        for r in one.rests
    ]
    return matched


def _named(piece: Piece, part: Part) -> bool:
    return piece.have.what in ("cut", "fixed") and piece.have.name == part.id


def _kind(piece: Piece, part: Part) -> bool:
    """Whether a part is another of the kind and the case that a piece was cut for."""
    have = piece.have
    return have.what == "cut" and (have.part_case, have.part_kind) == (part.case, part.name)


def _right(piece: Piece, part: Part) -> bool:
    if piece.size is None:
        return False
    has, needs = turned_to(piece.size, part), (part.length, part.width)
    return all(abs(h - n) <= SIZE_TOLERANCE for h, n in zip(has, needs, strict=True))


def turned_to(size: Size, part: Part) -> Size:
    """Return a piece's size as it serves for a part: without grain either way round."""
    return (max(size), min(size)) if part.grain == "any" else size


def _too_large(piece: Piece, part: Part) -> bool:
    """Whether a piece was cut for a part, and is larger."""
    if piece.size is None or piece.have.what != "cut":
        return False
    has = turned_to(piece.size, part)
    large = has[0] >= part.length - SIZE_TOLERANCE and has[1] >= part.width - SIZE_TOLERANCE
    return large and (_named(piece, part) or _kind(piece, part))


RULES: tuple[Callable[[Piece, Part], bool], ...] = (
    lambda piece, part: piece.size is None and _named(piece, part),
    lambda piece, part: piece.size is None and _kind(piece, part),
    lambda piece, part: _right(piece, part) and _named(piece, part),
    lambda piece, part: _right(piece, part) and _kind(piece, part),
    lambda piece, part: _right(piece, part) and piece.have.is_clean and piece.have.what != "fixed",
)
"""What serves as it is, in this order: first for the part that it is."""


def _used(job: Job, piece: Piece, part: Part) -> UsedPiece:
    rests: tuple[Remnant, ...] = ()
    how = "fixed" if piece.have.what == "fixed" else "as it is"
    if piece.size is not None and not _right(piece, part):
        how, rests = "cut down", _rests(turned_to(piece.size, part), part, job.shop.kerf)
    return UsedPiece.model_validate(
        {"have": piece.number, "part": part.id, "how": how, "rests": rests}
    )


def _rests(size: Size, part: Part, kerf: Ticks) -> tuple[Remnant, ...]:
    """What is left of a piece that is cut down, by the order that leaves the larger rest."""
    along, across = size[0] - part.length - kerf, size[1] - part.width - kerf
    crosscut_first = [(along, size[1]), (part.length, across)]
    rip_first = [(size[0], across), (along, part.width)]
    kept = [
        [one for one in rests if min(one) >= REST_LEAST] for rests in (crosscut_first, rip_first)
    ]
    best = max(kept, key=lambda rests: max((a * b for a, b in rests), default=0))
    return tuple(Remnant(length=a, width=b) for a, b in best)


def with_on_hand(
    problem: CuttingProblem, material: str, matched: PieceMatch, more: Ticks = 0
) -> CuttingProblem:
    """Return the problem without the parts that are there, and with the pieces as stock.

    Clean pieces need no trim: they are entered larger by it (and by `more`), and
    :func:`solver.planning.on_hand_sheets.as_they_are` draws them as they are.
    """
    parts = tuple(part for part in problem.parts if part.id not in matched.done)
    trim = 2 * problem.edge_trim
    sheets = tuple(
        CutSheet(
            name,
            material,
            size[0] + (trim if clean else 0) + more,
            size[1] + (trim if clean else 0) + more,
            None,
            on_hand=count,
            limit=0,
        )
        for (name, size, clean), count in sorted(Counter(matched.stock).items())
        if _serves(size, 0 if clean else trim, parts)
    )
    return replace(problem, parts=parts, sheets=(*problem.sheets, *sheets))


def _serves(size: Size, lost: Ticks, parts: Sequence[CutPart]) -> bool:
    """Whether a piece is large enough for some part."""
    length, width = size[0] - lost, size[1] - lost
    return any(
        (part.length <= length and part.width <= width)
        or (part.may_turn and part.width <= length and part.length <= width)
        for part in parts
    )


Cut: TypeAlias = Callable[[CuttingProblem], SheetAnswer]
MatchCut: TypeAlias = tuple[PieceMatch, SheetAnswer]


def cut_around(
    job: Job, material: str, parts: Sequence[Part], problem: CuttingProblem, cut: Cut
) -> MatchCut:
    """Cut the parts of one material with as little new stock as possible.

    The bounds hold however the pieces are used: where parts may be cut down, they are
    those of having all of them as stock, larger by the margin that cutting down does not need.

    Raises
    ------
    CannotBeDoneError
        Where neither way frees all parts.
    """
    down = match(job, material, parts)
    if not down.cuts_down:
        return down, cut(with_on_hand(problem, material, down))
    loose = match(job, material, parts, cut_down=False)
    first, error = _tried(down, material, problem, cut)
    if first is not None and first[1].count == 0:
        return first
    second, _ = _tried(loose, material, problem, cut)
    found = [one for one in (first, second) if one is not None]
    if not found:
        assert error is not None
        raise error
    best = min(found, key=lambda one: _weight(one[1]))
    return best[0], _bounded(best[1], _relaxed(loose, material, problem, cut))


def _tried(
    matched: PieceMatch, material: str, problem: CuttingProblem, cut: Cut
) -> tuple[MatchCut | None, CannotBeDoneError | None]:
    try:
        return (matched, cut(with_on_hand(problem, material, matched))), None
    except CannotBeDoneError as error:
        return None, error


def _relaxed(
    loose: PieceMatch, material: str, problem: CuttingProblem, cut: Cut
) -> SheetAnswer | None:
    """All pieces as stock, each with room for a margin more: no way to use them beats it."""
    try:
        return cut(with_on_hand(problem, material, loose, problem.margin))
    except CannotBeDoneError:
        return None


def _weight(answer: SheetAnswer) -> tuple[Decimal, int, int]:
    area = sum(s.length * s.width for s in answer.stock if not s.on_hand)
    return answer.cost, area, answer.count


def _bounded(answer: SheetAnswer, relaxed: SheetAnswer | None) -> SheetAnswer:
    """Put the bounds of the relaxed problem on an answer."""
    if relaxed is None:
        return replace(answer, status=Status.FEASIBLE, cost_bound=Decimal("0.00"), count_bound=0)
    bound = min(answer.cost, relaxed.cost_bound)
    met = relaxed.status is Status.OPTIMAL and _weight(relaxed)[:2] == _weight(answer)[:2]
    proven = met or (answer.priced and bound == answer.cost)
    return replace(
        answer,
        status=Status.OPTIMAL if proven else Status.FEASIBLE,
        cost_bound=bound,
        count_bound=min(answer.count, relaxed.count_bound),
    )
