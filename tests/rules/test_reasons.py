"""What is said to bind binds: without it alone everything fits, and with the first cure too."""

from __future__ import annotations

from tests.reasons import first_cure_does, fits_without, impossible


def test_without_the_limit_named_everything_fits_and_the_first_cure_does() -> None:
    for job, option in impossible(20):
        assert option.binds, option.why
        assert fits_without(job, option.binds[0].limits), option.why
        assert first_cure_does(job, option), (option.why, option.changes[0].text)
