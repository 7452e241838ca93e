"""Gini's mean difference in its equivalent forms: pairs, ranks, covariance, distribution.

Forms after Yitzhaki, Gini's mean difference, Metron 61 (2003) 285-316 (the equivalences are worked
here for whole-number samples; section numbers not seen). All are whole numbers times n or n2:

- pairs: sum over i < j of |xi - xj|, what the wish `even` is
- mean difference: D = 1/n2 sum over all i, j of |xi - xj|, so that the pairs sum to n2 D / 2
- ranks: sum over i of (2i - n - 1) x(i), with x(1) <= x(2) <= ..., what the rank model uses
- covariance with the rank: D = 4 cov(x, F(x)), F = rank / n, mid-ranks where values are equal
- distribution: D = 2 integral of F (1 - F) dx: sum over i of i (n - i) (x(i+1) - x(i)) is the pairs
- larger less smaller of two drawn: D = E max - E min
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.eye_rhythm import gini

heights = st.lists(st.integers(0, 300_000), min_size=1, max_size=9)


def mean_difference(values: list[int]) -> Fraction:
    """Mean of |xi - xj| over all ordered pairs, a value with itself too."""
    return Fraction(sum(abs(a - b) for a, b in product(values, repeat=2)), len(values) ** 2)


def by_ranks(values: list[int]) -> int:
    n = len(values)
    return sum((2 * i - n - 1) * x for i, x in enumerate(sorted(values), 1))


def mid_rank(values: list[int], one: int) -> Fraction:
    """Mean of the ranks that equal values have."""
    below, equal = sum(x < one for x in values), values.count(one)
    return below + Fraction(equal + 1, 2)


def covariance(a: list[Fraction], b: list[Fraction]) -> Fraction:
    n, zero = len(a), Fraction(0)
    products = sum((x * y for x, y in zip(a, b, strict=True)), zero)
    return products / n - sum(a, zero) / n * (sum(b, zero) / n)


@given(heights)
def test_pairs_are_half_of_the_mean_difference_times_n_squared(values: list[int]) -> None:
    assert gini(values) == mean_difference(values) * len(values) ** 2 / 2


@given(heights)
def test_pairs_are_the_sum_by_ranks(values: list[int]) -> None:
    assert gini(values) == by_ranks(values)


@given(heights)
def test_pairs_are_four_covariances_with_the_rank(values: list[int]) -> None:
    share = [mid_rank(values, x) / len(values) for x in values]
    assert mean_difference(values) == 4 * covariance([Fraction(x) for x in values], share)


@given(heights)
def test_pairs_are_the_integral_of_the_distribution(values: list[int]) -> None:
    n, rising = len(values), sorted(values)
    steps = [i * (n - i) * (b - a) for i, (a, b) in enumerate(pairwise(rising), 1)]
    assert gini(values) == sum(steps)


@given(heights)
def test_pairs_are_the_larger_less_the_smaller_of_each_two(values: list[int]) -> None:
    assert gini(values) == sum(max(two) - min(two) for two in combinations(values, 2))


@given(heights)
def test_other_orders_of_the_ranks_never_say_more(values: list[int]) -> None:
    # Coefficients that rise with the values give the largest sum (rearrangement): a model that
    # leaves the order open and takes the largest sum has the pairs exactly.
    n = len(values)
    assert gini(values) >= sum((2 * i - n - 1) * x for i, x in enumerate(values, 1))


@given(heights.filter(lambda values: max(values) - min(values) >= 2))
def test_an_inch_from_the_tallest_to_the_lowest_makes_it_more_even(values: list[int]) -> None:
    # The transfer principle: what passes from a larger to a smaller lessens it.
    rising = sorted(values)
    assert gini([rising[0] + 1, *rising[1:-1], rising[-1] - 1]) < gini(rising)


@pytest.mark.parametrize(
    ("values", "pairs"), [([5], 0), ([3, 7], 4), ([8, 6, 5], 2 + 3 + 1), ([4, 4, 4, 4], 0)]
)
def test_by_hand(values: list[int], pairs: int) -> None:
    assert gini(values) == by_ranks(values) == pairs
