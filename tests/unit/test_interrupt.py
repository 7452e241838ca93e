"""Ctrl-C: the search is asked to stop at once, and its best answer is kept."""

from __future__ import annotations

import os
import signal
import threading
import time

import pytest

from cli.run.faults import caused_by_interrupt, run_stoppable
from solver.outcome import Stopper


def interrupt_soon() -> None:
    threading.Timer(0.2, lambda: os.kill(os.getpid(), signal.SIGINT)).start()


def test_the_result_is_returned_and_the_old_handler_is_back() -> None:
    before = signal.getsignal(signal.SIGINT)

    assert run_stoppable(lambda: 42, Stopper()) == 42
    assert signal.getsignal(signal.SIGINT) is before


def test_an_error_is_raised_where_the_work_was_asked_for() -> None:
    def fail() -> None:
        msg = "no"
        raise ZeroDivisionError(msg)

    with pytest.raises(ZeroDivisionError, match="no"):
        run_stoppable(fail, Stopper())


def test_an_interrupt_stops_the_search_while_it_runs_and_keeps_its_answer(
    capsys: pytest.CaptureFixture[str],
) -> None:
    stopper = Stopper()
    stopped = threading.Event()
    stopper.register(stopped.set)

    def search() -> str:
        return "best so far" if stopped.wait(20) else "ran to the end"

    interrupt_soon()

    assert run_stoppable(search, stopper) == "best so far"
    assert "Ctrl-C again" in capsys.readouterr().err


def test_a_second_interrupt_leaves_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    codes: list[int] = []
    monkeypatch.setattr(os, "_exit", codes.append)
    stopper = Stopper()
    stopper.stop()
    interrupt_soon()

    run_stoppable(lambda: time.sleep(0.6), stopper)

    assert codes == [130]


def test_something_is_done_meanwhile() -> None:
    calls: list[int] = []

    run_stoppable(lambda: time.sleep(0.35), Stopper(), lambda: calls.append(1))

    assert len(calls) >= 2


def test_an_error_that_loading_a_package_makes_of_ctrl_c_is_known_for_what_it_is() -> None:
    """As an extension module does: ImportError("initialization failed") from KeyboardInterrupt."""
    msg = "initialization failed"
    with pytest.raises(ImportError) as raised:
        raise ImportError(msg) from KeyboardInterrupt()

    assert caused_by_interrupt(raised.value)
    assert not caused_by_interrupt(ImportError(msg))
