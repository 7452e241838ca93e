"""The fonts that drawings are lettered with: which signs they have, and how wide those are.

Inter for Latin, Greek and Cyrillic, DejaVu Sans for what Inter lacks (Hebrew, Arabic, signs); for
what both lack (Chinese, Japanese, Korean) a font of the system, where it has one. Signs and widths
are read from the font files (OpenType 1.9). Licences are in LICENSES.txt beside them.
"""

from __future__ import annotations

import re
import struct
import unicodedata
from collections.abc import Set
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent
FAMILIES = ("Inter", "DejaVu Sans")
"""In this order; the second letters what the first lacks."""
REGULAR, BOLD, OTHER = (
    FOLDER / name for name in ("Inter-Regular.otf", "Inter-SemiBold.otf", "DejaVuSans.ttf")
)
BOLD_WEIGHT = 600
CAPITAL = 0.727
"""Height of a capital over the font size [-]: OS/2 sCapHeight 2048 of 2816 units in Inter."""

_IGNORABLE = {"\u200d", "\ufe0e", "\ufe0f"}
"""Joiners and variation selectors: they have no glyph of their own."""
_SYLLABLES = re.compile(r"IDEOGRAPH|SYLLABLE|HIRAGANA|KATAKANA")
"""Signs that are many to a name: their Unicode names would hide it."""
_ISOLATE, _POP = "\u2068", "\u2069"
COLOURED = ("emoji", "color", "colour")
"""In the names of fonts that are not black and white: their signs are named instead."""
REGULAR_WEIGHT = 400
Font = tuple[Path, int]
"""A file, and which font of it."""


def text_width(text: str, height: float, *, bold: bool = False) -> float:
    """Return the width [mm] of a line of lettering with capitals of `height` [mm], kerning off."""
    size = height / CAPITAL
    return size * sum(_advance(sign, bold) for sign in text)


def printable(text: str) -> str:
    """Return `text` as the fonts can letter it: no sign turns into an empty box.

    A sign that no font here or of the system has is named in brackets, such as ``[teapot]`` or
    ``[U+65E5]``; control signs become ``?`` and any space a plain one; a text that runs from
    right to left is kept apart from what stands beside it.
    """
    shown = "".join(_shown(sign) for sign in text)
    turns = any(unicodedata.bidirectional(sign) in ("R", "AL") for sign in shown)
    return f"{_ISOLATE}{shown}{_POP}" if turns else shown


def _shown(sign: str) -> str:
    if sign in _IGNORABLE:
        return ""
    if not sign.isprintable():
        return " " if sign.isspace() else "?"
    if is_own(sign) or system_font(sign) is not None:
        return sign
    code = f"U+{ord(sign):04X}"
    name = unicodedata.name(sign, code)
    return f"[{code if _SYLLABLES.search(name) else name.lower()}]"


@cache
def _advance(sign: str, bold: bool) -> float:
    """Advance over the font size [-]; nothing for the marks that only isolate."""
    if sign in (_ISOLATE, _POP):
        return 0.0
    for name in (BOLD if bold else REGULAR, OTHER):
        if sign in widths(name):
            return widths(name)[sign]
    font = system_font(sign)
    return widths(*font)[sign] if font is not None else 0.6


def is_own(sign: str) -> bool:
    """Whether the fonts here have a sign."""
    return any(sign in widths(name) for name in (REGULAR, OTHER))


def system_font_files(signs: Set[str]) -> list[Path]:
    """Return the fonts of the system that letter those signs that the fonts here lack."""
    lacking = sorted(sign for sign in signs if sign.isprintable() and not is_own(sign))
    files = (system_font(sign) for sign in lacking)
    return list(dict.fromkeys(font[0] for font in files if font is not None))


@cache
def system_font(sign: str) -> Font | None:
    """Return the first font of the system that has a sign; None where none has."""
    if not sign.isprintable():
        return None
    return next((font for font in _system_fonts() if _has(font, sign)), None)


@cache
def _system_fonts() -> tuple[Font, ...]:
    """Upright fonts of regular weight, those without serifs first, then by name."""
    import typst

    system = typst.Fonts(include_system_fonts=True, include_embedded_fonts=False).fonts()
    plain = [
        one
        for one in system
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


COLLECTION = b"ttcf"
"""How a file begins that holds several fonts."""


@cache
def widths(path: Path, index: int = 0) -> dict[str, float]:
    """Return the advance of every sign of a font, over the font size [-].

    Read from the tables head, hhea, hmtx and cmap; `index` is that of the font in a file of
    several. Raises struct.error, IndexError or KeyError where the file is no such font.
    """
    data = path.read_bytes()
    tables = _tables(data, index)
    per_em = struct.unpack_from(">H", data, tables["head"] + 18)[0]
    count = struct.unpack_from(">H", data, tables["hhea"] + 34)[0]
    advances = struct.unpack_from(">" + "Hh" * count, data, tables["hmtx"])[::2]
    return {
        chr(code): advances[min(glyph, count - 1)] / per_em
        for code, glyph in _glyphs(data, tables["cmap"]).items()
    }


def _tables(data: bytes, index: int) -> dict[str, int]:
    """Where each table of a font starts."""
    start = 0
    if data[:4] == COLLECTION:
        start = struct.unpack_from(">I", data, 12 + 4 * index)[0]
    number = struct.unpack_from(">H", data, start + 4)[0]
    records = (struct.unpack_from(">4sIII", data, start + 12 + 16 * i) for i in range(number))
    return {tag.decode("ascii"): at for tag, _, at, _ in records}


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    """Glyph of every code point, from the subtables of format 4 and 12."""
    offsets: dict[int, int] = {}
    number = struct.unpack_from(">H", data, cmap + 2)[0]
    for i in range(number):
        at = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * i + 4)[0]
        kind = struct.unpack_from(">H", data, at)[0]
        if kind == 4:
            offsets.update(_format_4(data, at))
        elif kind == 12:
            offsets.update(_format_12(data, at))
    return offsets


def _format_4(data: bytes, at: int) -> dict[int, int]:
    segments = struct.unpack_from(">H", data, at + 6)[0] // 2
    read = f">{segments}H"
    ends = struct.unpack_from(read, data, at + 14)
    starts = struct.unpack_from(read, data, at + 16 + 2 * segments)
    deltas = struct.unpack_from(read, data, at + 16 + 4 * segments)
    offsets_at = at + 16 + 6 * segments
    offsets = struct.unpack_from(read, data, offsets_at)
    glyphs = {}
    for i, (start, end, delta, offset) in enumerate(
        zip(starts, ends, deltas, offsets, strict=True)
    ):
        for code in range(start, min(end, 0xFFFE) + 1):
            glyph = code
            if offset:
                place = offsets_at + 2 * i + offset + 2 * (code - start)
                glyph = struct.unpack_from(">H", data, place)[0]
            if not offset or glyph:
                glyphs[code] = (glyph + delta) & 0xFFFF
    return {code: glyph for code, glyph in glyphs.items() if glyph}


def _format_12(data: bytes, at: int) -> dict[int, int]:
    groups = struct.unpack_from(">I", data, at + 12)[0]
    glyphs = {}
    for i in range(groups):
        start, end, glyph = struct.unpack_from(">III", data, at + 16 + 12 * i)
        glyphs.update({code: glyph + code - start for code in range(start, end + 1)})
    return glyphs
