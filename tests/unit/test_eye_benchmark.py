"""The eye command: its figures on fronts worked by hand, its collections as they were fixed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from solver.units import inches
from tests.benchmark.eye_collections import COUNTS, PICTURES, SUMS, counts, draw, settled
from tests.benchmark.eye_fronts import Front, Space, Thing
from tests.benchmark.eye_hand import faults
from tests.benchmark.eye_pairs import make_pairs, tally
from tests.benchmark.eye_pictures import COLOURS, WOOD, kinds_of, picture, picture_svg
from tests.benchmark.eye_sums import Sums, outline_areas, sums


def thing(item: str, x: str, width: str, height: str) -> Thing:
    return Thing(item, inches(x), 0, inches(width), inches(height), place=True)


def space(height: str, *things: Thing) -> Space:
    return Space(0, inches(height), things)


def front(*spaces: Space) -> Front:
    return Front(inches(10), spaces, inches("1/16"))


def test_collections_are_those_that_were_settled() -> None:
    for one in settled(PICTURES + SUMS):
        drawn = draw(one.seed, one.attempt)
        assert one.job
        assert 6 <= len(drawn.kinds) <= 12
        assert 20 <= drawn.things <= 45
        assert one.shelves in counts(drawn)
        assert one.shelves in COUNTS


def test_outline_of_one_thing_at_the_side_has_no_mirror_image() -> None:
    apart, below = outline_areas(inches(10), [thing("a", "0", "2", "3")])
    assert apart == 2 * below == 2 * inches(2) * inches(3)


def test_outline_counts_only_what_overhangs_its_mirror_image() -> None:
    # 3 high on the left and 1 high on the right: 2 too much over 2 in, on each side.
    row = [thing("a", "1", "2", "3"), thing("b", "7", "2", "1")]
    apart, below = outline_areas(inches(10), row)
    assert apart == 2 * inches(2) * inches(2)
    assert below == inches(2) * inches(3) + inches(2) * inches(1)


def test_sums_of_a_front_by_hand() -> None:
    found = sums(
        front(
            space("12", thing("a", "1", "2", "3"), thing("a", "7", "2", "3")),
            space("8", thing("a", "1", "2", "3"), thing("b", "7", "2", "3")),
            space("9", thing("b", "4", "2", "3")),
        )
    )
    # a: three things on two shelves, one alone; b: only two of it. Steps 4 and -1.
    # The middle shelf has one a and one b: one odd kind too many.
    assert found == Sums(0, parted=2, single=1, rises=1, range=5.0, odd=1, outline=0.0)


def test_picture_has_colours_and_no_lettering() -> None:
    plan = json.loads(Path("fixtures/plan-two-bays.json").read_text("utf-8"))
    drawn = picture_svg(plan)
    (case,) = plan["options"][0]["cases"]
    openings = [opening for bay in case["bays"] for opening in bay["openings"]]
    for name, colour in zip(kinds_of(plan), COLOURS, strict=False):
        standing = sum(one["item"] == name for opening in openings for one in opening["items"])
        assert drawn.count(f'fill="{colour}"') == standing
    assert WOOD in drawn
    assert "<text" not in drawn
    assert picture(plan).startswith(b"\x89PNG")


def test_pairs_are_made_twice_with_sides_exchanged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tests.benchmark.eye_pairs.side_by_side", lambda *_: b"")
    plans: dict[int, dict[str, Any]] = {seed: {} for seed in (1, 2, 3)}
    make_pairs(plans, plans, ("old", "new"), tmp_path / "out", tmp_path / "key.json", lot=1)
    key = json.loads((tmp_path / "key.json").read_text())
    for seed in plans:
        lefts = [one["left"] for one in key.values() if one["seed"] == seed]
        assert sorted(lefts) == ["new", "old"]
    assert len(list((tmp_path / "out").iterdir())) == len(key) == 6
    every_new = {pair: "left" if one["left"] == "new" else "right" for pair, one in key.items()}
    choices, collections = tally(key, [every_new, every_new])
    assert (dict(choices), dict(collections)) == ({"new": 12}, {"new": 3})


def test_hand_made_rows_are_held_to_headroom_and_gaps() -> None:
    base: dict[str, Any] = _plan(height=6, items=[("a", 1.0, 2.0, 3.0), ("a", 4.0, 2.0, 3.0)])
    assert list(faults(base, base)) == []
    close = _plan(height=6, items=[("a", 1.0, 2.0, 3.0), ("a", 3.25, 2.0, 3.0)])
    assert list(faults(close, base)) == ["opening 0: a and a are too close"]
    edge = _plan(height=6, items=[("a", 0.25, 2.0, 3.0), ("a", 4.0, 2.0, 3.0)])
    assert list(faults(edge, base)) == ["opening 0: the end margin is too small"]
    low = _plan(height=4, items=[("a", 1.0, 2.0, 3.5)])
    assert "opening 0: a has 0.500 in of headroom" in list(faults(low, low))


def _plan(height: float, items: list[tuple[str, float, float, float]]) -> dict[str, Any]:
    """A plan of one opening, as far as fronts read it; lengths in inches."""
    keys = "x", "width", "height"
    row = [
        {"item": name, "y": 0, "row": 1, **{k: 25.4 * v for k, v in zip(keys, at, strict=True)}}
        for name, *at in items
    ]
    opening = {"floor": 19.05, "height": 25.4 * height, "items": row}
    bay = {"x": 19.05, "inside": {"width": 254.0}, "openings": [opening]}
    return {
        "job": {"job": {"marking_step": 1.5875}},
        "options": [{"cases": [{"bays": [bay]}], "left_out": []}],
    }
