"""The formulas agree in both systems of units, with each other, and with the beam equation."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_bvp

from solver.strength import beams, hinges, stability
from solver.strength.constants import MM_PER_INCH, MPA_PER_PSI, NEWTONS_PER_POUND

IN, LB, PSI = MM_PER_INCH, NEWTONS_PER_POUND, MPA_PER_PSI
INERTIA = IN**4
STIFF = LB * IN**2
"""lb in2 in N mm2 [-]."""

BOTH: list[tuple[str, Callable[..., float], tuple[tuple[float, float], ...], float]] = [
    ("inertia", beams.inertia, ((9.25, IN), (0.75, IN)), INERTIA),
    (
        "even load",
        beams.even_load_sag,
        ((100, LB), (32, IN), (3.2e5, STIFF)),
        IN,
    ),
    (
        "patch",
        beams.patch,
        ((17, LB), (3, IN), (12, IN), (32, IN), (3.2e5, STIFF)),
        IN,
    ),
    (
        "lip",
        lambda b, t, e, s, up: beams.stiffness(beams.shelf_strips((b, t, e), (t, up, s, 2 * e))),
        ((9.25, IN), (0.75, IN), (1e6, PSI), (0.25, IN), (0.5, IN)),
        STIFF,
    ),
    (
        "span",
        lambda q, ei: beams.longest_span(q, ei, 144),
        ((2.5, LB / IN), (3.2e5, STIFF)),
        IN,
    ),
    ("load", lambda s, ei: beams.most_load(s, ei, 144), ((32, IN), (3.2e5, STIFF)), LB),
    ("pull", hinges.pull, ((120, LB), (14, IN), (62, IN)), LB),
    ("arm", hinges.plan_arm, ((14, IN), (4, IN)), IN),
    (
        "abuse",
        lambda w, a, s, p, r: hinges.pull_with(w, a, s, (p, r)),
        ((120, LB), (14, IN), (62, IN), (60, LB), (28, IN)),
        LB,
    ),
    (
        "rating",
        lambda w, a, s: hinges.rated_weight(w, a, s, 2),
        ((120, LB), (24, IN), (30, IN)),
        LB,
    ),
    ("droop", hinges.droop, ((1 / 32, IN), (28, IN), (62, IN)), IN),
    ("flow", stability.shear_flow, ((120, LB), (78, IN)), LB / IN),
    ("fastener", stability.fastener_load, ((1.5, LB / IN), (6, IN)), LB),
    (
        "panel",
        lambda w, b, h, t, g: stability.panel_droop(w, (b, h, t), g),
        ((120, LB), (28, IN), (78, IN), (0.25, IN), (85e3, PSI)),
        IN,
    ),
    ("joint", lambda w, b: stability.joint_moment(w, b, 8), ((120, LB), (28, IN)), LB * IN),
    ("tip", stability.tipping_pull, ((80, LB), (5, IN), (56, IN)), LB),
    ("tilted", lambda x, y: stability.behind_when_tilted(x, y, 0.04), ((5, IN), (30, IN)), IN),
    ("edge", lambda w, x, o: stability.edge_load(w, x, o) or 0.0, ((80, LB), (5, IN), (2, IN)), LB),
    ("wall", stability.wall_tension, ((80, LB), (5, IN), (28, IN)), LB),
]


@pytest.mark.parametrize(("name", "formula", "given_in", "unit"), BOTH, ids=[b[0] for b in BOTH])
def test_a_formula_gives_the_same_in_inches_and_in_millimetres(
    name: str,
    formula: Callable[..., float],
    given_in: tuple[tuple[float, float], ...],
    unit: float,
) -> None:
    inches = formula(*(value for value, _ in given_in))
    metric = formula(*(value * factor for value, factor in given_in))

    assert metric == pytest.approx(inches * unit, rel=1e-9), name
    assert metric / unit == pytest.approx(inches, rel=1e-9), name


@given(span=st.floats(200, 1500), load=st.floats(1, 900), stiffness=st.floats(1e8, 1e11))
def test_a_patch_over_the_whole_span_is_the_even_load(
    span: float, load: float, stiffness: float
) -> None:
    whole = beams.patch(load, 0, span, span, stiffness)

    assert whole == pytest.approx(beams.even_load_sag(load, span, stiffness), rel=1e-9)


@given(at=st.floats(0.05, 0.95), cut=st.floats(0.1, 0.9))
def test_patches_add_up_wherever_they_are_divided(at: float, cut: float) -> None:
    start, end = at * 800 * 0.5, at * 800 * 0.5 + 300
    middle = start + cut * 300
    parts = beams.patch(cut * 50, start, middle, 800, 1e9)
    parts += beams.patch((1 - cut) * 50, middle, end, 800, 1e9)

    assert parts == pytest.approx(beams.patch(50, start, end, 800, 1e9), rel=1e-9)


def test_a_narrow_patch_at_midspan_is_a_load_at_midspan() -> None:
    narrow, (times, over) = beams.patch(50, 399.9, 400.1, 800, 1e9), beams.MIDSPAN_SHARE

    assert narrow == pytest.approx(50 * 800**3 / (48 * 1e9), rel=1e-5)
    assert narrow == pytest.approx(times / over * beams.even_load_sag(50, 800, 1e9), rel=1e-5)


@given(
    span=st.floats(200, 1500),
    stiffness=st.floats(1e8, 1e11),
    ratio=st.sampled_from([144.0, 240.0, 600.0, 768.0]),
)
def test_the_most_load_sags_just_to_the_limit_and_its_longest_span_is_the_span(
    span: float, stiffness: float, ratio: float
) -> None:
    load = beams.most_load(span, stiffness, ratio)

    sag = beams.even_load_sag(load, span, stiffness)

    assert sag == pytest.approx(span / ratio, rel=1e-9)
    assert beams.longest_span(load / span, stiffness, ratio) == pytest.approx(span, rel=1e-9)


@settings(max_examples=20, deadline=None)
@given(start=st.floats(0, 0.6), width=st.floats(0.1, 0.4))
def test_sag_is_that_of_the_differential_equation_solved_numerically(
    start: float, width: float
) -> None:
    """scipy's boundary-value solver on E I y'''' = q, supports free to turn."""
    span, stiffness, load = 812.8, 1.5e9, 200.0
    low, high = start * span, (start + width) * span

    assert beams.patch(load, low, high, span, stiffness) == pytest.approx(
        _numerical(span, stiffness, load, (low, high)), rel=0.003
    )


def _numerical(span: float, stiffness: float, load: float, between: tuple[float, float]) -> float:
    """Deflection at midspan; the length is scaled to 1 and the load smoothed at its ends."""
    low, high = between[0] / span, between[1] / span
    intensity = load * span**3 / stiffness / (high - low)

    def slopes(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        inside = 0.5 * (np.tanh((x - low) / 0.004) - np.tanh((x - high) / 0.004))
        return np.vstack((y[1], y[2], y[3], inside * intensity))

    def ends(left: np.ndarray, right: np.ndarray) -> np.ndarray:
        return np.array([left[0], left[2], right[0], right[2]])

    mesh = np.linspace(0, 1, 801)
    found = solve_bvp(slopes, ends, mesh, np.zeros((4, mesh.size)), tol=1e-6, max_nodes=20_000)
    assert found.success
    return float(found.sol(0.5)[0])
