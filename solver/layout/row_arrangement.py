"""Where things stand within an opening: centred, evenly spaced, tall ones in the middle.

The layout holds the sag limit for a load spread evenly. Where things that stand centred sag the
shelf further, the heaviest go to its ends instead (:func:`spread`). Pure arithmetic on whole
ticks, so the same layout always gives the same places.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from solver.job.case import Case
from solver.job.job import Job
from solver.layout.layout_problem import BayShape, Form, Kind, LayoutProblem
from solver.strength.beams import CREEP_FACTOR, HARD_LIMITS, first_day_ratio
from solver.strength.constants import millimetres, newtons
from solver.strength.shelf_beams import beam_of_shelf, spans_at_bottom
from solver.units import Ticks

Place = tuple[Form, int]


@dataclass(frozen=True)
class Spot:
    """One thing where it stands in its opening; `on` is the index of the spot below it."""

    kind: int
    form: Form
    x: Ticks
    y: Ticks
    z: Ticks
    row: int
    on: int | None


@dataclass(frozen=True)
class _Block:
    """Things that stay side by side: places of one kind, or the kinds of one group."""

    places: tuple[Place, ...]

    @property
    def height(self) -> Ticks:
        return max(form.height for form, _ in self.places)

    @property
    def width(self) -> Ticks:
        return sum(form.width for form, _ in self.places)

    @property
    def order(self) -> tuple[int, int, int]:
        """Tall first, then wide, then by kind."""
        return -self.height, -self.width, self.places[0][0].kind


def spread(
    job: Job,
    case: Case,
    problem: LayoutProblem,
    bay: BayShape,
    board: tuple[Ticks, int],
    places: Sequence[Place],
) -> tuple[Spot, ...]:
    """Give every thing of an opening its place.

    Parameters
    ----------
    job, case, problem, bay
        The layout problem, and what the opening belongs to.
    board
        (inside depth [tick], index of the opening).
    places
        What stands in the opening.
    """
    centred = arrange(problem, bay, places, job.look.end_margin)
    limits, (depth, index) = HARD_LIMITS[job.ground.sag], board
    if not places or not limits or (index == 0 and not spans_at_bottom(case)):
        return centred
    shelf = beam_of_shelf(job, case, bay.width, depth, index)
    most = shelf.span / max(first_day_ratio(limit, CREEP_FACTOR) for limit in limits)

    def sag(spots: tuple[Spot, ...]) -> float:
        return shelf.under(
            (
                newtons(problem.kinds[spot.kind].mass),
                millimetres(spot.x),
                millimetres(spot.x + spot.form.size[0]),
            )
            for spot in spots
        )

    if sag(centred) <= most:
        return centred
    return min(centred, arrange_apart(problem, bay, places, job.look.end_margin), key=sag)


def arrange(
    problem: LayoutProblem, bay: BayShape, places: Sequence[Place], end_margin: Ticks
) -> tuple[Spot, ...]:
    """Give every thing of one opening its place.

    Parameters
    ----------
    problem, bay
        The layout problem and the opening's bay.
    places
        What stands in the opening.
    end_margin
        Least gap at each end [tick].
    """
    if not places:
        return ()
    row = _row(problem, places)
    return _stood(bay, row, _across(problem, bay, row, end_margin))


def arrange_apart(
    problem: LayoutProblem, bay: BayShape, places: Sequence[Place], end_margin: Ticks
) -> tuple[Spot, ...]:
    """Give the things of one opening the places where they sag the shelf least.

    The heaviest for their width to the ends, on the side that is narrower so far, and what
    width is free in the middle. Sag at midspan weighs the middle most, so that no order of
    loads that fall towards it sags more than the same loads spread evenly. Things of one kind
    are taken apart where the gaps that this takes are there.
    """
    if not places:
        return ()
    kinds: dict[int, list[Place]] = defaultdict(list)
    for place in places:
        kinds[place[0].kind].append(place)
    room = bay.width - 2 * end_margin
    left, right = _to_the_ends(problem, [[place] for place in places])
    if _wide_with_gaps(problem, [*left, *right]) > room:
        left, right = _to_the_ends(problem, list(kinds.values()))
    row, edges, x = [*left, *right], [], end_margin
    gaps = [0, *(_gap(problem, a[0], b[0]) for a, b in pairwise(row))]
    for at, (form, _) in enumerate(row):
        x += gaps[at]
        if at == len(left):
            x += room - _wide_with_gaps(problem, row)
        edges.append(x)
        x += form.width
    return _stood(bay, row, edges)


def _to_the_ends(
    problem: LayoutProblem, blocks: Sequence[list[Place]]
) -> tuple[list[Place], list[Place]]:
    """Blocks on the left and on the right, from left to right: the heaviest at the ends."""
    left: list[Place] = []
    right: list[Place] = []

    def heavy(block: list[Place]) -> tuple[float, int]:
        mass = sum(problem.kinds[form.kind].mass * things for form, things in block)
        return -mass / _wide(block), block[0][0].kind

    for block in sorted(blocks, key=heavy):
        side = left if _wide(left) <= _wide(right) else right
        side += block
    return left, right[::-1]


def _wide_with_gaps(problem: LayoutProblem, row: Sequence[Place]) -> Ticks:
    return _wide(row) + sum(_gap(problem, a[0], b[0]) for a, b in pairwise(row))


def _wide(places: Sequence[Place]) -> Ticks:
    return sum(form.width for form, _ in places)


def _stood(bay: BayShape, row: Sequence[Place], edges: Sequence[Ticks]) -> tuple[Spot, ...]:
    spots: list[Spot] = []
    for (form, things), x in zip(row, edges, strict=True):
        spots += _stand(bay, form, things, x, len(spots))
    return tuple(spots)


def _row(problem: LayoutProblem, places: Sequence[Place]) -> list[Place]:
    """Order of the places from left to right: the highest block central, falling to both sides."""
    kinds: dict[int, list[Place]] = defaultdict(list)
    for place in places:
        kinds[place[0].kind].append(place)
    groups: dict[object, list[_Block]] = defaultdict(list)
    for kind, members in kinds.items():
        name = problem.kinds[kind].group
        members.sort(key=lambda place: (-place[0].height, place[0].lying, -place[1]))
        groups[kind if name is None else name].append(_Block(tuple(members)))
    whole = [
        _Block(tuple(p for block in _centre_out(blocks) for p in block.places))
        for blocks in groups.values()
    ]
    return [place for block in _centre_out(whole) for place in block.places]


def _centre_out(blocks: list[_Block]) -> list[_Block]:
    """Put the tallest in the middle and the others, falling, on the side that is lighter so far."""
    left: list[_Block] = []
    right: list[_Block] = []
    first, *others = sorted(blocks, key=lambda block: block.order)
    for block in others:
        side = left if sum(b.width for b in left) <= sum(b.width for b in right) else right
        side.append(block)
    return [*reversed(left), first, *right]


def _across(
    problem: LayoutProblem, bay: BayShape, row: Sequence[Place], end_margin: Ticks
) -> list[Ticks]:
    """Left edges: own gaps within a kind stay as they are, all other gaps are made alike."""
    least = [
        end_margin,
        *(_gap(problem, a[0], b[0]) for a, b in pairwise(row)),
        end_margin,
    ]
    free = bay.width - sum(form.width for form, _ in row)
    fixed = [
        0 < i < len(row)
        and row[i - 1][0].kind == row[i][0].kind
        and problem.kinds[row[i][0].kind].gap != problem.wishes.gap
        for i in range(len(least))
    ]
    gaps = _level(least, fixed, free)
    edges, x = [], 0
    for gap, (form, _) in zip(gaps, row, strict=False):
        edges.append(x + gap)
        x += gap + form.width
    return edges


def _gap(problem: LayoutProblem, a: Form, b: Form) -> Ticks:
    kind: Kind = problem.kinds[a.kind]
    return kind.gap if a.kind == b.kind else problem.wishes.gap


def _level(least: Sequence[Ticks], fixed: Sequence[bool], free: Ticks) -> list[Ticks]:
    """Share `free` over the gaps so that those not fixed are alike, none below its least [tick]."""
    gaps = list(least)
    spare = free - sum(gaps)
    open_ = sorted((i for i in range(len(gaps)) if not fixed[i]), key=lambda i: (gaps[i], i))
    for count in range(1, len(open_) + 1):
        lowest = open_[:count]
        ceiling = gaps[open_[count]] if count < len(open_) else None
        rise = min(spare // count, (ceiling - gaps[lowest[0]]) if ceiling is not None else spare)
        for i in lowest:
            gaps[i] += rise
        spare -= rise * count
    gaps[-1] += spare  # the few ticks that do not divide
    return gaps


def _stand(bay: BayShape, form: Form, things: int, x: Ticks, first: int) -> list[Spot]:
    """Fill one place: the front row from the floor up, then the next row on its riser."""
    _, height, depth = form.size
    rows = -(-things // form.stack)
    pitch = (form.depth - depth) // (form.rows - 1) if form.rows > 1 else 0
    front = bay.front + (bay.deep - (depth + (rows - 1) * pitch)) // 2
    spots = []
    for number in range(things):
        row, level = divmod(number, form.stack)
        spots.append(
            Spot(
                kind=form.kind,
                form=form,
                x=x,
                y=row * form.riser + level * height,
                z=front + row * pitch,
                row=row + 1,
                on=first + number - 1 if level else None,
            )
        )
    return spots
