"""How a piece of solving ended, what was proven, and what may limit it."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import Enum, StrEnum
from importlib.metadata import PackageNotFoundError, version
from typing import TypeAlias

Progress: TypeAlias = Callable[[str], None]
"""Called with one line that says what is known so far, from any thread."""


class Status(StrEnum):
    """The four answers a search can give; they are never mixed up."""

    OPTIMAL = "optimal"
    FEASIBLE = "feasible"
    INFEASIBLE = "infeasible"
    UNKNOWN = "unknown"


class Verdict(Enum):
    """Answer to a question of yes or no that a search is asked."""

    YES = "yes"
    NO = "no"
    """Proven."""
    UNSETTLED = "unsettled"
    """Neither found nor proven impossible by the limit."""


class Stopper:
    """A switch that asks every running search to stop and keep the best it has.

    The interrupt handler calls :meth:`stop`; searches register what ends them.
    """

    def __init__(self) -> None:
        self._event = threading.Event()
        self._lock = threading.Lock()
        self._callbacks: dict[int, object] = {}

    @property
    def stopped(self) -> bool:
        """True once somebody asked to stop."""
        return self._event.is_set()

    def stop(self) -> None:
        """Ask all searches to stop."""
        self._event.set()
        with self._lock:
            callbacks = list(self._callbacks.values())
        for callback in callbacks:
            callback()  # type: ignore[operator]

    def register(self, callback: object) -> int:
        """Call `callback()` when stopped; returns a key for :meth:`forget`."""
        with self._lock:
            key = id(callback)
            self._callbacks[key] = callback
        if self.stopped:
            callback()  # type: ignore[operator]
        return key

    def forget(self, key: int) -> None:
        """Take a registered callback back."""
        with self._lock:
            self._callbacks.pop(key, None)


@dataclass(frozen=True)
class Limits:
    """All that may change the outcome of a solve besides its input.

    Attributes
    ----------
    seed
        Random seed of every search [-]. The default is 1.
    work
        Deterministic work allowed for one stage of one model [CP-SAT units, about
        a second each]. Repeats exactly.
    seconds
        Wall-clock backstop for the whole command [s]; a plan that it cuts short
        says so. Starts when the object is made.
    stopper
        The switch that the interrupt handler uses.
    grace
        Time that a search stopped before its first layout may still take to find any
        layout [s]; 0: none.
    """

    seed: int = 1
    work: float = 4.0
    seconds: float = 60.0
    stopper: Stopper = field(default_factory=Stopper, compare=False)
    started: float = field(default_factory=time.monotonic, compare=False)
    grace: float = 0.0

    @property
    def seconds_left(self) -> float:
        """Wall-clock seconds left, at least 0 [s]."""
        return max(0.0, self.seconds - (time.monotonic() - self.started))

    def until(self, share: float) -> Limits:
        """Return limits that end when a share [-] of the time that is left is gone."""
        return replace(self, seconds=self.seconds - self.seconds_left * (1 - share))

    def after_the_stop(self) -> Limits:
        """Return limits for the time of grace where somebody asked to stop; else these."""
        if not (self.grace and self.stopper.stopped):
            return self
        now = time.monotonic()
        return replace(self, seconds=self.grace, started=now, stopper=Stopper(), grace=0.0)

    @property
    def over(self) -> bool:
        """True where the time is up or somebody asked to stop."""
        return self.stopper.stopped or self.seconds_left <= 0


def program_version() -> str:
    """Return the version of the program, as plans carry it."""
    try:
        return version("casewright")
    except PackageNotFoundError:
        return "0.1.0"
