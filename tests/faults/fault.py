"""One fault: what is given to the command, and how it may end."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MEMORY_MOST = 2**30
"""Peak memory of a command that is given a fault [bytes]."""
SECONDS_MOST = 90.0
"""Longest that it may take, on a busy machine [s]."""


@dataclass(frozen=True)
class Given:
    """What is given.

    Attributes
    ----------
    args
        After `casewright`.
    stdin
        Pasted [bytes].
    keep
        Files, by path below the folder, whose content must stay as it is.
    new
        Files that may come to be, whole.
    meanwhile, undo
        Done again and again while it runs; and at the end, before the folder is removed.
    """

    args: tuple[str, ...]
    stdin: bytes = b""
    keep: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    meanwhile: Callable[[], None] | None = None
    undo: Callable[[], None] | None = None


@dataclass(frozen=True)
class Fault:
    """A fault that is tried.

    Attributes
    ----------
    kind, what
        In the table.
    make
        Lays files into a folder and says what to run there.
    codes
        Exit codes that are right.
    says
        Part of what must be said, on either stream.
    """

    kind: str
    what: str
    make: Callable[[Path], Given]
    codes: tuple[int, ...]
    says: str = ""


@dataclass
class Tried:
    """How it ended."""

    fault: Fault
    code: int
    seconds: float
    memory: int
    """[bytes]"""
    wrong: list[str] = field(default_factory=list)


def tried(fault: Fault) -> Tried:
    """Try a fault in a folder of its own, and say all that is wrong with how it ends."""
    with tempfile.TemporaryDirectory(prefix="casewright-fault-") as name:
        folder = Path(name)
        given = fault.make(folder)
        try:
            before = _contents(folder)
            result, said = _run(fault, given, folder)
            result.wrong += _wrong(fault, result, said)
            result.wrong += _touched(given, before, _contents(folder))
        finally:
            if given.undo is not None:
                given.undo()
    return result


def _run(fault: Fault, given: Given, folder: Path) -> tuple[Tried, str]:
    out, err, pasted = (folder.parent / f"{folder.name}.{end}" for end in ("out", "err", "in"))
    pasted.write_bytes(given.stdin)
    start = time.monotonic()
    try:
        with out.open("wb") as o, err.open("wb") as e, pasted.open("rb") as i:
            process = subprocess.Popen(
                [sys.executable, "-m", "cli", *given.args],
                cwd=folder, stdin=i, stdout=o, stderr=e,
                env={**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80"},
            )  # fmt: skip
            status, memory = _ended(process, given, start + SECONDS_MOST)
        said = (out.read_bytes() + err.read_bytes()).decode("utf-8", errors="replace")
    finally:
        for path in (out, err, pasted):
            path.unlink(missing_ok=True)
    return Tried(fault, status, time.monotonic() - start, memory), said


def _ended(process: subprocess.Popen[bytes], given: Given, latest: float) -> tuple[int, int]:
    """Return exit code and peak memory [bytes]; a command that does not end is killed."""
    while True:
        pid, status, usage = os.wait4(process.pid, os.WNOHANG)
        if pid:
            process.returncode = os.waitstatus_to_exitcode(status)
            return process.returncode, usage.ru_maxrss * 1024
        if time.monotonic() > latest:
            process.kill()
        if given.meanwhile is not None:
            given.meanwhile()
        time.sleep(0.01)


def _wrong(fault: Fault, result: Tried, said: str) -> list[str]:
    wrong = []
    if result.code not in fault.codes:
        wrong.append(f"exit {result.code}, not {fault.codes}: {said[-300:]}")
    if "Traceback" in said:
        wrong.append(f"a traceback: {said[-300:]}")
    if result.memory > MEMORY_MOST:
        wrong.append(f"{result.memory / 2**20:.0f} MiB of memory")
    if result.code != 0 and "casewright:" not in said and "Usage:" not in said:
        wrong.append("it ends without a word")
    if fault.says and fault.says not in " ".join(said.split()):
        wrong.append(f"{fault.says!r} is not said: {said[-300:]}")
    return wrong


def _contents(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.is_symlink()
    }


def _touched(given: Given, before: dict[str, bytes], after: dict[str, bytes]) -> list[str]:
    wrong = [f"{name} is gone" for name in before if name not in after]
    wrong += [
        f"{name} has changed"
        for name in given.keep
        if name in after and after[name] != before.get(name)
    ]
    wrong += [f"{name} was left behind" for name in after if name not in {*before, *given.new}]
    return wrong
