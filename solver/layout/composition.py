"""Where things stand within an opening, so that the eye likes the row.

What the client said of a row goes first (:mod:`row_rules`), then how it looks
(:mod:`composition_score`): kinds halved as mirrored pairs about the middle, an odd one truly in the
middle, the tallest there, gaps that fill the width (:mod:`row_gaps`). The layout holds the sag
limit for a load spread evenly; where things that stand so sag their shelf further, the heavy ones
go towards its ends. The same layout always gives the same places.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from solver.job.case import Case
from solver.job.hinge_side import hung_on
from solver.job.job import Job
from solver.layout.composition_score import NOTHING, CompositionScore, score
from solver.layout.layout_problem import BayShape, Kind, LayoutProblem, Place, RowBefore, ThingsHeld
from solver.layout.row_apart import apart
from solver.layout.row_gaps import Piece, RowSpace, settled, spaced
from solver.layout.row_rules import RowRules
from solver.layout.row_sag import first_day_sag, most_sag
from solver.layout.row_search import Order, RowSearch, Unit, halves, wholes
from solver.layout.row_spots import Spot, stood
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, with_unit

Thing = TypeVar("Thing")
SPARSE = (7, 10)
"""Books and the like stand as two bundles on a shelf of which their row fills less [-]."""


@dataclass(frozen=True)
class Composed:
    """A row as it stands, how it looks, and what the client said that could not be kept."""

    spots: tuple[Spot, ...]
    score: CompositionScore
    broken: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Row:
    """A row settled: its pieces and places from left to right, left edges of both [tick]."""

    pieces: tuple[Piece, ...]
    places: tuple[Place, ...]
    edges: tuple[Ticks, ...]


def compose(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    places: Sequence[Place],
    held: Sequence[ThingsHeld] = (),
) -> Composed:
    """Give every thing of an opening its place.

    Parameters
    ----------
    job, case, problem, bay
        The layout problem, and what the opening belongs to, the bay with its true width.
    board
        (inside depth [tick], index of the opening).
    places
        What stands in the opening.
    held
        What is held to a place of this opening's row.
    """
    if not places:
        return Composed((), NOTHING)
    rules = RowRules(problem, {form.kind for form, _ in places}, held)
    row = next(rows := _rows(job, case, problem, bay, places, rules))
    most = most_sag(job, case, bay, board)
    if most is not None and first_day_sag(job, case, problem, bay, board, row) > most:
        others = [row, *rows]
        sags = [first_day_sag(job, case, problem, bay, board, other) for other in others]
        at = next((i for i, sag in enumerate(sags) if sag <= most), sags.index(min(sags)))
        row = others[at]
    fronts, starts = _fronts(problem, row)
    return Composed(
        stood(bay, row.places, row.edges),
        score(bay.width, fronts, starts),
        (*rules.sentences(row.pieces), *_hero_aside(job, problem, bay, rules, row)),
    )


def as_before(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    row: RowBefore,
    held: Sequence[ThingsHeld] = (),
) -> Composed | None:
    """Take a row over as it stood before; None where it may not stand so any more.

    Parameters as in :func:`compose`; `row` has what stands in the opening.
    """
    rules = RowRules(problem, {form.kind for form, _ in row.places}, held)
    pieces = tuple(_piece(problem, (place,), 0) for place in row.places)
    stood_so = _Row(pieces, row.places, row.edges)
    if row.width != bay.width or any(rules.missed(pieces)):
        return None
    if not _space(job, problem, bay).keeps(pieces, row.edges):
        return None
    most = most_sag(job, case, bay, board)
    if most is not None and first_day_sag(job, case, problem, bay, board, row) > most:
        return None
    return Composed(
        stood(bay, row.places, row.edges),
        score(bay.width, pieces, [2 * edge for edge in row.edges]),
        tuple(_hero_aside(job, problem, bay, rules, stood_so)),
    )


def _space(job: Job, problem: LayoutProblem, bay: BayShape) -> RowSpace:
    return RowSpace(bay.width, job.look.end_margin, problem.wishes.gap, bay.run, _step(job))


def _hero_aside(
    job: Job, problem: LayoutProblem, bay: BayShape, rules: RowRules, row: _Row
) -> Iterator[str]:
    """Say where the middle one is a hero and its neighbours leave no room to centre it."""
    at = rules.hero_at(row.pieces)
    if at is not None:
        edge = row.edges[sum(len(piece.places) for piece in row.pieces[:at])]
        aside = abs(2 * edge + row.pieces[at].width - bay.width) // 2
        if aside > _step(job):
            name, unit = problem.kinds[row.pieces[at].kind].name, job.head.unit
            yield f"{name!r} stands {with_unit(aside, unit)} off the middle: the row is too full"


def _step(job: Job) -> Ticks:
    return TICKS_PER_INCH // 16 if job.head.unit == "in" else TICKS_PER_MM


def _rows(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    places: Sequence[Place],
    rules: RowRules,
) -> Iterator[_Row]:
    """The row that looks best; then those with the heavy things nearer the ends."""
    space = _space(job, problem, bay)
    whole = problem.wishes.shelf_style == "grouped"
    hinge = {"left": -1, "right": 1, None: 0}[hung_on(job, case)]
    units, order = _units(_pieces(problem, bay, places), whole=whole)
    search = RowSearch(space, rules, units, hinge, whole)
    starts = [search.mended(halves(units, order, _low)), search.mended(wholes(units, order))]
    yield _settled(search, search.best(starts))
    heavy = search.mended(halves(units, order, _heavy))
    if space.takes(search.row(heavy)):
        yield _settled(search, heavy)
    row, edges = apart(space, _pieces(problem, bay, places, close=False))
    yield _placed(space, row, edges)


def _low(unit: Unit) -> tuple[int, ...]:
    return unit[0].height, unit[0].width


def _heavy(unit: Unit) -> tuple[int, ...]:
    """Heaviest for their width first, in grams a metre."""
    wide = sum(piece.width for piece in unit)
    return (-sum(piece.mass for piece in unit) * 1000 * TICKS_PER_MM // wide,)


def _pieces(
    problem: LayoutProblem, bay: BayShape, places: Sequence[Place], *, close: bool = True
) -> list[Piece]:
    """Places by kind and form; where `close`, those of a kind without gaps as a bundle or two."""
    numbers = {
        form: (k, f) for k, kind in enumerate(problem.kinds) for f, form in enumerate(kind.forms)
    }
    ordered = sorted(places, key=lambda place: (numbers[place[0]], place[1]))
    sparse = sum(form.width for form, _ in places) * SPARSE[1] < bay.width * SPARSE[0]
    without: dict[int, list[Place]] = {}
    bundles: list[tuple[Place, ...]] = []
    for place in ordered:
        kind = place[0].kind
        if not close or problem.kinds[kind].gap or kind in problem.kinds[kind].apart:
            bundles.append((place,))
        else:
            without.setdefault(kind, []).append(place)
    for some in without.values():
        two = sparse and len(some) % 2 == 0
        bundles += [tuple(some[::2]), tuple(some[1::2])] if two else [tuple(some)]
    bundles.sort(key=lambda some: [(numbers[form], things) for form, things in some])
    looks = {some: look for look, some in enumerate(dict.fromkeys(bundles))}
    return [_piece(problem, some, looks[some]) for some in bundles]


def _piece(problem: LayoutProblem, places: tuple[Place, ...], look: int) -> Piece:
    kind = problem.kinds[places[0][0].kind]
    return Piece(
        kind=places[0][0].kind,
        look=look,
        family=_family(kind),
        gap=kind.gap,
        width=sum(form.width for form, _ in places),
        height=max(form.height for form, _ in places),
        mass=kind.mass * sum(things for _, things in places),
        places=places,
    )


def _units(pieces: Sequence[Piece], *, whole: bool) -> tuple[tuple[Unit, ...], Order]:
    """One unit of each look, and the number of each piece's; or of each kind, all its pieces."""
    if not whole:
        looks = {piece.look: piece for piece in pieces}
        return tuple((piece,) for piece in looks.values()), tuple(p.look for p in pieces)
    kinds: dict[int, list[Piece]] = {}
    for piece in pieces:
        kinds.setdefault(piece.kind, []).append(piece)
    units = tuple(tuple(_peaked(some, lambda piece: piece.height)) for some in kinds.values())
    return units, tuple(range(len(units)))


def _settled(search: RowSearch, order: Order) -> _Row:
    row = search.row(order)
    halves_ = spaced(search.space, row, search.rules.hero_at(row))
    return _placed(search.space, row, settled(search.space, row, halves_))


def _placed(space: RowSpace, row: Sequence[Piece], edges: Sequence[Ticks]) -> _Row:
    """Places of the pieces, the tallest of a bundle where it is nearest the middle."""
    places: list[Place] = []
    at: list[Ticks] = []
    for piece, edge in zip(row, edges, strict=True):
        for place in _facing(space, piece, edge):
            places.append(place)
            at.append(edge)
            edge += place[0].width
    return _Row(tuple(row), tuple(places), tuple(at))


def _facing(space: RowSpace, piece: Piece, edge: Ticks) -> list[Place]:
    def high(place: Place) -> Ticks:
        return place[0].height

    if edge + piece.width <= space.width // 2:
        return sorted(piece.places, key=high)
    if edge >= space.width // 2:
        return sorted(piece.places, key=high, reverse=True)
    return _peaked(piece.places, high)


def _peaked(things: Sequence[Thing], high: Callable[[Thing], Ticks]) -> list[Thing]:
    """The highest in the middle, falling to both sides."""
    falling = sorted(things, key=high, reverse=True)
    return [*falling[1::2][::-1], *falling[::2]]


def _fronts(problem: LayoutProblem, row: _Row) -> tuple[list[Piece], list[int]]:
    """Places of a row, those of a kind that touch as one; their left edges [1/2 tick]."""
    bundles: list[tuple[Place, ...]] = []
    starts: list[int] = []
    end = -1
    for place, edge in zip(row.places, row.edges, strict=True):
        if edge == end and bundles[-1][-1][0].kind == place[0].kind:
            bundles[-1] = (*bundles[-1], place)
        else:
            bundles.append((place,))
            starts.append(2 * edge)
        end = edge + place[0].width
    return [_piece(problem, some, 0) for some in bundles], starts


def _family(kind: Kind) -> str | None:
    return kind.heading if kind.group is None else kind.group
