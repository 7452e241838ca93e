"""Fonts of the system that letter what ours lack, where there are any; nothing depends on them.

The same text is then drawn the same way on one machine, but not on every machine.
"""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path

from cli.drawings.fonts.opentype import widths

COLOURED = ("emoji", "color", "colour")
"""In the names of fonts that are not black and white: their signs are named instead."""
REGULAR_WEIGHT = 400

Font = tuple[Path, int]
"""A file, and which font of it."""


@cache
def helper(sign: str) -> Font | None:
    """Return the first font of the system that has a sign; None where none has."""
    if not sign.isprintable():
        return None
    return next((font for font in _listed() if _has(font, sign)), None)


@cache
def _listed() -> tuple[Font, ...]:
    """Upright fonts of regular weight, those without serifs first, then by name."""
    import typst

    made = typst.Fonts(include_system_fonts=True, include_embedded_fonts=False).fonts()
    plain = [
        one
        for one in made
        if one.path is not None
        and (one.style, one.weight) == ("normal", REGULAR_WEIGHT)
        and not any(word in one.family.lower() for word in COLOURED)
    ]
    plain.sort(key=lambda one: ("sans" not in one.family.lower(), one.family, one.index))
    return tuple((Path(str(one.path)), one.index) for one in plain)


def _has(font: Font, sign: str) -> bool:
    try:
        return sign in widths(*font)
    except (OSError, struct.error, IndexError, KeyError, ValueError):
        return False  # of a kind that is not read here, such as one of pictures
