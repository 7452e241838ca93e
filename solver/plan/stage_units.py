"""The stages of a plan: their names in the order of the wishes, and what their figures count.

Which of them a plan has depends on the job; docs of each are in :mod:`solver.checking.look_scores`.
"""

from __future__ import annotations

from solver.job.job import Rhythm

STAGE_UNITS = {
    "fit": "mm2",
    "price": "money",
    "size": "mm",
    "marks moved": "mm",
    "things moved": "things",
    "asked": "things",
    "empty": "openings",
    "mirrored": "kinds",
    "headings": "places",
    "together": "places",
    "alone": "openings",
    "rises": "mm",
    "symmetric": "mm",
    "to-fit": "mm",
    "graduated": "mm",
    "steady": "mm",
    "even": "mm",
    "void": "mm2",
    "roomy": "mm",
    "beside": "mm2",
    "air": "mm",
    "sight": "mm2",
    "heavy": "g",
    "composition": "%",
}
"""Unit of each stage by name, first wish first; of a plan's stages each stands once, in this
order."""

RHYTHM_STAGES: dict[Rhythm, tuple[tuple[str, ...], ...]] = {
    "steady": (("steady",), ("even",)),
    "graduated": (("graduated",),),
    "even": (("even",),),
    "symmetric": (("symmetric", "even"),),
    "to-fit": (("to-fit",),),
}
"""The stages that a rhythm may give: one tuple of them; "even" in place of "steady" where no
steady fall can be had."""

AFTER_RHYTHM = ("void", "roomy", "beside", "air", "sight", "heavy", "composition")
"""Stages that `optimal` does not speak of."""
