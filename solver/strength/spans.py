"""The question turned round: the longest span, and the most load, that a limit allows."""

from __future__ import annotations

from solver.strength.beams import UNIFORM


def longest_span(per_length: float, stiffness: float, ratio: float) -> float:
    """Longest span L of an evenly loaded shelf that sags no more than L / n [length].

    5 q L4 / (384 E I) = L / n, so L = (384 E I / (5 n q)) ^ 1/3.

    Source: Wood Handbook Eq. 9-2 with k_b = 5/384; reproduces the twelve lengths printed
    in Architectural Woodwork Standards 1st ed. 4.4.14.10.11-.13. Simply supported ends, no
    shear, no creep.

    Parameters
    ----------
    per_length
        Load q on each length of shelf [force / length].
    stiffness
        E I [force x length squared].
    ratio
        n [-].
    """
    return float((stiffness / (UNIFORM.bending * ratio * per_length)) ** (1 / 3))


def most_load(span: float, stiffness: float, ratio: float) -> float:
    """Most load, spread evenly, that sags a shelf no more than span / n [force].

    W = E I / (k_b n L2); own weight of the shelf is part of W.
    """
    return stiffness / (UNIFORM.bending * ratio * span**2)
