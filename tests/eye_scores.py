"""The scores of the wishes about a layout, by the names of their stages.

Lengths in ticks, areas in whole mm2 (rounded down), masses in grams, all others counts. Nothing
of the planner's own layout is used but the problem's data.
"""

from __future__ import annotations

from collections.abc import Callable

from solver.layout.layout_problem import LayoutProblem
from tests.eye_late import air, beside, heavy, roomy, sight, void
from tests.eye_layout import Layout
from tests.eye_rhythm import even, rises, steady, symmetric, to_fit
from tests.eye_wishes import alone, asked, empty, fit, headings, mirrored, together

Score = Callable[[LayoutProblem, Layout], int]

SCORES: dict[str, Score] = {
    "fit": fit,
    "asked": asked,
    "empty": empty,
    "mirrored": mirrored,
    "headings": headings,
    "together": together,
    "alone": alone,
    "rises": rises,
    "steady": steady,
    "graduated": steady,
    "symmetric": symmetric,
    "even": even,
    "to-fit": to_fit,
    "void": void,
    "roomy": roomy,
    "beside": beside,
    "air": air,
    "sight": sight,
    "heavy": heavy,
}
"""Every score by the name of its stage; what is best comes first."""
