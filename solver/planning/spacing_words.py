"""How the openings follow on each other, in a sentence: the steady fall, even or mirrored openings.

Bays that share their shelf lines are spoken of once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import combinations

from solver.planning.look_figures import Heights, LineGroup, steps_of
from solver.planning.shelf_words import ShelfNames, numbered
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

ALIKE = "all openings alike"
GROUPS_TOLD = 3
"""Most groups of bays that are told apart in one sentence [-]."""
STEPS_SEEN = 2
"""Steps that differ by no more marking steps are told as one [-]."""


def rounded(length: Fraction | Ticks, unit: Unit) -> str:
    """Write a length to the nearest 1/16 in or whole millimetre, as marks are made [tick]."""
    step = TICKS_PER_INCH // 16 if unit == "in" else TICKS_PER_MM
    return with_unit(int(Fraction(length, step) + Fraction(1, 2)) * step, unit)


def from_to(least: Ticks, most: Ticks, unit: Unit) -> str:
    """Write "1-1/4 to 2-3/4 in", or one length where both read alike [tick]."""
    low, high = rounded(least, unit), rounded(most, unit)
    return high if low == high else f"{low.removesuffix(f' {unit}')} to {high}"


def by_group(
    groups: Sequence[LineGroup], names: ShelfNames, words: Callable[[Heights, Ticks], str]
) -> str:
    """Say the same of every group, or each by itself where they differ.

    Parameters
    ----------
    words
        What is said of clear heights [tick], given the marking step [tick].
    """
    of_text: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for group in groups:
        for text in dict.fromkeys(words(heights, group.step) for heights in group.heights):
            of_text[text] += group.bays
    if len(of_text) <= 1:
        return "".join(of_text)
    told = [f"{names.bays(bays)}: {text}" for text, bays in of_text.items()]
    more = len(told) - GROUPS_TOLD
    return "; ".join([*told[:GROUPS_TOLD], *([f"and {more} more ways"] if more > 0 else [])])


def fall(heights: Heights, step: Ticks, unit: Unit) -> str:
    """Say how much lower each opening is than the one below it."""
    steps = steps_of(heights)
    if not steps:
        return "one opening"
    if all(abs(one) <= step for one in steps):
        return ALIKE if len(steps) > 1 else "both openings alike"
    if max(steps) > 0 > min(steps):
        return f"openings change by up to {rounded(max(map(abs, steps)), unit)}, up and down"
    way = "lower" if max(steps) > 0 else "higher"
    each = "each opening" if len(steps) > 1 else "the upper opening"
    return f"{each} {_step(sorted(map(abs, steps)), step, unit)} {way} than the one below"


def _step(steps: Sequence[Ticks], step: Ticks, unit: Unit) -> str:
    """The mean step, or from the least to the largest where one sees that they differ."""
    if steps[-1] - steps[0] > STEPS_SEEN * step:
        return from_to(steps[0], steps[-1], unit)
    return rounded(Fraction(sum(steps), len(steps)), unit)


def evenness(heights: Heights, step: Ticks, unit: Unit) -> str:
    """Say by how much two openings differ on average."""
    pairs = [abs(one - other) for one, other in combinations(heights, 2)]
    if not pairs:
        return "one opening"
    if all(one <= step for one in pairs):
        return ALIKE if len(pairs) > 1 else "both openings alike"
    return f"openings differ by {_decimal(Fraction(sum(pairs), len(pairs)), unit)} on average"


def _decimal(length: Fraction, unit: Unit) -> str:
    """Write a mean to 0.1 in or a whole millimetre [tick]."""
    if unit == "in":
        return f"{float(length / TICKS_PER_INCH):.1f} in"
    return f"{float(length / TICKS_PER_MM):.0f} mm"


def mirrored_openings(heights: Heights, step: Ticks, unit: Unit) -> str:
    """Say how far the openings are from a mirror image about mid-height."""
    off = max(abs(one - other) for one, other in zip(heights, reversed(heights), strict=True))
    within = "" if off <= step else f" within {rounded(off, unit)}"
    return f"openings symmetric about mid-height{within}"


def rising(heights: Heights, step: Ticks, *, top: bool) -> list[tuple[int, Ticks]]:
    """Return the openings that are more than a marking step taller than the one below [-, tick].

    With `top`, where the tallest is wished on top, those that are so much lower.
    """
    sign = 1 if top else -1
    return [
        (index, sign * one)
        for index, one in enumerate(steps_of(heights), start=1)
        if sign * one > step
    ]


def rises(heights: Heights, step: Ticks, unit: Unit, *, top: bool) -> str:
    """Say that the tallest opening is lowest, or which one breaks that."""
    found = rising(heights, step, top=top)
    first = "tallest on top" if top else "tallest lowest"
    if not found:
        return first
    which = numbered([index for index, _ in found])
    by = rounded(max(by for _, by in found), unit)
    most = by if len(found) == 1 else f"up to {by}"
    way = "lower" if top else "taller"
    return f"{first} but for {which} ({most} {way} than the one below)"
