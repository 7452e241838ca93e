"""Every formula in inches and pounds and in millimetres and newtons, and there and back.

Formulas that take any units that belong together are tried as they are
(:mod:`tests.property.test_strength_formulas` has most of them); those fitted in inches, and whole
hanging sheets, by the same case ordered once in inches and once in millimetres.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Any

import pytest

from solver.job import boards
from solver.outcome import Limits
from solver.plan.hanging import HangSheet
from solver.planning.plan_job import plan_job
from solver.strength import beams, fasteners, hinges, stability
from tests.builders import make_job
from tests.property.test_strength_formulas import BOTH, IN

RATIOS: dict[str, Callable[[float], tuple[float, float]]] = {
    "long_term": lambda f: (beams.long_term(0.1 * f), f),
    "allows": lambda f: (beams.INDUSTRY.allows(32 * f), f),
    "first_day_ratio": lambda _: (beams.first_day_ratio(beams.DISPLAY_LONG, 2.0), 1.0),
    "end_load_share": lambda f: (beams.end_load_share(5 * f, 30 * f, 0.5 * f), 1.0),
    "inset_load_share": lambda f: (beams.inset_load_share(30 * f, 0.5 * f), 1.0),
    "movement": lambda f: (boards.movement(3 * f, 0.00289, 4), f),
    "studs_behind": lambda f: (stability.studs_behind(40 * f, 16 * f), 1.0),
    "neutral_axis": lambda f: (
        beams.neutral_axis(
            beams.shelf_strips((9.25 * f, 0.75 * f, 1e6), (0.75 * f, 0, 0.5 * f, 2e6))
        ),
        f,
    ),
}
"""Formulas of lengths alone: (the value in a unit f times as small, what it scales by)."""

NAMED = {
    *("inertia", "even_load_sag", "patch", "stiffness", "shelf_strips"),
    *("longest_span", "most_load", "pull", "plan_arm", "pull_with", "rated_weight", "droop"),
    *("shear_flow", "fastener_load", "panel_droop", "joint_moment", "tipping_pull"),
    *("behind_when_tilted", "edge_load", "wall_tension"),
}
"""Formulas in the table of the other module."""

INCHES = {
    *("withdrawal_ultimate", "withdrawal_allowable", "lateral_allowable", "screws_in_joint"),
    *("hinge_count", "case_hinge_count", "leaf_height", "density_of", "back_needed"),
}
"""Fitted or tabled in inches, or in mm alone: both printed forms are held together in
tests/validation, and the twin cases below go through them."""


def public(module: Any) -> set[str]:
    """Names of the formulas: what works on ticks, jobs and plans is none, and has no float."""
    return {
        name
        for name, found in vars(module).items()
        if inspect.isfunction(found)
        and found.__module__ == module.__name__
        and not name.startswith("_")
        and "float" in str(inspect.signature(found))
    }


def test_no_formula_is_left_out() -> None:
    modules = (beams, fasteners, hinges, stability, boards)
    named = NAMED | INCHES | set(RATIOS)

    assert set().union(*(public(module) for module in modules)) <= named
    assert len(BOTH) >= len(NAMED) - 1  # a lip takes two of them


@pytest.mark.parametrize("name", RATIOS)
def test_a_formula_of_lengths_alone_scales_with_the_unit(name: str) -> None:
    (inches, _), (metric, scale) = RATIOS[name](1.0), RATIOS[name](IN)

    assert metric == pytest.approx(inches * scale, rel=1e-9)
    assert metric / scale == pytest.approx(inches, rel=1e-9)


def twin(unit: str, kind: str) -> HangSheet:
    """The sheet of one case; every length is the same, written in the unit."""

    def long(inches: float) -> str:
        return f"{inches} in" if unit == "in" else f"{inches * 25.4:.6f} mm"

    def heavy(pounds: float) -> str:
        return f"{pounds} lb"

    size = {"width": long(28), "height": long(70), "depth": long(8), "shelves": 2}
    door = {"name": "door", "widths": [long(31)], "heights": [long(72)], "hinge_side": "left"}
    job = make_job(
        unit=unit,
        job={"marking_step": long(0.0625)},
        case={**size, "kind": kind, "doorway": "door", "above_floor": long(0.75),
              "back_inset": long(0.125), "lip": {"moulding": "lip", "above": long(0.25)}},
        doorway=[{**door, "swing": "out", "old_mortises": [long(7), long(60)],
                  "hinge_gap": long(0.125), "head_gap": long(0.125), "floor_gap": long(0.5),
                  "running_clearance": long(0.125)}],
        items=[{"name": "urn", "width": long(6), "height": long(9), "depth": long(5),
                "weight": heavy(9), "count": 5}],
        sheet=[{"name": n, "material": n, "length": long(96), "width": long(48), "thickness": t}
               for n, t in (("ply", long(0.75)), ("back", long(0.25)))],
        moulding=[{"name": "lip", "width": long(1.5), "thickness": long(0.75),
                   "lengths": [{"length": long(96)}]}],
        look={"headroom": long(1), "lift": long(0.5), "gap": long(0.5), "end_margin": long(0.5),
              "front_margin": long(0.25), "clear_least": long(4), "rhythm": "even",
              "eye_level": long(60), "shelf_load": heavy(40)},
        shop={"kerf": long(0.125), "edge_trim": long(0.25), "cutting_step": long(0.0625)},
        site={"abuse_load": heavy(60), "screw_thread": long(1), "stud_spacing": long(16)},
    )  # fmt: skip
    named = job.cases[0].model_copy(update={"material": "ply", "back": "back"})
    job = job.model_copy(update={"cases": (named,)})
    (option,) = plan_job(job, Limits(seed=1, work=0.05, seconds=30), near=False).options
    assert option.hanging is not None
    return option.hanging.cases[0]


OWN_STEPS = {"fastener"}
"""Figures for a spacing that is 6 in or 150 mm, as fasteners are spaced in either unit."""


@pytest.mark.parametrize("kind", ["hung", "wall", "standing"])
def test_the_same_case_in_inches_and_in_millimetres_has_the_same_figures(kind: str) -> None:
    inches, metric = twin("in", kind), twin("mm", kind)

    assert (inches.empty, inches.contents, inches.hinges) == (
        metric.empty,
        metric.contents,
        metric.hinges,
    )
    assert inches.centre == metric.centre
    pairs = list(zip(inches.figures, metric.figures, strict=True))
    assert len(pairs) >= 4
    for ours, theirs in pairs:
        assert (ours.key, ours.ok) == (theirs.key, theirs.ok)
        if ours.key not in OWN_STEPS:
            assert ours.value == pytest.approx(theirs.value, rel=1e-9), ours.key
