"""What is said to bind binds: without it alone everything fits, and with the first cure too."""

from __future__ import annotations

from typing import Any

import pytest

from tests.near_jobs import thing, tight_job
from tests.reasons import first_cure_does, fits_without, impossible, option_of


def test_without_the_limit_named_everything_fits_and_the_first_cure_does() -> None:
    found = list(impossible(20))

    assert sum(bool(option.binds and option.changes) for _, option in found) >= 16
    for job, option in found:
        for one in option.binds[:1]:
            assert fits_without(job, one.limits), option.why
        assert first_cure_does(job, option), (option.why, option.changes[0].text)


ROOMY = {"width": "800", "height": "800", "depth": "150", "shelves": 0, "back": "none"}
JUG = thing("jug", "100x100x100")


@pytest.mark.parametrize(
    ("limit", "enough", "too_little"),
    [
        # 150 deep, nothing kept free in front
        ("depth", ({**JUG, "depth": "150"}, {}), ({**JUG, "depth": "151"}, {})),
        # 800 - 2 x 18 = 764 high, 20 over it
        ("height", ({**JUG, "height": "744"}, {}), ({**JUG, "height": "745"}, {})),
        # 800 - 2 x 18 - 2 x 10 = 744 wide
        ("width", ({**JUG, "width": "744"}, {}), ({**JUG, "width": "745"}, {})),
        ("load", (JUG, {"shelf_load": "1 kg"}), (JUG, {"shelf_load": "0.99 kg"})),
        ("most clear height", (JUG, {"clear_most": "764"}), (JUG, {"clear_most": "763"})),
        ("least clear height", (JUG, {"clear_least": "764"}), (JUG, {"clear_least": "765"})),
    ],
    ids=["depth", "height", "width", "load", "most clear", "least clear"],
)
def test_a_limit_binds_where_a_little_more_is_asked_and_not_before(
    limit: str,
    enough: tuple[dict[str, Any], dict[str, Any]],
    too_little: tuple[dict[str, Any], dict[str, Any]],
) -> None:
    kept, over = (
        option_of(tight_job(item, case=ROOMY, look=look)) for item, look in (enough, too_little)
    )

    assert kept.fits_all
    assert not kept.binds
    assert (limit,) in [one.limits for one in over.binds]
    assert over.binds[0].proven


def test_too_wide_is_said_only_where_the_width_binds() -> None:
    """Two things of 6 kg on a shelf that bears 10, with room for both beside each other."""
    heavy = tight_job(
        thing("pot", "200x200x100", 2, weight="6 kg"), case=ROOMY, look={"shelf_load": "10 kg"}
    )
    (left,) = option_of(heavy).left_out

    assert left.short_by.width is None
    assert left.short_by.load == 2 * 6000 - 10_000


def test_no_length_is_offered_that_an_alcove_has_not() -> None:
    """A thing of 500 in an alcove of 520: 520 - 2 x 18 of boards is less, however it is fitted."""
    job = tight_job(
        thing("chest", "500x100x100"),
        case={"kind": "built-in", "doorway": "alcove", "sizes": "outside", "width": "480"},
        doorway=[{"name": "alcove", "widths": ["520"], "heights": ["900"]}],
    )
    option = option_of(job)

    assert option.binds[0].limits == ("width",)
    assert "width" not in [one.what for one in option.changes]
