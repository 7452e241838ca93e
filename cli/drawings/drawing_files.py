"""Drawings as files: which, what is in them, written all or none where one exists."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from cli.drawings.dxf import dxf
from cli.drawings.pages import Sheets, captioned, drawings_pdf, drawings_png
from cli.drawings.scene import Scene
from cli.drawings.svg import svg
from cli.output import check_target, make_folder, write_bytes

FORMATS = ("svg", "pdf", "png", "dxf")
TOGETHER = "drawings.pdf"
"""The file with all drawings, a page each."""


def write_drawings(
    scenes: Sequence[Scene], sheets: Sheets, formats: Sequence[str], folder: str, *, force: bool
) -> list[str]:
    """Write the drawings into a folder, which is made where it is not there.

    Returns the paths, in order. Raises InputError where a file exists and `force` is not given,
    before anything is written.
    """
    into = make_folder(folder)
    paths = [str(into / name) for name in _names(scenes, formats)]
    for path in paths:
        check_target(path, force=force)
    for path, content in zip(paths, _contents(scenes, sheets, formats), strict=True):
        write_bytes(path, content, force=force)
    return paths


def _names(scenes: Sequence[Scene], formats: Sequence[str]) -> Iterator[str]:
    for scene in scenes:
        for ending in FORMATS:
            if ending in formats:
                yield str(Path(scene.name).with_suffix(f".{ending}"))
    if "pdf" in formats and len(scenes) > 1:
        yield TOGETHER


def _contents(scenes: Sequence[Scene], sheets: Sheets, formats: Sequence[str]) -> Iterator[bytes]:
    """Yield the contents in the order of the names."""
    for scene in scenes:
        if "svg" in formats:
            yield svg(captioned(scene, sheets)).encode("utf-8")
        if "pdf" in formats:
            yield drawings_pdf([scene], sheets)
        if "png" in formats:
            yield drawings_png([scene], sheets)[0]
        if "dxf" in formats:
            yield dxf(captioned(scene, sheets))
    if "pdf" in formats and len(scenes) > 1:
        yield drawings_pdf(scenes, sheets)
