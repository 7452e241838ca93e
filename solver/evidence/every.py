"""All evidence, in the order in which it is shown."""

from __future__ import annotations

from solver.evidence import cutting, fixing, sag, swing, trim
from solver.evidence.check import Check

CHECKS: tuple[Check, ...] = (
    *cutting.CHECKS,
    *swing.CHECKS,
    *sag.CHECKS,
    *fixing.CHECKS,
    *trim.CHECKS,
)
