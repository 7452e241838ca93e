"""Ctrl-C keeps the best plan so far; a second one ends the program at once."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import contextmanager
from types import FrameType
from typing import TypeVar

from solver.outcome import Stopper

T = TypeVar("T")

INTERRUPTED = 130
"""Exit code of an interrupted command: 128 + SIGINT."""


@contextmanager
def stops_on_interrupt(stopper: Stopper) -> Iterator[None]:
    """Let Ctrl-C ask the searches to stop; the solver itself swallows the signal.

    The second Ctrl-C leaves without any clean-up: nothing is written while a
    search runs, and its threads would otherwise be waited for.
    """

    def handler(_signal: int, _frame: FrameType | None) -> None:
        if stopper.stopped:
            _show_cursor()
            os._exit(INTERRUPTED)
        stopper.stop()
        print("casewright: stopping; Ctrl-C again to leave at once", file=sys.stderr, flush=True)

    before = signal.signal(signal.SIGINT, handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def came_of_interrupt(error: BaseException | None) -> bool:
    """Whether Ctrl-C is behind an error: a package that is being loaded makes another of it."""
    while error is not None:
        if isinstance(error, KeyboardInterrupt):
            return True
        error = error.__cause__ or error.__context__
    return False


def _show_cursor() -> None:
    """Bring back the cursor that a status line hides."""
    if sys.stderr.isatty():
        print("\x1b[?25h", file=sys.stderr, flush=True)


def run_stoppable(
    work: Callable[[], T], stopper: Stopper, meanwhile: Callable[[], None] = lambda: None
) -> T:
    """Run `work` in a thread of its own and return its result, or raise its error.

    The calling thread waits in short steps, so that the interrupt handler runs at
    once, and calls `meanwhile` ten times a second.
    """
    future: Future[T] = Future()
    thread = threading.Thread(target=_settle, args=(future, work), daemon=True)
    with stops_on_interrupt(stopper):
        thread.start()
        while thread.is_alive():
            thread.join(0.1)
            meanwhile()
    return future.result()


def _settle(future: Future[T], work: Callable[[], T]) -> None:
    try:
        future.set_result(work())
    except BaseException as error:
        future.set_exception(error)
