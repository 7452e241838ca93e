"""Files out: complete or not at all, and never over an existing file without being told to.

A file is written beside its place under a name of its own, flushed to the disk, and
then renamed; whoever looks sees the old file or the whole new one.
"""

from __future__ import annotations

import json
import os
import secrets
import stat
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from solver.errors import InputError
from solver.units import Unit

STDOUT = "-"
"""The path that stands for standard output."""


def write_text(path: str, text: str, *, force: bool) -> None:
    """Write `text` as UTF-8 to `path`; see :func:`write_bytes`."""
    write_bytes(path, text.encode("utf-8"), force=force)


def write_answer(
    path: str, kind: str, unit: Unit, data: Mapping[str, object], *, force: bool
) -> None:
    """Write `data` as JSON after the name of its schema and its unit; see :func:`write_bytes`."""
    head = {"schema": f"casewright/{kind}/1", "unit": unit}
    text = json.dumps({**head, **data}, ensure_ascii=False, indent=1)
    write_text(path, text + "\n", force=force)


def write_bytes(path: str, data: bytes, *, force: bool) -> None:
    """Write `data` to `path`, completely or not at all.

    Parameters
    ----------
    path
        A file, or ``-`` for standard output.
    data
        The content [bytes].
    force
        Whether an existing file may be replaced.

    Raises
    ------
    InputError
        Where the file exists and `force` is not given, or the place cannot be
        written to: no such folder, no permission, disk full. Nothing is left behind.
    """
    if path == STDOUT:
        _to_stdout(data)
        return
    check_target(path, force=force)
    target = Path(path).resolve()  # a link keeps pointing where it did
    with _explained(path):
        if target.exists() and not target.is_file():
            target.write_bytes(data)  # a pipe or a device is written to, never replaced
        else:
            _replace(target, data)


def check_target(path: str, *, force: bool) -> None:
    """Raise InputError where `path` could not be written; asked before long work starts."""
    if path == STDOUT:
        return
    target = Path(path)
    with _explained(path):
        if target.is_dir():
            msg = "this is a folder; give the name of a file in it"
            raise InputError(msg, path)
        if target.is_file() and not force:
            msg = "this file exists; give another name, or --force to replace it"
            raise InputError(msg, path)
        if not target.resolve().parent.is_dir():
            msg = "its folder does not exist; make the folder first"
            raise InputError(msg, path)


def check_targets(*paths: str | None, force: bool) -> None:
    """Check each path that is given, as :func:`check_target` does."""
    for path in paths:
        if path is not None:
            check_target(path, force=force)


def folder_of(job: str) -> str:
    """Return where the files of a job go unless another folder is given: one named after it."""
    return str(Path(job).with_suffix(""))


def make_folder(path: str) -> Path:
    """Return the folder `path`, made where only its last part is missing; else InputError."""
    folder = Path(path)
    with _explained(path):
        if folder.exists() and not folder.is_dir():
            msg = "this is a file; give the name of a folder"
            raise InputError(msg, path)
        if not folder.resolve().parent.is_dir():
            msg = "the folder it is to be made in does not exist; make that first"
            raise InputError(msg, path)
        folder.mkdir(exist_ok=True)
    return folder


def write_all(folder: str, files: Mapping[str, Callable[[], bytes]], *, force: bool) -> list[str]:
    """Write files into a folder, which is made where it is not there; return their paths.

    `files` has what makes the content of each, by its name. Raises InputError where a file
    exists and `force` is not given, before anything is made or written.
    """
    into = make_folder(folder)
    paths = [str(into / name) for name in files]
    check_targets(*paths, force=force)
    for path, content in zip(paths, files.values(), strict=True):
        write_bytes(path, content(), force=force)
    return paths


def silence_stdout() -> None:
    """Send the rest of standard output nowhere, so that a closed pipe is not complained about."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)


@contextmanager
def reader_may_stop() -> Iterator[None]:
    """Print within this; a reader that stops reading, like `head`, does not stop what follows."""
    try:
        yield
    except BrokenPipeError:
        silence_stdout()


def _to_stdout(data: bytes) -> None:
    sys.stdout.flush()
    sys.stdout.buffer.write(data)
    sys.stdout.buffer.flush()


def _replace(target: Path, data: bytes) -> None:
    """Write beside `target`, then rename; the half-written file is removed on any failure."""
    beside = target.with_name(f".casewright-{secrets.token_hex(8)}.tmp")
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else None
    try:
        with beside.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            beside.chmod(mode)
        beside.replace(target)
    except BaseException:
        with suppress(OSError):
            beside.unlink()
        raise


@contextmanager
def _explained(path: str) -> Iterator[None]:
    """Turn what the operating system says into an InputError about `path`."""
    try:
        yield
    except (OSError, ValueError) as error:
        if isinstance(error, InputError | BrokenPipeError):
            raise
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"cannot be written: {reason}; nothing is written there"
        raise InputError(msg, path) from error
