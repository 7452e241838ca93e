"""What is fuzzed: a text or bytes in, a right answer or the project's own error out."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cli.files.job_file import read_job
from cli.files.reading import decode
from cli.files.workbooks import read_workbook
from solver.errors import InputError
from solver.listing.line_readings import Listing
from solver.listing.read import read_listing
from solver.units import HEAVIEST, LONGEST, Unit, format_length, parse_length, parse_mass

FOLDER = Path(__file__).parent / "seeds"
FINEST = {"in": 8128 // 64, "mm": 16}
"""Half the step in which lengths are printed: 1/32 in, 0.1 mm [tick]."""


@dataclass(frozen=True)
class Target:
    """One reader, and what a sensible user would give it.

    Attributes
    ----------
    run
        Raises where the reader does what it must not.
    longest
        Longest input that is tried [bytes].
    """

    run: Callable[[bytes], None]
    longest: int


def _unit(data: bytes) -> Unit:
    return "mm" if data[:1] > b"\x7f" else "in"


def lengths(data: bytes) -> None:
    """A length or a mass is whole and within its bounds, and reads back as it is printed."""
    unit, text = _unit(data), data[1:].decode("utf-8", errors="replace")
    with contextlib.suppress(InputError):
        ticks = parse_length(text, unit)
        assert isinstance(ticks, int)
        assert -LONGEST <= ticks <= LONGEST
        printed = format_length(ticks, unit)
        again = parse_length(printed.rstrip("+−"), unit)
        assert abs(again - ticks) <= FINEST[unit]
        assert (again != ticks) == printed.endswith(("+", "−"))
    with contextlib.suppress(InputError):
        assert 0 <= parse_mass(text, unit) <= HEAVIEST


def inventory(data: bytes) -> None:
    """No line of a list is lost; each is a thing, skipped with a reason, or has a problem."""
    with contextlib.suppress(InputError):
        text, _ = decode(data[1:], "list")
        accounted_for(read_listing(text, _unit(data)))


def workbook(data: bytes) -> None:
    """The bytes of an .xlsx file are a list, or not readable."""
    with contextlib.suppress(InputError):
        accounted_for(read_workbook(data[1:], "list.xlsx", _unit(data), None))


def job(data: bytes) -> None:
    """The bytes of a job file are a job, or an error that names the file."""
    path = _place() / "job.toml"
    path.write_bytes(data)
    assert _hash_or_message(path)


def _hash_or_message(path: Path) -> str:
    """Return the job's hash, or what is said against it where that names the file."""
    try:
        return read_job(str(path)).hash
    except InputError as error:
        return str(error) if str(path) in str(error) else ""


def accounted_for(listing: Listing) -> None:
    """Raise where a line of a list is neither a thing, nor skipped, nor refused."""
    for line in listing.lines:
        skipped = line.skipped is not None and not line.problems
        assert bool(line.item) + bool(line.problems) + skipped == 1
    counted = sum(line.item.count for line in listing.lines if line.item)
    assert counted == sum(item.count for item in listing.items)


_made: list[Path] = []


def _place() -> Path:
    """A folder of this process for job files, in memory where the machine has such a place."""
    if not _made:
        memory = Path("/dev/shm")
        parent = str(memory) if os.access(memory, os.W_OK) else None
        _made.append(Path(tempfile.mkdtemp(prefix="casewright-fuzz-", dir=parent)))
    return _made[0]


TARGETS: dict[str, Target] = {
    "lengths": Target(lengths, 64),
    "inventory": Target(inventory, 512),
    "workbook": Target(workbook, 8192),
    "job": Target(job, 2048),
}
