"""Drawings as files: the name of each, and how its content is made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from cli.drawings.dxf import dxf
from cli.drawings.pages import Sheets, captioned, drawings_pdf, drawings_png
from cli.drawings.scene import Scene
from cli.drawings.svg import svg

TOGETHER = "drawings.pdf"
"""The file with all drawings, a page each."""


def _svg(scene: Scene, sheets: Sheets) -> bytes:
    return svg(captioned(scene, sheets)).encode("utf-8")


def _pdf(scene: Scene, sheets: Sheets) -> bytes:
    return drawings_pdf([scene], sheets)


def _png(scene: Scene, sheets: Sheets) -> bytes:
    return drawings_png([scene], sheets)[0]


def _dxf(scene: Scene, sheets: Sheets) -> bytes:
    return dxf(captioned(scene, sheets))


FORMATS: dict[str, Callable[[Scene, Sheets], bytes]] = {
    "svg": _svg,
    "pdf": _pdf,
    "png": _png,
    "dxf": _dxf,
}


def drawing_files(
    scenes: Sequence[Scene], sheets: Sheets, formats: Sequence[str]
) -> dict[str, Callable[[], bytes]]:
    """Return what makes the content of each file, by its name, in order."""
    files: dict[str, Callable[[], bytes]] = {
        str(Path(scene.name).with_suffix(f".{ending}")): partial(make, scene, sheets)
        for scene in scenes
        for ending, make in FORMATS.items()
        if ending in formats
    }
    if "pdf" in formats and len(scenes) > 1:
        files[TOGETHER] = partial(drawings_pdf, scenes, sheets)
    return files
