"""A few faults of each kind; `python -m tests.faults` tries all, tests/faults.md lists them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.faults import places, texts, tomls, workbooks
from tests.faults.fault import Fault, Given, tried
from tests.faults.interrupts import interrupted, killed

CHOSEN = {
    "8 bytes of nothing": texts.FAULTS[0],
    **{
        fault.what: fault
        for fault in (*texts.FAULTS, *tomls.FAULTS, *workbooks.FAULTS, *places.FAULTS)
        if fault.what
        in (
            "mixed line ends",
            "HTML",
            "100,000 lines",
            "a key of 20,000 parts",
            "100,000 brackets",
            "a bomb of 500 MB",
            "entities within entities",
            "a link that leads out of it",
            "a device that is full",
        )
    },
}


@pytest.mark.parametrize("what", CHOSEN)
def test_a_fault_ends_in_an_answer_or_a_clear_error(what: str) -> None:
    assert tried(CHOSEN[what]).wrong == []


def test_a_fault_that_ends_wrongly_is_told() -> None:
    """A good file for which an error is expected, and a file left that nobody named."""
    fine = next(fault for fault in tomls.FAULTS if fault.what == "as it should be")

    assert any("exit 0" in wrong for wrong in tried(replace(fine, codes=(2,))).wrong)
    loose = Fault("files", "a list", _writes, (0,))
    assert any("left behind" in wrong for wrong in tried(loose).wrong)


def _writes(_folder: Path) -> Given:
    return Given(("new", "made.toml", "--yes"))


@pytest.mark.slow
def test_interrupts_at_a_few_moments_lose_nothing() -> None:
    assert interrupted(1).wrong == []
    assert killed(1).wrong == []
