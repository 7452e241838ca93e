"""When the box of a case is done: after its last glue-up, or its back."""

from __future__ import annotations

from solver.labour.lots import lots
from solver.steps import times
from solver.steps.about import About
from solver.work import After


def last_glue(about: About) -> str:
    """Return the step of its last glue-up."""
    return f"glue {len(lots(about))}"


def box_done(about: About) -> After:
    """Say that the box is out of its clamps, back and all."""
    if about.ids("back"):
        return about.after("back", times.CLAMP, "glue sets")
    return about.after(last_glue(about), times.CLAMP, "in clamps")
