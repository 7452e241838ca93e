"""Evidence for what holds a case up: screws, hinges, tipping, and how trim moves."""

from __future__ import annotations

from functools import partial

from solver import boards
from solver.evidence.check import Check, Footing
from solver.evidence.sag import HANDBOOK, HANDBOOK_2021
from solver.strength import hinges, screws, stability
from solver.strength.amounts import MM_PER_INCH, NEWTONS_PER_POUND

SCREWS, HINGES, MOVES, TIPS = "screws and nails", "hinges", "wood movement", "tipping"


def _shank(size: str) -> float:
    return screws.SCREWS[size].shank


def _screws() -> tuple[Check, ...]:
    rows = ((0.35, 315.0), (0.42, 454.0), (0.55, 779.0), (0.62, 990.0), (0.63, 1021.9))
    withdrawal = tuple(
        Check(
            SCREWS, f"ultimate withdrawal of a #8, 1 in of thread, gravity {gravity}",
            f"{HANDBOOK_2021} Eq. 8-10b", Footing.QUOTED, pounds, pounds * 0.005, "lb",
            partial(screws.withdrawal_ultimate, gravity, _shank("#8"), 1.0),
        )
        for gravity, pounds in rows
    )  # fmt: skip
    sizes = (("#6", 0.138), ("#8", 0.164), ("#10", 0.190), ("#12", 0.216), ("#14", 0.242))
    return (
        *withdrawal,
        *(
            Check(
                SCREWS, f"shank of a {size} wood screw", "ASME B18.6.1, l-36.com",
                Footing.QUOTED, shank, 0, "in", partial(_shank, size),
            )
            for size, shank in sizes
            if size in screws.SCREWS
        ),
        Check(
            SCREWS, "metric form: gravity 0.42, 4.1656 mm, 25.4 mm of thread",
            f"{HANDBOOK_2021} Eq. 8-10a", Footing.QUOTED, 2020, 1, "N",
            lambda: screws.withdrawal_ultimate_metric(0.42, 4.1656, 25.4),
        ),
        Check(
            SCREWS, "allowable withdrawal of a #10 per inch, gravity 0.45",
            "NDS, engineeringtoolbox.com", Footing.QUOTED, 109, 0.7, "lb",
            lambda: screws.withdrawal_allowable(0.45, _shank("#10"), 1.0),
        ),
        Check(
            SCREWS, "end grain: a #8, 1 in into yellow-poplar", f"{HANDBOOK} ch. 8",
            Footing.QUOTED, 341, 2, "lb",
            lambda: screws.END_GRAIN * screws.withdrawal_ultimate(0.42, _shank("#8"), 1.0),
        ),
        Check(
            SCREWS, "ultimate withdrawal of a nail 0.113 in, 1.25 in into white pine",
            f"{HANDBOOK} Eq. 8-1", Footing.QUOTED, 80.4, 0.4, "lb",
            lambda: screws.nail_withdrawal_ultimate(0.35, 0.113, 1.25),
        ),
    )  # fmt: skip


def _hinges() -> tuple[Check, ...]:
    pulls = (
        ("400 N, arm 0.5 m, hinges 2 m apart", "OpenStax University Physics vol. 1, Ex. 12.6",
         Footing.READ, (400.0, 0.5, 2.0), 100.0),
        ("13 kg, arm 0.65 m, hinges 1.5 m apart", "giancolianswers.com, ch. 9 problem 29",
         Footing.READ, (13 * 9.8, 0.65, 1.5), 55.2),
        ("27 kg, arm 0.455 m, hinges 1.5 m apart", "coursehero.com 6255194, ch. 12 p. 31",
         Footing.READ, (27 * 9.8, 0.455, 1.5), 80.3),
        ("120 kg on the test door of EN 1935", "EN 1935, techgoggler.com",
         Footing.QUOTED, (120 * 9.81, 0.5, 1.54), 382.0),
    )  # fmt: skip
    counts = ((60, 2), (61, 3), (78, 3), (90, 3), (91, 4), (120, 4))
    return (
        *(
            Check(HINGES, f"pull on the top hinge: {what}", source, footing, printed,
                  printed * 0.005, "N", partial(hinges.pull, *given))
            for what, source, footing, given, printed in pulls
        ),
        *(
            Check(HINGES, f"hinges of a door {height} in high", "NFPA 80 6.4, flslock.com",
                  Footing.QUOTED, count, 0, "-", partial(hinges.hinge_count, height))
            for height, count in counts
        ),
        Check(
            HINGES, "butt width, door 2 in thick, casing 1-7/8 in proud",
            "Building Trades Pocketbook, Doors; chestofbooks.com", Footing.READ,
            5.375, 0, "in", lambda: hinges.butt_width(2, 1.875),
        ),
        Check(
            HINGES, "least hinges of a loaded case", "jlconline.com, A Door in Disguise",
            Footing.READ, 3, 0, "-", lambda: hinges.case_hinge_count(48),
        ),
    )  # fmt: skip


def _movement() -> tuple[Check, ...]:
    rows = (
        ("yellow-poplar 3 in flat-sawn, 4 % more moisture", f"{HANDBOOK} Table 13-5",
         Footing.QUOTED, 3.0, boards.MOVEMENT["yellow-poplar"][1], 4, 0.0347),
        ("sugar maple 2-1/4 in, 4 %", f"{HANDBOOK} Table 13-5",
         Footing.READ, 2.25, boards.MOVEMENT["sugar maple"][1], 4, 0.0318),
        ("red oak 6 in, 6 to 12 %", f"{HANDBOOK} Table 13-5",
         Footing.READ, 6.0, boards.MOVEMENT["northern red oak"][1], 6, 0.133),
        ("mesquite 5 in, 3 %", "flooringartists.com, dimensional change",
         Footing.READ, 5.0, 0.00129, 3, 0.0194),
        ("red alder 8 in, 6 %", "a woodworking magazine, September 2021 (pressreader.com)",
         Footing.READ, 8.0, 0.0026, 6, 0.1248),
    )  # fmt: skip
    return tuple(
        Check(MOVES, what, source, footing, printed, printed * 0.005, "in",
              partial(boards.movement, width, coefficient, change))
        for what, source, footing, width, coefficient, change, printed in rows
    )  # fmt: skip


def _tipping() -> tuple[Check, ...]:
    source = "ASTM F2057-23, 88 FR 28408"
    return (
        Check(TIPS, "horizontal pull of the test", source, Footing.QUOTED, 10, 0.001, "lb",
              lambda: stability.TEST_PULL / NEWTONS_PER_POUND),
        Check(TIPS, "height of the pull, at most", source, Footing.QUOTED, 56, 1e-9, "in",
              lambda: stability.TEST_HEIGHT / MM_PER_INCH),
        Check(TIPS, "load on an open edge", source, Footing.QUOTED, 60, 0.001, "lb",
              lambda: stability.TEST_EDGE_LOAD / NEWTONS_PER_POUND),
        Check(TIPS, "front raised by", source, Footing.QUOTED, 0.43, 1e-9, "in",
              lambda: stability.TEST_TILT / MM_PER_INCH),
    )  # fmt: skip


CHECKS: tuple[Check, ...] = (*_screws(), *_hinges(), *_movement(), *_tipping())
