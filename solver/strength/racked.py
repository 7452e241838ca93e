"""The figures of a hung case's back, which keeps it from racking."""

from __future__ import annotations

from solver.hanging import Figure
from solver.strength import racking
from solver.strength.amounts import millimetres
from solver.strength.figure import figure, shown
from solver.strength.hung import Hung
from solver.strength.joints import SPACING
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

SOLD: dict[Unit, tuple[Ticks, Ticks, Ticks]] = {
    "in": (TICKS_PER_INCH // 4, TICKS_PER_INCH // 2, 30 * TICKS_PER_INCH),
    "mm": (6 * TICKS_PER_MM, 12 * TICKS_PER_MM, 760 * TICKS_PER_MM),
}
"""A thin back and a thick one as they are sold, and the width over which that is asked [tick]."""


def racking_figures(hung: Hung) -> list[Figure]:
    """Return what the back must be, what holds it, and what the joints would bear without it."""
    unit, back = hung.job.unit, hung.back_thickness
    needed, weight = racking.back_needed(hung.width), hung.loaded.weight
    thin, thick, wide = (with_unit(one, unit) for one in SOLD[unit])
    sold = thick if hung.width > racking.WIDE_CASE else thin
    spacing = SPACING[unit]
    load = racking.fastener_load(racking.shear_flow(weight, hung.height), millimetres(spacing))
    boards = 2 + min(len(bay.shelves) for bay in hung.planned.bays)
    glued = f"at least {thin} glued and fastened all round and to every fixed shelf"
    return [
        figure(
            "back",
            f"least thickness of the back as measured, one sold as {sold}",
            ("length", needed),
            (f"about {thin}; about {thick} over {wide} of width", f"{back:.1f} mm there is"),
            "common practice: the back is the structure (diy.stackexchange 316150, woodweb.com)",
            assumes=glued,
            judged=(back >= needed, f"a thicker back: {glued}; {thick} over {wide} wide"),
        ),
        figure(
            "fastener",
            f"load on each fastener of the back, {with_unit(spacing, unit)} apart",
            ("force", load),
            ("W / h x spacing", shown(W_N=weight, h_mm=hung.height, e_mm=millimetres(spacing))),
            "statics: shear of a panel held at one side",
            assumes="without glue; the joints of the box take nothing",
        ),
        figure(
            "joint",
            "moment on each joint if there were no back",
            ("moment", racking.joint_moment(weight, hung.width, boards)),
            ("W w / (4 n)", shown(W_N=weight, w_mm=hung.width, n=boards)),
            "statics: a ladder of n boards between two sides",
            assumes="why a hung case needs a back: screws into end grain do not bear this",
        ),
    ]
