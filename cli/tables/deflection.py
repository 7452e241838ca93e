"""The answer of `casewright deflection` as a table, lines and data."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from cli.strength_text import force_text, ratio_text, sag_text, size_text
from cli.tables.style import plain_table
from solver.boards import Board
from solver.strength.shelf_beams import ASSUMED, ShelfBeam
from solver.strength.single import Deflection
from solver.units import Unit


def answer_line(found: Deflection, unit: Unit) -> str:
    """Say the answer in one line."""
    return (
        f"First day {sag_text(found.first_day, unit)} ({ratio_text(found.ratio)}), "
        f"after years {sag_text(found.long_term, unit)} ({ratio_text(found.long_ratio)})."
    )


def limits_table(found: Deflection, unit: Unit) -> Table:
    """Every named limit: the sag that it looks at, what it allows, and how far one could go."""
    table = plain_table(
        "limit", "sag", "allowed", "", "longest span", "most load", right=("sag", "allowed")
    )
    for held in found.limits:
        table.add_row(
            held.limit.name(unit),
            sag_text(held.sag, unit),
            sag_text(held.allowed, unit, down=True),
            "kept" if held.kept else "OVER",
            size_text(held.longest, unit),
            force_text(held.load, unit, down=True),
        )
    return table


def assumed_lines(board: Board) -> list[str]:
    """Say what the figures rest on."""
    return [
        f"E {board.modulus / 1e6:.2f} million psi: {board.name} ({board.source})",
        "load spread evenly; own weight of the shelf not counted, as in published tables",
        *ASSUMED,
        "an estimate for choosing sizes, not a test; makers' load tables come first",
    ]


def explained(found: Deflection, beam: ShelfBeam, load: float, unit: Unit) -> list[str]:
    """Give formula, numbers and source of each figure, in N and mm."""
    return [
        "first day = 5 W L^3 / (384 E I): "
        f"5 x {load:.1f} N x ({beam.span:.1f} mm)^3 / (384 x {beam.stiffness:.4g} N mm2) = "
        f"{found.first_day:.3f} mm. Wood Handbook FPL-GTR-190 Eq. 9-2, Table 9-1",
        f"after years = 2 x first day = {found.long_term:.3f} mm. Wood Handbook ch. 5, p. 5-38: "
        "creep may about equal the first sag (AWC NDS 3.5.2: 1.5 for seasoned lumber, else 2.0)",
        "longest span = (384 E I / (5 n q))^(1/3), with q the load on each length and n of L/n; "
        "twice n where the limit is long-term",
        *(f"{held.limit.name(unit)}: {held.limit.source}" for held in found.limits),
    ]


def as_data(found: Deflection, board: Board) -> dict[str, Any]:
    """The answer as JSON data: mm and N."""
    return {
        "span_mm": round(found.span, 3),
        "first_day_mm": round(found.first_day, 4),
        "long_term_mm": round(found.long_term, 4),
        "ratio": int(found.ratio + 1e-9),
        "long_term_ratio": int(found.long_ratio + 1e-9),
        "board": board.name,
        "modulus_psi": board.modulus,
        "limits": [
            {
                "limit": held.limit.key,
                "allowed_mm": round(held.allowed, 4),
                "kept": held.kept,
                "longest_span_mm": round(held.longest, 1),
                "most_load_n": round(held.load, 1),
                "source": held.limit.source,
            }
            for held in found.limits
        ],
        "assumed": assumed_lines(board),
    }
