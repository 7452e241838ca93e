"""Formula, numbers and source of every figure of a swing, for people to check by hand."""

from __future__ import annotations

from solver.doorway.swing_scene import Swing
from solver.plan.swinging import Swinging
from solver.plan.trimming import Explained
from solver.units import Ticks, Unit, format_length, with_unit

GEOMETRY = "plane geometry of a turning corner, held against a stepwise sweep in the tests"
OLD_RULE = "practice of pins and trim: the corner diagonal from the pin must pass the jamb"
CLEAR_WAY = "2010 ADA 404.2.3 measures a clear way so, from the leaf at 90 degrees to the stop"


def explained(swing: Swing, answer: Swinging, unit: Unit) -> tuple[Explained, ...]:
    """Return each figure of `answer` with where it comes from."""
    n = _Numbers(swing, unit)
    return (
        Explained(
            what="radius of the far corner",
            value=with_unit(answer.radius, unit),
            formula="R = sqrt((a + w)^2 + (p + d)^2), over all corners as built",
            numbers=n.radius(),
            source=GEOMETRY,
        ),
        Explained(
            what="latch gap needed",
            value=with_unit(answer.latch_gap_needed, unit),
            formula=_gap_formula(swing),
            numbers=n.gap(answer),
            source=f"{OLD_RULE}; {GEOMETRY}",
        ),
        _limit(
            "widest case",
            answer.widest,
            "w = sqrt((W - c)^2 - (p + d)^2) - a",
            n.widest(),
            n,
        ),
        _limit(
            "deepest case",
            answer.deepest,
            "d = sqrt((W - c)^2 - (a + w)^2) - p",
            n.deep(),
            n,
        ),
        Explained(
            what="tightest",
            value=f"{with_unit(answer.tightest, unit)} at {answer.tightest_at}°",
            formula="least distance of any corner's arc from any edge of the latch jamb",
            numbers=n.all(),
            source=GEOMETRY,
        ),
        Explained(
            what="passage at 90°",
            value=with_unit(answer.passage_90, unit),
            formula="W less what the open case takes; with the pin at the corner W - (p + d)",
            numbers=f"W {n.of(swing.opening)}, p {n.of(swing.proud)}, d {n.of(swing.depth)}",
            source=CLEAR_WAY,
        ),
    )


def _gap_formula(swing: Swing) -> str:
    above, below = swing.pin[1], swing.pin[1] + swing.jamb
    if above > 0:
        return "g = sqrt((R + c)^2 - q^2) - (a + w), q the pin in front of the jamb's edge"
    if below < 0:
        return "least gap at which all arcs keep c to the jamb; the pin is behind it"
    return "g = R - (a + w) + c, the pin level with the jamb"


def _limit(what: str, value: Ticks | None, formula: str, numbers: str, n: _Numbers) -> Explained:
    return Explained(
        what=what,
        value="none" if value is None else with_unit(value, n.unit),
        formula=f"{formula}; the last tick at which the arcs of the case as built keep c",
        numbers=numbers,
        source=f"{OLD_RULE}; {GEOMETRY}",
    )


class _Numbers:
    """The numbers of a swing, put into its formulas."""

    def __init__(self, swing: Swing, unit: Unit) -> None:
        self.swing, self.unit = swing, unit

    def of(self, length: Ticks) -> str:
        return format_length(length, self.unit)

    def radius(self) -> str:
        s = self.swing
        return (
            f"sqrt(({self.of(s.aside)} + {self.of(s.width)})^2 + "
            f"({self.of(s.proud)} + {self.of(s.depth)})^2)"
        )

    def gap(self, answer: Swinging) -> str:
        s = self.swing
        return (
            f"{self.of(answer.radius)} - ({self.of(s.aside)} + {self.of(s.width)}) + "
            f"{self.of(s.clearance)}"
        )

    def widest(self) -> str:
        s = self.swing
        return (
            f"sqrt(({self.of(s.opening)} - {self.of(s.clearance)})^2 - "
            f"({self.of(s.proud)} + {self.of(s.depth)})^2) - {self.of(s.aside)}"
        )

    def deep(self) -> str:
        s = self.swing
        return (
            f"sqrt(({self.of(s.opening)} - {self.of(s.clearance)})^2 - "
            f"({self.of(s.aside)} + {self.of(s.width)})^2) - {self.of(s.proud)}"
        )

    def all(self) -> str:
        s = self.swing
        return (
            f"W {self.of(s.opening)}, jamb {self.of(s.jamb)}, w {self.of(s.width)}, "
            f"d {self.of(s.depth)}, a {self.of(s.aside)}, p {self.of(s.proud)}, "
            f"c {self.of(s.clearance)}"
        )
