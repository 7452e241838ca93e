"""In a plan the cheapest and the best-looking option are shown beside the recommended one."""

from __future__ import annotations

from decimal import Decimal

import pytest

from cli.screen.wording import tag_words
from solver.plan.plan import Option
from solver.planning.recommend import CheapestWording, ranked
from solver.sizing.combinations import SHOWN_MOST
from solver.units import inches
from tests.sample_plans import good_plan


def option(name: str, price: str, rhythm: int) -> Option:
    """The hand-made option at another price and with another rhythm over its openings [tick]."""
    one = good_plan().options[0]
    assert one.cost is not None
    assert one.scores is not None
    cost = one.cost.model_copy(update={"total": Decimal(price), "complete": True})
    scores = one.scores.model_copy(update={"rhythm": rhythm})
    return one.model_copy(update={"name": name, "cost": cost, "scores": scores, "tags": ()})


def test_the_best_looking_comes_before_options_that_are_cheaper_and_neither() -> None:
    plain = [option(f"plain {n}", f"{100 + n}.00", inches("9")) for n in range(SHOWN_MOST + 2)]
    dear = option("dear", "500.00", 0)
    job = good_plan().job
    chosen, sentence = ranked(job, [*plain, dear])

    assert [one.name for one in chosen[:2]] == ["plain 0", "dear"]
    assert chosen[1].tags == ("best-looking",)
    assert sentence is not None
    assert f"dear looks best ({job.look.rhythm} rhythm off by 0 " in sentence
    assert f"and costs {job.head.currency} 400.00 more" in sentence


def test_options_that_are_neither_follow_by_price() -> None:
    plain = [option(f"plain {n}", f"{130 - n}.00", inches("9")) for n in range(4)]
    chosen, _ = ranked(good_plan().job, plain)

    assert [one.name for one in chosen] == ["plain 3", "plain 2", "plain 1", "plain 0"]


def unpriced(name: str, sheets: int, rhythm: int) -> Option:
    """The same without prices, on so many sheets."""
    one = option(name, "0.00", rhythm)
    assert one.cost is not None
    bare = tuple(sheet.model_copy(update={"price": None}) for sheet in one.sheets[:1] * sheets)
    cost = one.cost.model_copy(update={"complete": False})
    return one.model_copy(update={"cost": cost, "sheets": bare, "sheet_count": sheets})


def test_without_prices_nothing_is_called_cheapest_and_no_amount_is_told() -> None:
    job = good_plan().job
    chosen, sentence = ranked(job, [unpriced("six", 2, inches("9")), unpriced("seven", 4, 0)])

    assert sentence is not None
    assert sentence.startswith("six is recommended: it takes the least stock (")
    assert sentence.endswith(" and takes 2 sheets more.")
    assert tag_words(chosen[0]) == ("recommended", "least stock")
    assert tag_words(option("priced", "5.00", 0).model_copy(update={"tags": ("cheapest",)})) == (
        "cheapest",
    )


def test_the_same_stock_without_prices_takes_no_more() -> None:
    job = good_plan().job
    even, best = unpriced("even", 2, inches("9")), unpriced("best", 2, 0)
    _, sentence = ranked(job, [even, best])
    assert sentence == "best is recommended: it takes the least stock and looks best."
    priced = [option("even", "5.00", inches("9")), option("best", "5.00", 0)]
    assert ranked(job, priced)[1] == "best is recommended: it is the cheapest and the best-looking."


@pytest.mark.parametrize(
    ("currency", "money", "sheets", "saves", "more"),
    [
        ("USD", "34.00", 1, "and saves USD 34.00", "costs USD 34.00 more"),
        (None, "34.00", 1, "and saves 1 sheet", "takes 1 sheet more"),
        (None, "34.00", 0, "in smaller sheets", "takes larger sheets"),
    ],
)
def test_words_of_a_difference(
    currency: str | None, money: str, sheets: int, saves: str, more: str
) -> None:
    least = CheapestWording(currency)
    assert least.saves(Decimal(money), sheets) == saves
    assert least.more(Decimal(money), sheets, same=False) == more
    assert least.more(Decimal(0), 0, same=True) in ("costs the same", "takes no more stock")
