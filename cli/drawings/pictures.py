"""Pictures of things: PNG and JPEG files that the job names, read from beside it."""

from __future__ import annotations

import struct
from pathlib import Path
from typing import Literal

from cli.drawings.fonts import printable
from cli.drawings.shapes import Picture
from solver.errors import InputError
from solver.job.job import Job

LARGEST = 4_000_000
"""Most bytes of one picture."""
ALL = 40_000_000
"""Most bytes of all pictures of a job together."""
DOTS = 30_000_000
"""Most dots of one picture."""
_STARTS: dict[bytes, Literal["png", "jpeg"]] = {
    b"\x89PNG\r\n\x1a\n": "png",
    b"\xff\xd8\xff": "jpeg",
}


def read_pictures(job: Job, beside: str) -> dict[str, Picture]:
    """Return the picture of each kind that has one, by the name of the kind.

    Parameters
    ----------
    job
        Its items name files, from the folder of the job file on.
    beside
        The job file, or the plan made of it: pictures are looked for in its folder.

    Raises
    ------
    InputError
        Where a file cannot be read, lies outside that folder, is no PNG or JPEG, or is too
        large. Nothing else of the file is looked at.
    """
    folder = Path(beside).resolve().parent
    pictures: dict[str, Picture] = {}
    total = 0
    for item in job.items:
        if item.picture is None or item.name in pictures:
            continue
        picture = _read(folder, item.picture, item.name)
        total += len(picture.data)
        if total > ALL:
            msg = f"the pictures have more than {ALL // 1_000_000} MB together; make them smaller"
            raise InputError(msg, beside)
        pictures[item.name] = picture
    return pictures


def _read(folder: Path, name: str, item: str) -> Picture:
    where = f"{folder / name}"
    try:
        path = (folder / name).resolve()
        if not path.is_relative_to(folder):
            msg = f"the picture of {item!r} is outside the job's folder; put it beside the job file"
            raise InputError(msg, name)
        if path.stat().st_size > LARGEST:
            msg = (
                f"the picture of {item!r} has more than {LARGEST // 1_000_000} MB; make it smaller"
            )
            raise InputError(msg, where)
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"the picture of {item!r} cannot be read: {reason}"
        raise InputError(msg, where) from error
    for start, kind in _STARTS.items():
        if data.startswith(start):
            _check_dots(data, kind, item, where)
            return Picture((0.0, 0.0), 0.0, 0.0, data, kind, printable(item))
    msg = f"the picture of {item!r} is neither PNG nor JPEG"
    raise InputError(msg, where)


def _check_dots(data: bytes, kind: str, item: str, where: str) -> None:
    """Raise InputError where a picture would be too large once it is unpacked, or is damaged."""
    try:
        wide, high = png_dots(data) if kind == "png" else jpeg_dots(data)
    except (struct.error, IndexError):
        wide = high = 0
    if not wide or not high:
        msg = f"the picture of {item!r} is damaged: its size cannot be read"
        raise InputError(msg, where)
    if wide * high > DOTS:
        msg = f"the picture of {item!r} has {wide} x {high} dots; make it smaller"
        raise InputError(msg, where)


def png_dots(data: bytes) -> tuple[int, int]:
    """Return width and height of a PNG [-], from its first chunk (ISO/IEC 15948, 11.2.2)."""
    wide, high = struct.unpack_from(">II", data, 16)
    return wide, high


def jpeg_dots(data: bytes) -> tuple[int, int]:
    """Return width and height of a JPEG [-], from its frame header (ITU-T T.81, B.2.2)."""
    at = 2
    while True:
        mark, kind, length = struct.unpack_from(">BBH", data, at)
        if mark != 0xFF:
            return 0, 0
        if 0xC0 <= kind <= 0xCF and kind not in (0xC4, 0xC8, 0xCC):
            high, wide = struct.unpack_from(">HH", data, at + 5)
            return wide, high
        at += 2 + length
