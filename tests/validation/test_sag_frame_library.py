"""Sag against a general-purpose frame analysis library, as a second opinion.

PyNite (MIT licence) builds the stiffness matrix of the beam; nothing of ours is in it.
"""

from __future__ import annotations

import pytest
from Pynite import FEModel3D

from solver.strength import beams

SPAN, STIFFNESS = 812.8, 1.5e9
MODULUS = 3447.0


def middle(low: float, high: float, load: float, *, clamped: bool = False) -> float:
    """Deflection at midspan of one beam under a load spread from `low` to `high` [mm]."""
    model = FEModel3D()
    model.add_node("left", 0, 0, 0)
    model.add_node("right", SPAN, 0, 0)
    model.add_material("wood", MODULUS, MODULUS / 16, 0.3, 1e-9)
    model.add_section("shelf", 100.0, 1e6, STIFFNESS / MODULUS, 1e6)
    model.add_member("shelf", "left", "right", "wood", "shelf")
    model.def_support("left", True, True, True, True, clamped, clamped)
    model.def_support("right", False, True, True, False, clamped, clamped)
    per = -load / (high - low)
    model.add_member_dist_load("shelf", "Fy", per, per, low, high)
    model.analyze()
    return -float(model.members["shelf"].deflection("dy", SPAN / 2, "Combo 1"))


@pytest.mark.parametrize(
    ("low", "high"),
    [(0, SPAN), (0, 200), (100, 300), (300, 700), (400, 410), (600, SPAN)],
)
def test_things_where_they_stand_sag_the_shelf_as_the_frame_library_says(
    low: float, high: float
) -> None:
    ours = beams.patch(150.0, low, high, SPAN, STIFFNESS)

    assert ours == pytest.approx(middle(low, high, 150.0), rel=1e-6)


def test_clamped_ends_would_sag_a_fifth_of_ours_as_the_assumptions_say() -> None:
    clamped = middle(0, SPAN, 150.0, clamped=True)

    assert 5 * clamped == pytest.approx(beams.even_load_sag(150.0, SPAN, STIFFNESS), rel=1e-6)


def test_a_shelf_with_a_lip_is_the_sum_of_its_rectangles_about_their_common_axis() -> None:
    # 235 x 19 board, 19 x 38 strip with its top flush, E of the strip twice that of the board
    board, strip = (235.0, 19.0, 9.5), (19.0, 38.0, 0.0)
    weights = [b * h * n for (b, h, _), n in ((board, 1), (strip, 2))]
    axis = (weights[0] * 9.5 + weights[1] * 0.0) / sum(weights)
    about = sum(
        n * (b * h**3 / 12 + b * h * (y - axis) ** 2) for (b, h, y), n in ((board, 1), (strip, 2))
    )

    strips = beams.shelf_strips((235.0, 19.0, MODULUS), (19.0, 0.0, 19.0, 2 * MODULUS))

    assert beams.stiffness(strips) == pytest.approx(MODULUS * about)
