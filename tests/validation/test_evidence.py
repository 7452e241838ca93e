"""Every row of the evidence: our figure is the published one, and the list is broad enough."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.evidence.check import Check, Footing, made
from solver.evidence.every import CHECKS

PUBLISHED = (Footing.READ, Footing.QUOTED)


def name(check: Check) -> str:
    return f"{check.topic}: {check.what}"


@pytest.mark.parametrize("check", CHECKS, ids=name)
def test_our_figure_is_the_one_printed(check: Check) -> None:
    (outcome,) = made((check,))

    assert outcome.holds, f"{check.source}: {check.printed} {check.unit}, ours {outcome.ours}"


@pytest.mark.parametrize("check", CHECKS, ids=name)
def test_a_figure_that_was_otherwise_would_be_told(check: Check) -> None:
    """No row is so wide that it always holds: a quarter more, or one for nought, is off."""
    (outcome,) = made((replace(check, printed=check.printed * 1.25 + (check.printed == 0)),))

    assert not outcome.holds


def test_sixty_published_figures_from_fifteen_sources_are_met() -> None:
    published = [check for check in CHECKS if check.footing in PUBLISHED]

    assert len(published) >= 60
    assert len({check.source for check in published}) >= 15


def test_no_question_is_asked_twice() -> None:
    assert len({name(check) for check in CHECKS}) == len(CHECKS)
