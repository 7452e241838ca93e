"""Loads that are gathered: how much more, or less, they sag a shelf than spread evenly.

Only ratios, so any unit of length. Midspan sag of a simply supported board.
"""

from __future__ import annotations

from solver.strength.beams import UNIFORM, bending, patch

MOST = (8, 5)
"""A load gathered at midspan sags a shelf 8/5 of the same load spread evenly (k_b 1/48 over
5/384), no load more [-]."""


def least_share(width: float, span: float, margin: float) -> float:
    """Sag under one thing where it sags the shelf least, over that of its load spread evenly [-].

    That is at one end, `margin` from the support: 0 for a thing that is narrow and may stand
    close to it, up to 1.14 for one three quarters as wide as the span.
    """
    start = max(0.0, min(margin, span - width))
    there = patch(1.0, start, min(span, start + width), span, 1.0)
    return there / bending(UNIFORM, 1.0, span, 1.0)


def even_share(span: float, margin: float) -> float:
    """Sag under a load spread evenly but for a `margin` at each end, over that without any [-]."""
    there = patch(1.0, margin, span - margin, span, 1.0)
    return there / bending(UNIFORM, 1.0, span, 1.0)
