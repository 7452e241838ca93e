"""What the kinds of things are painted with: the hatching of the drawings on a few tints."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from dataclasses import dataclass
from math import lcm

from cli.drawings.hatching import DIRECTIONS, PATTERNS
from cli.drawings.pictures import jpeg_dots, png_dots
from cli.drawings.shapes import Picture
from solver.job.job import Job

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
class Shown:
    """A picture of a kind of thing, written into the page once."""

    kind: int
    """Number of the kind in the job's list."""
    width: int
    """[dots]"""
    height: int
    """[dots]"""
    address: str
    """The picture itself, as a data address."""


def shown(job: Job, pictures: Mapping[str, Picture]) -> tuple[Shown, ...]:
    """Return the pictures of the job's things, in the order of its list."""
    found = []
    for at, item in enumerate(job.items):
        picture = pictures.get(item.name)
        if picture is not None:
            dots = png_dots if picture.kind == "png" else jpeg_dots
            data = base64.b64encode(picture.data).decode("ascii")
            address = f"data:image/{picture.kind};base64,{data}"
            found.append(Shown(at, *dots(picture.data), address))
    return tuple(found)


def _line(way: tuple[float, float]) -> str:
    """The line of one way, y up, across a tile, y down."""
    across, up = way
    if not up:
        return f"M0 {TILE // 2}H{TILE}"
    if not across:
        return f"M{TILE // 2} 0V{TILE}"
    return f"M0 {TILE}L{TILE} 0" if up > 0 else f"M0 0L{TILE} {TILE}"
