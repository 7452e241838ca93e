"""The front elevation of an option as numbers for the page's picture, and the paints of its things.

Millimetres as text, x from the left edge of the picture, y down from its upper edge. What
stands on a shelf is drawn from that shelf's upper face, so that it goes where the shelf goes.
Kinds of things are painted with the hatching of the drawings on a few tints.
"""

from __future__ import annotations

import base64
from collections.abc import Mapping
from dataclasses import dataclass
from math import lcm

from cli.drawings.hatching import DIRECTIONS, PATTERNS
from cli.drawings.pictures import jpeg_dots, png_dots
from cli.drawings.shapes import Picture
from cli.page.facts import PlacedBay, placed_bays
from solver.carcass.front_boards import carcass_fronts, shelf_fronts
from solver.job.job import Job
from solver.plan.built import CasePlan, Opening, Placement
from solver.plan.plan import Option
from solver.units import TICKS_PER_MM, Ticks

EDGE: Ticks = 24 * TICKS_PER_MM
"""Empty at each side of the picture."""
APART: Ticks = 60 * TICKS_PER_MM
"""Between two cases that do not stand in one line of bays."""
UNDER: Ticks = 30 * TICKS_PER_MM
"""Below the floor line."""


@dataclass(frozen=True)
class Rect:
    """A rectangle; `kind` says what it is."""

    kind: str
    x: str
    y: str
    width: str
    height: str


@dataclass(frozen=True)
class Thing:
    """A thing, its lower left corner measured from its opening's floor at the bay's left."""

    kind: int
    """Number of its kind in the job's list."""
    place: int
    """Number in its opening, as the page's program counts."""
    rect: Rect
    letter_x: str
    letter_y: str
    """Where its letter is: the thing's middle."""
    rear: bool
    """Whether other things may stand before it: it has its letter in its upper half."""
    lying: bool


@dataclass(frozen=True)
class Run:
    """Things of one kind next to each other, which share a letter where they are too narrow."""

    kind: int
    things: tuple[int, ...]
    """Their numbers in the opening."""
    x: str
    y: str


@dataclass(frozen=True)
class OpeningView:
    """An opening: where its floor is, what stands there from the back to the front."""

    id: str
    x: str
    y: str
    things: tuple[Thing, ...]
    runs: tuple[Run, ...]


@dataclass(frozen=True)
class ShelfView:
    """A shelf, with its lip where it has one, from its underside up."""

    id: str
    x: str
    y: str
    board: Rect


@dataclass(frozen=True)
class Elevation:
    """The picture of one option; `width` and `height` are those of the picture."""

    width: str
    height: str
    floor: str
    backs: tuple[Rect, ...]
    boards: tuple[Rect, ...]
    openings: tuple[OpeningView, ...]
    shelves: tuple[ShelfView, ...]
    places: tuple[dict[str, Ticks], ...]
    """Of each bay, x and y of its lower left corner and its width in the picture [tick]."""
    size: tuple[Ticks, Ticks]
    """Width and height of the picture [tick]."""
    ground: Ticks
    """Of the floor line, from the upper edge [tick]."""

    def shown(self, size: tuple[Ticks, Ticks]) -> str:
        """The view box of that size that stands on the same floor, the picture in its middle."""
        left, over = (self.size[0] - size[0]) // 2, self.size[1] - size[1]
        return " ".join(mm_text(value) for value in (left, over, *size))


def mm_text(ticks: Ticks) -> str:
    """Millimetres to a thousandth, without zeros that say nothing."""
    return f"{ticks / TICKS_PER_MM:.3f}".rstrip("0").rstrip(".") or "0"


def _rect(kind: str, x: Ticks, y: Ticks, size: tuple[Ticks, Ticks]) -> Rect:
    return Rect(kind, *(mm_text(value) for value in (x, y, *size)))


def elevation(job: Job, option: Option, prefix: str) -> Elevation:
    """Draw an option's cases beside each other, each as high above the floor as it hangs.

    `prefix` begins the ids of what moves.
    """
    lefts, at = {}, EDGE
    for case in option.cases:
        lefts[case.name] = at
        at += case.outside.width + APART
    highest = max(case.above_floor + case.outside.height for case in option.cases)
    top = max(highest, job.look.eye_level) + EDGE
    frames = [_Frame(job, case, lefts[case.name], top) for case in option.cases]
    bays = placed_bays(option)
    by_case = {frame.case.name: frame for frame in frames}
    return Elevation(
        width=mm_text(at - APART + EDGE),
        height=mm_text(top + UNDER),
        floor=mm_text(top),
        backs=tuple(frame.back() for frame in frames),
        boards=tuple(board for frame in frames for board in frame.boards()),
        openings=tuple(
            by_case[one.case.name].opening(one, opening, f"{prefix}b{one.index}o{opening.index}")
            for one in bays
            for opening in one.bay.openings
        ),
        shelves=tuple(
            by_case[one.case.name].shelf(one, at, f"{prefix}b{one.index}s{at}")
            for one in bays
            for at in range(len(one.bay.shelves))
        ),
        places=tuple(by_case[one.case.name].place(one) for one in bays),
        size=(at - APART + EDGE, top + UNDER),
        ground=top,
    )


class _Frame:
    """One case in the picture: `left` is its left outside, `top` the floor's distance down."""

    def __init__(self, job: Job, case: CasePlan, left: Ticks, top: Ticks) -> None:
        self.case = case
        self.left = left
        self.base = top - case.above_floor
        self.kinds = {item.name: at for at, item in enumerate(job.items)}

    def box(self, kind: str, x: Ticks, low: Ticks, size: tuple[Ticks, Ticks]) -> Rect:
        """A rectangle whose lower left corner is at x, `low` from the case's left bottom end."""
        return _rect(kind, self.left + x, self.base - low - size[1], size)

    def back(self) -> Rect:
        """What is seen behind everything."""
        return self.box("back", 0, 0, (self.case.outside.width, self.case.outside.height))

    def boards(self) -> tuple[Rect, ...]:
        """Uprights, toe, bottom, top and sides: what comes later is drawn over the others."""
        fronts = reversed(tuple(carcass_fronts(self.case)))
        return tuple(
            self.box(
                "toe" if front.kind == "toe" else "board",
                front.x,
                front.y,
                (front.width, front.height),
            )
            for front in fronts
        )

    def opening(self, one: PlacedBay, opening: Opening, name: str) -> OpeningView:
        """An opening and its things, those at the back first."""
        order = sorted(
            enumerate(opening.items), key=lambda pair: (-pair[1].z, pair[1].y, pair[1].x)
        )
        things = tuple(self._thing(at, thing) for at, thing in order)
        x, y = self.left + one.bay.x, self.base - opening.floor
        runs = tuple(self._run(run) for run in _runs(opening) if len(run) > 1)
        return OpeningView(name, mm_text(x), mm_text(y), things, runs)

    def _run(self, run: list[tuple[int, Placement]]) -> Run:
        first, last = run[0][1], run[-1][1]
        x = (first.x + last.x + last.width) // 2
        y = -first.y - first.height // 2
        numbers = tuple(at for at, _ in run)
        return Run(self.kinds[first.item], numbers, mm_text(x), mm_text(y))

    def _thing(self, at: int, thing: Placement) -> Thing:
        size = thing.width, thing.height
        rect = _rect("thing", thing.x, -thing.y - thing.height, size)
        rear = thing.row > 1
        down = thing.height // 4 if rear else thing.height // 2
        letter = mm_text(thing.x + thing.width // 2), mm_text(-thing.y - thing.height + down)
        return Thing(self.kinds[thing.item], at, rect, *letter, rear, thing.lying)

    def shelf(self, one: PlacedBay, at: int, name: str) -> ShelfView:
        """A shelf as it is seen from the front: its edge, or the lip before it."""
        shelf = one.bay.shelves[at]
        front = shelf_fronts(one.bay, shelf)[-1]
        up = front.y + front.height - shelf.underside
        board = _rect(front.kind, 0, -up, (front.width, front.height))
        x, y = self.left + one.bay.x, self.base - shelf.underside
        return ShelfView(name, mm_text(x), mm_text(y), board)

    def place(self, one: PlacedBay) -> dict[str, Ticks]:
        """Where the bay is in the picture."""
        return {
            "x": self.left + one.bay.x,
            "base": self.base,
            "width": one.bay.inside.width,
        }


def _runs(opening: Opening) -> list[list[tuple[int, Placement]]]:
    """Things of the front row that are of one kind, at one height, next to each other."""
    front = [pair for pair in enumerate(opening.items) if pair[1].row == 1]
    runs: list[list[tuple[int, Placement]]] = []
    for pair in sorted(front, key=lambda pair: (pair[1].y, pair[1].x)):
        last = runs[-1][-1][1] if runs else None
        if last is not None and (last.item, last.y) == (pair[1].item, pair[1].y):
            runs[-1].append(pair)
        else:
            runs.append([pair])
    return runs


TINTS = 6
"""How many tints the style sheet has."""
PAINTS = lcm(PATTERNS, TINTS)
"""After so many kinds a paint comes again; the letters tell all apart."""
TILE = 8
"""Side of the square that a hatching repeats in, as the template draws it."""


@dataclass(frozen=True)
class Paint:
    """One paint: the lines of a tile as an SVG path, and the number of its tint."""

    hatching: str
    tint: int


def paints(kinds: int) -> tuple[Paint, ...]:
    """Return the paints that so many kinds [-] need."""
    return tuple(
        Paint("".join(map(_line, DIRECTIONS[at % PATTERNS])), at % TINTS)
        for at in range(min(kinds, PAINTS))
    )


@dataclass(frozen=True)
class ShownPicture:
    """A picture of a kind of thing, written into the page once."""

    kind: int
    """Number of the kind in the job's list."""
    width: int
    """[dots]"""
    height: int
    """[dots]"""
    address: str
    """The picture itself, as a data address."""


def shown(job: Job, pictures: Mapping[str, Picture]) -> tuple[ShownPicture, ...]:
    """Return the pictures of the job's things, in the order of its list."""
    pictured = []
    for at, item in enumerate(job.items):
        picture = pictures.get(item.name)
        if picture is not None:
            dots = png_dots if picture.kind == "png" else jpeg_dots
            data = base64.b64encode(picture.data).decode("ascii")
            address = f"data:image/{picture.kind};base64,{data}"
            pictured.append(ShownPicture(at, *dots(picture.data), address))
    return tuple(pictured)


def _line(way: tuple[float, float]) -> str:
    """The line of one way, y up, across a tile, y down."""
    across, up = way
    if not up:
        return f"M0 {TILE // 2}H{TILE}"
    if not across:
        return f"M{TILE // 2} 0V{TILE}"
    return f"M0 {TILE}L{TILE} 0" if up > 0 else f"M0 0L{TILE} {TILE}"
