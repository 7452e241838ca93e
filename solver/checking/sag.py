"""Rules on the sag of shelves, worked out here from the plan and the job alone.

Deflections come from Macaulay's method (integrating E I y'' = M with brackets), not from
tabled coefficients, and the section's stiffness from moments about its lowest edge. Figures
are compared to the tick and the gram, sags rounded up and what is allowed down.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, isfinite

from solver.checking.findings import Code, Finding, finding
from solver.checking.shelf_load import standard_limit
from solver.checking.views import CaseView, OpeningView, OptionView, same
from solver.job.boards import BOARDS, UNKNOWN_BOARD, UNKNOWN_WOOD, Board
from solver.plan.built import ShelfStrength
from solver.units import GRAMS_PER_POUND, TICKS_PER_MM, Ticks

GRAVITY = 9.80665  # m/s2
POUND = float(GRAMS_PER_POUND) / 1000  # kg
INCH = 25.4  # mm
PSI = POUND * GRAVITY / INCH**2  # N/mm2
LIMITS = {"display-first": (600, 1), "display-long": (384, 2), "industry": (144, 1)}
"""N of span / n, and how many times the first day's sag is meant."""
HELD = {"industry": ("industry",), "display": tuple(LIMITS), "none": ()}
YEARS = 2


@dataclass(frozen=True)
class Beam:
    """Span [mm], E I [N mm2], own weight [N]."""

    span: float
    stiffness: float
    own: float

    def middle(self, weight: float, low: float, high: float) -> float:
        """Deflection at midspan of a load [N] spread from `low` to `high` [mm]: [mm]."""
        length, per = self.span, weight / (high - low)
        left = weight * (1 - (low + high) / 2 / length)

        def bracket(x: float) -> float:
            loads = max(x - low, 0.0) ** 4 - max(x - high, 0.0) ** 4
            return left * x**3 / 6 - per * loads / 24

        slope = -bracket(length) / length
        return -(bracket(length / 2) + slope * length / 2) / self.stiffness

    def sag(self, weights: Sequence[tuple[float, float, float]]) -> float:
        """Of the first day, own weight counted [mm]."""
        return self.middle(self.own, 0, self.span) + sum(self.middle(*one) for one in weights)

    def carries(self, names: Sequence[str]) -> float:
        """Even load that just keeps all the limits named, own weight off [g]."""
        unit = self.middle(1.0, 0, self.span)
        most = min(self.span / LIMITS[name][0] / LIMITS[name][1] for name in names)
        return max(0.0, (most / unit - self.own) / GRAVITY * 1000)


@dataclass(frozen=True)
class Shape:
    """A board that spans, with its lip, as far as sag goes; lengths [mm].

    `lip` is its thickness, how far it stands above the board and hangs below it; zeros without.
    """

    span: float
    depth: float
    thickness: float
    lip: tuple[float, float, float]
    board: Board
    wood: Board

    @property
    def beam(self) -> Beam:
        """The same as a beam."""
        (lip, above, below), t = self.lip, self.thickness
        parts = [(self.depth - lip, t, below, self.board)]
        if lip:
            parts.append((lip, t + above + below, 0.0, self.wood))
        axial = sum(b * h * wood.modulus * PSI for b, h, _, wood in parts)
        first = sum(b * h * wood.modulus * PSI * (y + h / 2) for b, h, y, wood in parts)
        second = sum(b * ((y + h) ** 3 - y**3) / 3 * wood.modulus * PSI for b, h, y, wood in parts)
        cubic_foot = (12 * INCH) ** 3
        mass = sum(b * h * self.span * wood.density * POUND / cubic_foot for b, h, _, wood in parts)
        return Beam(self.span, second - first**2 / axial, mass * GRAVITY)


def shape(view: OpeningView) -> Shape:
    """Return the board under an opening as the plan has it; the bottom board has no lip."""
    case, inside = view.bay.case, view.bay.bay.inside
    thick, above, below = (one / TICKS_PER_MM for one in case.lip)
    has_lip = bool(thick) and view.opening.index > 0
    return Shape(
        span=inside.width / TICKS_PER_MM,
        depth=inside.depth / TICKS_PER_MM,
        thickness=_thickness(case) / TICKS_PER_MM,
        lip=(thick, above, below) if has_lip else (0.0, 0.0, 0.0),
        board=_board(case),
        wood=_wood(case) if has_lip else UNKNOWN_WOOD,
    )


def _beam(view: OpeningView) -> Beam:
    return shape(view).beam


def _board(case: CaseView) -> Board:
    named = case.job.ground.boards.get(case.case.material)
    return BOARDS[named] if named else UNKNOWN_BOARD


def _wood(case: CaseView) -> Board:
    assert case.case.lip is not None
    named = case.job.ground.boards.get(case.case.lip.moulding)
    return BOARDS[named] if named else UNKNOWN_WOOD


def _thickness(case: CaseView) -> Ticks:
    """As measured, or the least that it may turn out [tick]."""
    sheets = [sheet for sheet in case.job.sheets if sheet.material == case.case.material]
    return min(sheet.band.least if sheet.band else sheet.thickness for sheet in sheets)


def _spans(view: OpeningView) -> bool:
    """Whether the floor of an opening is a board that only its ends support."""
    case = view.bay.case.case
    hangs = case.kind in ("hung", "wall") and not case.raised_bottom
    return view.opening.index > 0 or hangs


def weights(view: OpeningView) -> list[tuple[float, float, float]]:
    """Return (weight [N], from, to [mm]) of each thing that stands there."""
    return [
        (
            thing.mass / 1000 * GRAVITY,
            thing.x / TICKS_PER_MM,
            (thing.x + thing.width) / TICKS_PER_MM,
        )
        for thing in view.opening.items
    ]


def pairs(view: OptionView) -> Iterator[tuple[OpeningView, ShelfStrength]]:
    """Each opening whose floor spans, with what the plan says of it."""
    strength = view.option.strength
    shelves = {(s.case, s.bay, s.index): s for s in strength.shelves} if strength else {}
    for opening in view.openings:
        shelf = shelves.get(_key(opening))
        if shelf is not None and _spans(opening) and opening.bay.bay.inside.width > 0:
            yield opening, shelf


def _key(opening: OpeningView) -> tuple[str, int, int]:
    bay = opening.bay
    return bay.case.plan.name, bay.bay.number, opening.opening.index


def listed(view: OptionView) -> Iterator[Finding]:
    """Every board that spans is listed once, in the order of the plan, and no other."""
    strength = view.option.strength
    if strength is None or not view.whole:
        return
    needs = [_key(opening) for opening in view.openings if _spans(opening)]
    has = [(s.case, s.bay, s.index) for s in strength.shelves]
    yield from same(Code.STRENGTH_LISTED, view.where, "boards that span", needs, has)


def held(view: OptionView) -> Iterator[Finding]:
    """The limit that is held is that of the job."""
    strength = view.option.strength
    if strength is not None:
        needs, has = view.job.ground.sag, strength.held
        yield from same(Code.STRENGTH_HELD, view.where, "sag limit held", needs, has)


def span(view: OptionView) -> Iterator[Finding]:
    """The span is the clear width of the bay, the load that of the things on it."""
    for opening, shelf in pairs(view):
        needs = opening.bay.bay.inside.width, sum(t.mass for t in opening.opening.items)
        yield from same(
            Code.STRENGTH_SPAN,
            opening.where,
            "span [tick] and load [g]",
            needs,
            (shelf.span, shelf.load),
        )


def sag(view: OptionView) -> Iterator[Finding]:
    """First-day, long-term and standard sag, and the ratio, follow from section and loads."""
    for opening, shelf in pairs(view):
        beam = _beam(opening)
        first = beam.sag(weights(opening))
        standard = standard_limit(opening) / 1000 * GRAVITY
        under = beam.sag([(standard, 0.0, beam.span)])
        for what, needs, has in (
            ("first-day sag", first, shelf.sag_first),
            ("long-term sag", first * YEARS, shelf.sag_long),
            ("sag under the standard load", under, shelf.sag_standard),
        ):
            up = needs * TICKS_PER_MM
            yield from _near(Code.STRENGTH_SAG, opening.where, what, up, has, ceil)
        ratio = beam.span / first
        yield from _near(
            Code.STRENGTH_RATIO, opening.where, "span / sag", ratio, shelf.ratio, floor
        )


def allowed(view: OptionView) -> Iterator[Finding]:
    """What each limit allows is the span over its n, rounded down."""
    for opening, shelf in pairs(view):
        needs = tuple(opening.bay.bay.inside.width // n for n, _ in LIMITS.values())
        has = shelf.allowed_first, shelf.allowed_long, shelf.allowed_industry
        yield from same(Code.STRENGTH_ALLOWED, opening.where, "allowed sags [tick]", needs, has)


def loads(view: OptionView) -> Iterator[Finding]:
    """The loads that the limits allow follow from the section, own weight taken off."""
    for opening, shelf in pairs(view):
        beam, names = _beam(opening), HELD[view.job.ground.sag]
        display = beam.carries(("display-first", "display-long"))
        compared: list[tuple[str, float | None, int | None]] = [
            ("load at the display limits", display, shelf.display_load),
            ("load at the limit held", beam.carries(names) if names else None, shelf.sag_load),
        ]
        for what, needs, has in compared:
            if needs is None or has is None:
                yield from same(Code.STRENGTH_LOADS, opening.where, what, needs, has)
            else:
                yield from _near(Code.STRENGTH_LOADS, opening.where, what, needs, has, floor)


def longest(view: OptionView) -> Iterator[Finding]:
    """The longest span keeps both display limits, so much on each length as stands there now.

    Sag goes with the fourth power of the span then, what is allowed with the first.
    """
    for opening, shelf in pairs(view):
        beam, on = _beam(opening), sum(t.mass for t in opening.opening.items) / 1000 * GRAVITY
        even = beam.middle(on + beam.own, 0, beam.span)
        spans = [
            beam.span * (beam.span / n / times / even) ** (1 / 3)
            for n, times in (LIMITS[name] for name in ("display-first", "display-long"))
        ]
        needs = min(spans) * TICKS_PER_MM
        yield from _near(
            Code.STRENGTH_LONGEST, opening.where, "longest span [tick]", needs, shelf.longest, floor
        )


def load(view: OptionView) -> Iterator[Finding]:
    """No shelf carries more, spread evenly, than the limit held allows."""
    names = HELD[view.job.ground.sag]
    for opening, _ in pairs(view) if names else ():
        has, most = sum(t.mass for t in opening.opening.items), _beam(opening).carries(names)
        if has > most + 1:
            yield finding(
                Code.STRENGTH_LOAD, opening.where, "load", f"at most {int(most)} g", f"{has} g"
            )


def noted(view: OptionView) -> Iterator[Finding]:
    """A shelf that sags beyond the limit held, where its things stand, is named in the notes."""
    strength = view.option.strength
    for opening, shelf in pairs(view) if strength else ():
        board = f"shelf {shelf.index}" if shelf.index else "bottom"
        start = f"case {shelf.case!r}, bay {shelf.bay}, {board} sags beyond the limit"
        beyond = bool(set(HELD[view.job.ground.sag]) & set(shelf.over))
        if beyond and not any(note.startswith(start) for note in view.option.notes):
            what = "that it sags beyond the limit held"
            yield finding(Code.STRENGTH_NOTED, opening.where, what, "a note", "left unsaid")


def over(view: OptionView) -> Iterator[Finding]:
    """The limits that a shelf is listed as over are those that its sag, as shown, exceeds."""
    for opening, shelf in pairs(view):
        shown = {
            "display-first": (shelf.sag_first, shelf.allowed_first),
            "display-long": (shelf.sag_long, shelf.allowed_long),
            "industry": (shelf.sag_first, shelf.allowed_industry),
        }
        needs = tuple(name for name, (has, most) in shown.items() if has > most)
        yield from same(Code.STRENGTH_OVER, opening.where, "limits exceeded", needs, shelf.over)


def worst(view: OptionView) -> Iterator[Finding]:
    """The worst board is the one that sags most for its span."""
    strength = view.option.strength
    if strength is None:
        return
    shares = [Fraction(s.sag_first, s.span) for s in strength.shelves if s.span > 0]
    at = strength.worst
    if len(shares) != len(strength.shelves):
        return
    good = at is None if not shares else at is not None and 0 <= at < len(shares)
    if good and at is not None:
        # shares that agree to a tick of sag may be ranked either way
        most, slack = max(shares), Fraction(1, strength.shelves[at].span)
        good = shares[at] + slack >= most
    if not good:
        needs = str(shares.index(max(shares))) if shares else "none"
        yield finding(Code.STRENGTH_WORST, view.where, "board that sags most", needs, str(at))


def _near(
    code: Code, where: str, what: str, needs: float, has: int, way: Callable[[float], int]
) -> Iterator[Finding]:
    """Yield a finding where a figure is not the exact one rounded up, or down, as `way` does."""
    noise = 1e-6 + abs(needs) * 1e-8
    if not isfinite(needs) or has not in (way(needs - noise), way(needs + noise)):
        yield finding(code, where, what, f"{needs:.2f}", str(has))


RULES = (listed, held, span, sag, allowed, loads, longest, load, noted, over, worst)
"""All rules on the sag of an option's shelves."""
