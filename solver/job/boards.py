"""What boards are made of: stiffness along the span, density, and where that is from.

Wood species: Wood Handbook FPL-GTR-282 (2021) Table 5-3b, clear wood at 12 % moisture,
averages and not design values, as transcribed by the open data set xylarium.
"""

from __future__ import annotations

from dataclasses import dataclass

SPECIES = "Wood Handbook FPL-GTR-282 Table 5-3b, as quoted in xylarium"
PANELS = "Wood Handbook FPL-GTR-190 Table 12-1"
MOISTURE = 12
"""Moisture content that densities are worked out for [%]."""


@dataclass(frozen=True)
class Board:
    """One kind of board.

    Attributes
    ----------
    name
        As the job file names it.
    modulus
        E along the span, face grain along it [psi].
    density
        [lb/ft3]
    source
        Of both figures.
    gravity
        Specific gravity, oven-dry weight on volume at 12 %; None for panels [-].
    """

    name: str
    modulus: float
    density: float
    source: str
    gravity: float | None = None


def density_of(gravity: float, moisture: float = MOISTURE) -> float:
    """Density of wood, 62.4 G (1 + MC / 100) [lb/ft3]; Wood Handbook ch. 4, from memory.

    `gravity` is on the volume at that moisture content [-], `moisture` in [%].
    """
    return 62.4 * gravity * (1 + moisture / 100)


def _wood(name: str, gravity: float, modulus: float) -> Board:
    return Board(name, modulus * 1e6, density_of(gravity), SPECIES, gravity)


UNKNOWN_BOARD = Board(
    "board of unknown core",
    500_000,
    48,
    "E 0.5 M psi where nobody knows the core: MDF and particleboard cores are about half of"
    " veneer core (Wood Handbook Table 12-1); weight as MDF, from memory",
)
UNKNOWN_WOOD = Board(
    "wood of unknown kind",
    1_240_000,
    density_of(0.65),
    f"{SPECIES}: the least stiff (eastern white pine) and the heaviest (sweet birch) listed",
    0.35,
)

BOARDS: dict[str, Board] = {
    board.name: board
    for board in (
        UNKNOWN_BOARD,
        Board(
            "veneer-core plywood",
            1_000_000,
            36.8,
            f"E: {PANELS}, 1.01 to 1.24 M psi; weight: 2.3 lb/ft2 at 3/4 in, a panel seller's"
            " generic figure",
        ),
        Board(
            "softwood plywood",
            950_000,
            36,
            "E: Architectural Woodwork Standards 1st ed. 4.4.14.10.11; weight: 3.0 lb/ft2 per"
            " inch, attributed to APA",
        ),
        Board(
            "all-birch plywood",
            1_010_000,
            44,
            f"E: low end of {PANELS}; weight: trade figure, from memory",
        ),
        Board("osb", 640_000, 40, f"E: low end of {PANELS}; weight: from memory"),
        Board("mdf", 520_000, 48, f"E: {PANELS}; weight: trade figure, from memory"),
        Board(
            "particleboard",
            400_000,
            45,
            f"E: low end of {PANELS}; weight: trade figure, from memory",
        ),
        UNKNOWN_WOOD,
        _wood("yellow birch", 0.62, 2.01),
        _wood("paper birch", 0.55, 1.59),
        _wood("sweet birch", 0.65, 2.17),
        _wood("black cherry", 0.50, 1.49),
        _wood("sugar maple", 0.63, 1.83),
        _wood("northern red oak", 0.63, 1.82),
        _wood("black walnut", 0.55, 1.68),
        _wood("yellow-poplar", 0.42, 1.58),
        _wood("eastern white pine", 0.35, 1.24),
        _wood("ponderosa pine", 0.40, 1.29),
        _wood("douglas-fir", 0.48, 1.95),
    )
}
"""All kinds by name."""

MOVEMENT: dict[str, tuple[float, float]] = {
    "yellow birch": (0.00256, 0.00338),
    "paper birch": (0.00219, 0.00304),
    "sweet birch": (0.00256, 0.00338),
    "black cherry": (0.00126, 0.00248),
    "sugar maple": (0.00165, 0.00353),
    "northern red oak": (0.00158, 0.00369),
    "black walnut": (0.00190, 0.00274),
    "yellow-poplar": (0.00158, 0.00289),
    "eastern white pine": (0.00071, 0.00212),
    "ponderosa pine": (0.00133, 0.00216),
    "douglas-fir": (0.00165, 0.00267),
}
"""(C_R, C_T) per per cent of moisture, Wood Handbook FPL-GTR-190 Table 13-5, 6 to 14 % [-]."""


def movement(width: float, coefficient: float, change: float) -> float:
    """Shrinking (below 0) or swelling across the grain, D C dM [the unit of `width`].

    Wood Handbook FPL-GTR-190 ch. 13; between 6 and 14 % moisture, outside it an
    approximation. `coefficient` is C_T of flat-sawn or C_R of quarter-sawn wood, per per
    cent; `change` that of the moisture content [%].
    """
    return width * coefficient * change
