"""Faults of workbooks: bombs, ciphers, merged cells, formulas."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from openpyxl import Workbook

from tests.faults.fault import Fault, Given

ROWS = (("name", "w", "h", "d"), ("jug", 6, 9, 4), ("bowl", 8, 4, 7))
CIPHERED = bytes.fromhex("D0CF11E0A1B11AE1")
"""How an encrypted workbook starts: a compound file."""


def _book() -> Workbook:
    book = Workbook()
    for row in ROWS:
        book.active.append(row)
    return book


def _bytes(book: Workbook) -> bytes:
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def _plain() -> bytes:
    return _bytes(_book())


def _merged() -> bytes:
    book = _book()
    book.active.merge_cells("A2:A3")
    return _bytes(book)


def _formula() -> bytes:
    book = _book()
    book.active["B2"] = "=2*3"
    return _bytes(book)


def _fetching() -> bytes:
    book = _book()
    book.active["A2"] = '=WEBSERVICE("http://localhost:9/")'
    return _bytes(book)


def _bomb(megabytes: int) -> bytes:
    """A workbook whose first sheet unpacks to so much."""
    return _replaced("xl/worksheets/sheet1.xml", b"<worksheet>", *(b" " * 10**6,) * megabytes)


def _replaced(part: str, *content: bytes) -> bytes:
    data = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(_plain())) as old,
        zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            with new.open(name, "w") as to:
                for piece in content if name == part else (old.read(name),):
                    to.write(piece)
    return data.getvalue()


def _entities() -> bytes:
    """Entities within entities, a thousand million of the last."""
    lines = ['<!ENTITY a0 "jug">']
    lines += [f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10)]
    text = f"<!DOCTYPE x [{''.join(lines)}]><worksheet>&a9;</worksheet>"
    return _replaced("xl/worksheets/sheet1.xml", text.encode())


def _wide() -> bytes:
    book = _book()
    book.active.cell(2, 16_000, "far")
    book.active.cell(400_000, 1, "deep")
    return _bytes(book)


def _slipping() -> bytes:
    """A part whose name leads out of the archive."""
    data = io.BytesIO(_plain())
    with zipfile.ZipFile(data, "a") as archive:
        archive.writestr("../../outside.txt", "out")
    return data.getvalue()


def _given(data: Callable[[], bytes], folder: Path) -> Given:
    (folder / "list.xlsx").write_bytes(data())
    return Given(("check", "list.xlsx"), keep=("list.xlsx",))


def _of(what: str, data: Callable[[], bytes], *codes: int, says: str = "") -> Fault:
    return Fault("workbooks", what, partial(_given, data), codes or (2,), says)


FAULTS: tuple[Fault, ...] = (
    _of("as it should be", _plain, 0),
    _of("a bomb of 500 MB", partial(_bomb, 500), says="unpacks to more than 400 MB"),
    _of("a bomb of 100 MB", partial(_bomb, 100)),
    _of("entities within entities", _entities),
    _of("encrypted", lambda: CIPHERED + bytes(4096), says="not a readable .xlsx file"),
    _of("merged cells", _merged, 2),
    _of("a formula never worked out", _formula, says="a formula without a stored value"),
    _of("a formula that would fetch", _fetching, says="a formula without a stored value"),
    _of("cells far out", _wide, 2),
    _of("a part named ../../outside.txt", _slipping, 0, 2),
    _of("broken off", lambda: _plain()[:-200]),
    _of("no sheet in it", partial(_replaced, "xl/worksheets/sheet1.xml", b"")),
    _of("a picture in its place", lambda: b"\x89PNG\r\n\x1a\n" + bytes(500)),
)
