"""Waits of glue and finish: clock time, nights included. All common practice, no source."""

from __future__ import annotations

from solver.costing.glue_lots import lots
from solver.plan.work import After
from solver.work.step_facts import About

CLAMP = 60
"""Yellow glue stays in clamps 30 to 60 min [min]."""
GLUE_CURE = 24 * 60
"""And is loaded after 24 h [min]."""
COAT_DRY = 4 * 60
"""Until a coat, primer too, is rubbed down or glued beside [min]."""
HARD = 16 * 60
"""Until the last coat may be handled and carried [min]."""
OPEN_TIME = 10
"""In which yellow glue is spread and closed; the label counts [min]."""


def last_glue(about: About) -> str:
    """Return the step of its last glue-up."""
    return f"glue {len(lots(about))}"


def box_done(about: About) -> After:
    """Say that the box is out of its clamps, back and all."""
    if about.ids("back"):
        return about.after("back", CLAMP, "glue sets")
    return about.after(last_glue(about), CLAMP, "in clamps")
