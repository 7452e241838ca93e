"""Every fault that this machine can try."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

from tests.faults import places, texts, tomls, workbooks
from tests.faults.fault import Fault, Given


def every() -> Iterator[Fault]:
    """Yield them in the order of the table."""
    yield from texts.FAULTS
    yield from tomls.FAULTS
    yield from workbooks.FAULTS
    yield from places.FAULTS
    if os.geteuid() != 0:  # root writes everywhere
        yield places.READ_ONLY
    else:
        yield _mounted("ro,size=1m", places.READ_ONLY)
        yield _mounted("size=64k", places.FULL_DISK)


def _mounted(options: str, fault: Fault) -> Fault:
    """Return the fault on a small disk of its own, which only root can mount."""

    def make(folder: Path) -> Given:
        first = ",".join(part for part in options.split(",") if part != "ro")
        _mount(("-t", "tmpfs", "-o", first, "tmpfs", str(folder)))
        given = fault.make(folder)
        if "ro" in options.split(","):
            _mount(("-o", "remount,ro", str(folder)))
        return replace(given, undo=partial(_unmount, folder))

    return Fault(fault.kind, fault.what, make, fault.codes, fault.says)


def _mount(args: tuple[str, ...]) -> None:
    subprocess.run(["mount", *args], check=True)


def _unmount(folder: Path) -> None:
    subprocess.run(["umount", str(folder)], check=True)
