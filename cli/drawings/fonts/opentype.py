"""What a font file says of its signs: which it has, and how wide they are (OpenType 1.9)."""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path

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
    found: dict[int, int] = {}
    number = struct.unpack_from(">H", data, cmap + 2)[0]
    for i in range(number):
        at = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * i + 4)[0]
        kind = struct.unpack_from(">H", data, at)[0]
        if kind == 4:
            found.update(_format_4(data, at))
        elif kind == 12:
            found.update(_format_12(data, at))
    return found


def _format_4(data: bytes, at: int) -> dict[int, int]:
    segments = struct.unpack_from(">H", data, at + 6)[0] // 2
    read = f">{segments}H"
    ends = struct.unpack_from(read, data, at + 14)
    starts = struct.unpack_from(read, data, at + 16 + 2 * segments)
    deltas = struct.unpack_from(read, data, at + 16 + 4 * segments)
    offsets_at = at + 16 + 6 * segments
    offsets = struct.unpack_from(read, data, offsets_at)
    found = {}
    for i, (start, end, delta, offset) in enumerate(
        zip(starts, ends, deltas, offsets, strict=True)
    ):
        for code in range(start, min(end, 0xFFFE) + 1):
            glyph = code
            if offset:
                place = offsets_at + 2 * i + offset + 2 * (code - start)
                glyph = struct.unpack_from(">H", data, place)[0]
            if not offset or glyph:
                found[code] = (glyph + delta) & 0xFFFF
    return {code: glyph for code, glyph in found.items() if glyph}


def _format_12(data: bytes, at: int) -> dict[int, int]:
    groups = struct.unpack_from(">I", data, at + 12)[0]
    found = {}
    for i in range(groups):
        start, end, glyph = struct.unpack_from(">III", data, at + 16 + 12 * i)
        found.update({code: glyph + code - start for code in range(start, end + 1)})
    return found
