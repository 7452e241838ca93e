"""Straight lines and text of a PDF read back with pypdfium2, in millimetres on the page."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator

import pypdfium2
import pypdfium2.raw as pdfium

MM_PER_POINT = 25.4 / 72

Point = tuple[float, float]


def lines(page: pypdfium2.PdfPage) -> list[tuple[Point, Point]]:
    """Every straight piece of every path [mm], from the lower left corner of the page."""
    found: list[tuple[Point, Point]] = []
    for path in page.get_objects([pdfium.FPDF_PAGEOBJ_PATH], max_depth=16):
        before: Point | None = None
        for kind, point in _points(path):
            at = _on_page(path, point)
            if kind == pdfium.FPDF_SEGMENT_LINETO and before is not None:
                found.append((before, at))
            before = at
    return found


def _points(path: pypdfium2.PdfObject) -> Iterator[tuple[int, Point]]:
    for number in range(pdfium.FPDFPath_CountSegments(path.raw)):
        segment = pdfium.FPDFPath_GetPathSegment(path.raw, number)
        x, y = ctypes.c_float(), ctypes.c_float()
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        yield pdfium.FPDFPathSegment_GetType(segment), (x.value, y.value)


def _on_page(part: pypdfium2.PdfObject, point: Point) -> Point:
    while part is not None:
        point = part.get_matrix().on_point(*point)
        part = part.container
    return point[0] * MM_PER_POINT, point[1] * MM_PER_POINT


def level(page: pypdfium2.PdfPage, length: float) -> list[float]:
    """Heights [mm] of the level lines of a length [mm], ascending, equal ones once."""
    heights = sorted(
        start[1]
        for start, end in lines(page)
        if abs(start[1] - end[1]) < 1e-4 and abs(abs(start[0] - end[0]) - length) < 1e-3
    )
    return [y for n, y in enumerate(heights) if n == 0 or y - heights[n - 1] > 1e-3]


def text(document: pypdfium2.PdfDocument) -> str:
    """The text of all pages, line ends as spaces."""
    return " ".join(page.get_textpage().get_text_range() for page in document).replace("\r\n", " ")
