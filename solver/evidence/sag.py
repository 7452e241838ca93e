"""Evidence for the sag of shelves: spans, coefficients, creep, lips, boards."""

from __future__ import annotations

from functools import partial

from solver.boards import BOARDS, UNKNOWN_BOARD, density_of
from solver.evidence.check import Check, Footing
from solver.strength import beams, limits
from solver.strength.amounts import STANDARD_GRAVITY
from solver.strength.beams import CREEP_FACTOR, CREEP_SEASONED

AWS = "Architectural Woodwork Standards, 1st ed. (2009)"
HANDBOOK = "Wood Handbook FPL-GTR-190 (2010)"
HANDBOOK_2021 = "Wood Handbook FPL-GTR-282 (2021)"
TOPIC = "sag of shelves"

AWS_SPANS = (
    (950_000, 0.75, 40, 40),
    (950_000, 0.75, 50, 37),
    (950_000, 1.00, 40, 53),
    (950_000, 1.00, 50, 49),
    (1_800_000, 0.75, 40, 49),
    (1_800_000, 0.75, 50, 46),
    (1_800_000, 1.00, 40, 66),
    (1_800_000, 1.00, 50, 61),
    (1_820_000, 0.75, 40, 49),
    (1_820_000, 0.75, 50, 46),
    (1_820_000, 1.00, 40, 66),
    (1_820_000, 1.00, 50, 61),
)
"""E [psi], thickness [in], load [lb/ft2], length printed [in]: Architectural Woodwork
Standards, 1st ed. (2009), 4.4.14.10.11-.13, at L/144."""


def _span(modulus: float, thickness: float, load: float) -> float:
    stiffness = modulus * beams.inertia(12.0, thickness)
    return beams.longest_span(load / 144 * 12.0, stiffness, limits.INDUSTRY.ratio)


def _spans() -> tuple[Check, ...]:
    return tuple(
        Check(
            TOPIC,
            f"longest shelf at L/144, {thickness} in thick, E {modulus:,} psi, {load} lb/ft2",
            f"{AWS}, 4.4.14.10.11-.13",
            Footing.READ,
            printed,
            0.75,  # whole inches are printed, mostly rounded down
            "in",
            partial(_span, modulus, thickness, load),
        )
        for modulus, thickness, load, printed in AWS_SPANS
    )


def _coefficients() -> tuple[Check, ...]:
    rows = (
        ("even load, ends free to turn", beams.UNIFORM, 5 / 384, 1 / 8),
        ("even load, ends clamped", beams.UNIFORM_CLAMPED, 1 / 384, 1 / 8),
        ("load at midspan, ends free to turn", beams.MIDSPAN, 1 / 48, 1 / 4),
        ("load at midspan, ends clamped", beams.MIDSPAN_CLAMPED, 1 / 192, 1 / 4),
        ("two loads at the quarter points", beams.QUARTER_POINTS, 11 / 768, 1 / 8),
        ("cantilever, even load", beams.CANTILEVER_UNIFORM, 1 / 8, 1 / 2),
        ("cantilever, load at its end", beams.CANTILEVER_END, 1 / 3, 1.0),
    )
    return tuple(
        Check(
            TOPIC,
            f"{kind} coefficient: {name}",
            f"{HANDBOOK} Table 9-1, p. 9-2",
            Footing.READ,
            printed,
            0.0,
            "-",
            partial(getattr, ours, kind),
        )
        for name, ours, bending, shear in rows
        for kind, printed in (("bending", bending), ("shear", shear))
    )


def _mdf() -> float:
    """Sag of an MDF shelf of 800 x 250 x 18 mm under 20 kg [mm]."""
    stiffness = 3000.0 * beams.inertia(250.0, 18.0)
    return beams.bending(beams.UNIFORM, 20.0 * STANDARD_GRAVITY, 800.0, stiffness)


def _lip(height: float) -> float:
    """Stiffness of a shelf 10 x 3/4 in with a 3/4 in lip, to that without [-]."""
    bonded = beams.shelf_strips((9.25, 0.75, 1.0), (0.75, 0.0, height - 0.75, 1.0))
    return beams.stiffness(bonded) / beams.inertia(10.0, 0.75)


def _thinner() -> float:
    return 1 - beams.inertia(1.0, 23 / 32) / beams.inertia(1.0, 3 / 4)


def _others() -> tuple[Check, ...]:
    return (
        Check(
            TOPIC, "limit for shelves, n of span / n", f"{AWS}, section 10, 1.2.21.3.1.1",
            Footing.READ, 144, 0, "-", lambda: limits.INDUSTRY.ratio,
        ),
        Check(
            TOPIC, "display limit: sag of one foot on the first day",
            "woodworkers' rule, no standard behind it", Footing.PRACTICE,
            0.02, 1e-9, "in", lambda: limits.DISPLAY_FIRST.allows(12),
        ),
        Check(
            TOPIC, "display limit: sag of one foot that the eye notices, after years",
            "a woodworking handbook, issuhub.com 5674 p. 25", Footing.QUOTED,
            1 / 32, 1e-9, "in", lambda: limits.DISPLAY_LONG.allows(12),
        ),
        Check(
            TOPIC, "sag after several years to that of the first day", f"{HANDBOOK} p. 5-38",
            Footing.READ, 2.0, 0, "-", lambda: CREEP_FACTOR,
        ),
        Check(
            TOPIC, "the same for seasoned lumber", "AWC on NDS 3.5.2, awc.org", Footing.READ,
            1.5, 0, "-", lambda: CREEP_SEASONED,
        ),
        Check(
            TOPIC, "MDF 800 x 250 x 18 mm, E 3000 N/mm2, 20 kg, by 5 W L3 9.81 / (32 E b t3)",
            "mdf-info.eu, shelves and storage units", Footing.READ,
            5 * 20 * 800**3 * 9.81 / (32 * 3000 * 250 * 18**3),
            0.0036,  # a thousandth: gravity is 9.80665 here
            "mm", _mdf,
        ),
        *(
            Check(
                TOPIC, f"lip 3/4 x {height} in on a 10 in shelf: times as stiff",
                "worked figures of the trade", Footing.ARITHMETIC, times, 0.005, "-",
                partial(_lip, height),
            )
            for height, times in ((1.0, 1.13), (1.25, 1.42), (1.5, 1.91), (2.0, 3.72))
        ),
        Check(
            TOPIC, "stiffness lost by 23/32 instead of 3/4 in", "worked figures of the trade",
            Footing.ARITHMETIC, 0.12, 0.001, "-", _thinner,
        ),
    )  # fmt: skip


def _boards() -> tuple[Check, ...]:
    woods = (
        ("yellow birch", 2.01), ("paper birch", 1.59), ("sweet birch", 2.17),
        ("black cherry", 1.49), ("sugar maple", 1.83), ("northern red oak", 1.82),
        ("black walnut", 1.68), ("yellow-poplar", 1.58), ("eastern white pine", 1.24),
        ("ponderosa pine", 1.29), ("douglas-fir", 1.95),
    )  # fmt: skip
    species = tuple(
        Check(
            TOPIC, f"stiffness of {name}", f"{HANDBOOK_2021} Table 5-3b, in xylarium",
            Footing.QUOTED, millions, 1e-9, "million psi",
            partial(lambda wood: BOARDS[wood].modulus / 1e6, name),
        )
        for name, millions in woods
    )  # fmt: skip
    panels = (("mdf", 0.52, 0.52), ("particleboard", 0.40, 0.60), ("osb", 0.64, 0.91),
              ("veneer-core plywood", 1.00, 1.24))  # fmt: skip
    return (
        *species,
        *(
            Check(
                TOPIC, f"stiffness of {name}, within {low} to {high}", f"{HANDBOOK} Table 12-1",
                Footing.READ, (low + high) / 2, (high - low) / 2 + 1e-9, "million psi",
                partial(lambda panel: BOARDS[panel].modulus / 1e6, name),
            )
            for name, low, high in panels
        ),
        Check(
            TOPIC, "stiffness where nobody knows the core",
            "half of veneer core, on Wood Handbook Table 12-1", Footing.PRACTICE,
            0.5, 1e-9, "million psi", lambda: UNKNOWN_BOARD.modulus / 1e6,
        ),
        Check(
            TOPIC, "weight of MDF, 4 x 8 ft x 3/4 in", "usual trade figure", Footing.MEMORY,
            96, 1, "lb", lambda: BOARDS["mdf"].density * 2,
        ),
        Check(
            TOPIC, "weight of softwood plywood, 4 x 8 ft x 3/4 in", "attributed to APA",
            Footing.QUOTED, 72, 0.5, "lb", lambda: BOARDS["softwood plywood"].density * 2,
        ),
        Check(
            TOPIC, "weight of wood of specific gravity 0.42 at 12 %", f"{HANDBOOK} ch. 4",
            Footing.MEMORY, 62.4 * 0.42 * 1.12, 1e-9, "lb/ft3", lambda: density_of(0.42),
        ),
    )  # fmt: skip


CHECKS: tuple[Check, ...] = (*_spans(), *_coefficients(), *_others(), *_boards())
