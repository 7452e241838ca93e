"""Line styles of every drawing, in one place for every format: widths, dashes, colours.

Lines are 0.5 mm wide and 0.25 mm narrow, the ratio 2 to 1 of ISO 128-2; hatching is narrower still,
so that it stays behind.
"""

from __future__ import annotations

from dataclasses import dataclass

from cli.drawings.shapes import Layer

WIDE, NARROW, FINE = 0.5, 0.25, 0.13
"""Line widths of ISO 128-2 [mm]."""

DASHED = (12 * NARROW, 3 * NARROW)
CHAIN = (24 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
CUT_CHAIN = (12 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
DOUBLE = (24 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW, 0.5 * NARROW, 3 * NARROW)
"""Dashes and gaps [mm]: lines 02, 04 and 05 of ISO 128-2, for a width of 0.25 mm."""


@dataclass(frozen=True)
class LineStyle:
    """Look of one kind of line.

    Attributes
    ----------
    width
        [mm] on paper.
    dashes
        Lengths of dashes and gaps [mm]; empty: continuous.
    colour
        As SVG has it.
    dxf_colour
        Number of a colour in a DXF document, 7 being black or white.
    """

    width: float
    dashes: tuple[float, ...] = ()
    colour: str = "black"
    dxf_colour: int = 7


STYLES: dict[Layer, LineStyle] = {
    "outline": LineStyle(WIDE),
    "board": LineStyle(WIDE),
    "thin": LineStyle(NARROW),
    "hidden": LineStyle(NARROW, DASHED),
    "centre": LineStyle(NARROW, CHAIN),
    "item": LineStyle(NARROW, dxf_colour=5),
    "hatch": LineStyle(FINE, colour="#555", dxf_colour=8),
    "dimension": LineStyle(NARROW, dxf_colour=3),
    "text": LineStyle(NARROW),
    "part": LineStyle(WIDE),
    "cut": LineStyle(NARROW, CUT_CHAIN, dxf_colour=1),
    "offcut": LineStyle(NARROW, DASHED, dxf_colour=8),
    "trim": LineStyle(WIDE, dxf_colour=6),
    "fixing": LineStyle(NARROW, CHAIN, dxf_colour=1),
    "swing": LineStyle(NARROW, DOUBLE, dxf_colour=4),
    "place": LineStyle(NARROW, dxf_colour=8),
    "mark": LineStyle(WIDE),
}
