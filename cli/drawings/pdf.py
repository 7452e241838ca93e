"""PDF and PNG through typst: the same input gives the same bytes.

Only the fonts of :mod:`cli.drawings.fonts` are used, and for signs that they lack one of the
system; nothing is fetched, and text goes in as data, never as markup. Readers are told to print at
actual size.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from cli.drawings.fonts import FAMILIES, FOLDER, system_font_files

FONT_LIST = "(" + ", ".join(f'"{name}"' for name in FAMILIES) + ")"
"""The fonts as typst's `text(font: …)` takes them."""
DATA = "data.json"


def pdf(source: str, files: Mapping[str, bytes] | None = None, data: Any = None) -> bytes:
    """Return a PDF made by a typst template.

    Parameters
    ----------
    source
        Typst source. It reads its drawings with ``image("name.svg")`` and its data with
        ``json("data.json")``.
    files
        SVG documents and pictures by name.
    data
        What goes into ``data.json``: anything that JSON can hold. Text in it is never read
        as markup.

    Returns
    -------
    bytes
        A PDF without any date, that asks to be printed at actual size.
    """
    return at_actual_size(_compiled(source, files, data, "pdf")[0])


def png(
    source: str, files: Mapping[str, bytes] | None = None, data: Any = None, ppi: float = 150
) -> list[bytes]:
    """Return the pages of the same as PNG pictures, `ppi` dots to the inch."""
    return _compiled(source, files, data, "png", ppi)


def _compiled(
    source: str, files: Mapping[str, bytes] | None, data: Any, kind: str, ppi: float | None = None
) -> list[bytes]:
    import typst  # loads a library of 80 MB

    sources = {
        "main.typ": source.encode("utf-8"),
        DATA: json.dumps(data, ensure_ascii=False).encode("utf-8"),
        **(files or {}),
    }
    # Its types do not say that it takes files by name in memory, nor that PNG has a list of pages.
    compiled: Any = typst.compile
    with _helping(sources) as folders:
        pages = compiled(
            sources,
            format=kind,
            ppi=ppi,
            font_paths=[str(FOLDER), *folders],
            ignore_system_fonts=True,
            timestamp=0,  # of the whole compilation; the templates put no date into the file
        )
    return pages if isinstance(pages, list) else [pages]


@contextmanager
def _helping(sources: Mapping[str, bytes]) -> Iterator[list[str]]:
    """Yield a folder with the fonts of the system that the texts need, if any; no others."""
    signs = {sign for data in sources.values() for sign in data.decode("utf-8", "ignore")}
    needed = system_font_files(signs)
    if not needed:
        yield []
        return
    with TemporaryDirectory(prefix="casewright-fonts-") as folder:
        for number, path in enumerate(needed):
            shutil.copy(path, Path(folder) / f"{number}{path.suffix}")
        yield [folder]


_CATALOG = re.compile(
    rb"(\d+) 0 obj\s*<<(?:(?!endobj).)*?/Type\s*/Catalog(?:(?!endobj).)*?endobj", re.DOTALL
)


def at_actual_size(document: bytes) -> bytes:
    """Return a PDF whose catalog has ``/ViewerPreferences << /PrintScaling /None >>``.

    An incremental update (ISO 32000-1, 7.5.6): the catalog is written again at the end with the
    entry added, and a cross-reference section that points to it. Raises ValueError where the
    document has no plain catalog to add it to.
    """
    catalogs = list(_CATALOG.finditer(document))
    start = re.search(rb"startxref\s+(\d+)\s+%%EOF\s*$", document)
    if not catalogs or start is None:
        msg = "no catalog is found in the PDF"
        raise ValueError(msg)
    body = catalogs[-1][0]
    wanted = b"/PrintScaling /None"
    if b"/ViewerPreferences" in body:
        changed = re.sub(rb"(/ViewerPreferences\s*<<)", rb"\1 " + wanted, body, count=1)
    else:
        changed = body.replace(b"<<", b"<< /ViewerPreferences << " + wanted + b" >>", 1)
    head = document if document.endswith(b"\n") else document + b"\n"
    number = int(catalogs[-1][1])
    at = len(head)
    after = at + len(changed) + 1
    table = f"xref\n0 1\n0000000000 65535 f \n{number} 1\n{at:010d} 00000 n \n".encode("ascii")
    trailer = _trailer(document, number, int(start[1]))
    return head + changed + b"\n" + table + trailer + f"startxref\n{after}\n%%EOF\n".encode("ascii")


def _trailer(document: bytes, root: int, previous: int) -> bytes:
    """Return the trailer of the update: that of the document with the place of its table."""
    size = max(int(n) for n in re.findall(rb"/Size (\d+)", document))
    ident = re.findall(rb"/ID\s*\[.*?\]", document, re.DOTALL)
    info = re.findall(rb"/Info \d+ 0 R", document)
    trailer = b" ".join([*info[-1:], *ident[-1:]])
    return (
        f"trailer\n<< /Size {size} /Root {root} 0 R /Prev {previous} ".encode("ascii")
        + trailer
        + b" >>\n"
    )
