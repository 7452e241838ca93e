"""In a plan the cheapest and the best-looking option are shown beside the recommended one."""

from __future__ import annotations

from decimal import Decimal

import pytest

from cli.screen.wording import tag_words
from solver.plan.plan import Option
from solver.planning.recommend import CheapestWording, ranked
from solver.sizing.combinations import SHOWN_MOST
from tests.sample_display import sample_plan


def option(
    name: str, price: str, parted: int = 0, outline: float = 2.4, fill: float = 0.3
) -> Option:
    """The hand-made option at another price, and with another look."""
    one = sample_plan().options[0]
    assert one.cost is not None
    assert one.scores is not None
    cost = one.cost.model_copy(update={"total": Decimal(price), "complete": True})
    figures = {"places_parted": parted, "outline_missed": outline, "fill_least": fill}
    scores = one.scores.model_copy(update=figures)
    update = {"name": name, "cost": cost, "scores": scores, "tags": (), "left_out": ()}
    return one.model_copy(update=update)


JOB = sample_plan().job


def told(*options: Option) -> str:
    """The sentence of the recommendation."""
    return ranked(JOB, list(options))[1] or ""


def test_the_best_looking_comes_before_options_that_are_cheaper_and_neither() -> None:
    plain = [option(f"plain {n}", f"{100 + n}.00", 3) for n in range(SHOWN_MOST + 2)]
    dear = option("dear", "500.00", 0)
    chosen, sentence = ranked(JOB, [*plain, dear])

    assert [one.name for one in chosen[:2]] == ["plain 0", "dear"]
    assert chosen[1].tags == ("best-looking",)
    assert sentence == (
        "plain 0 is recommended: it is the cheapest; dear looks best (every kind on one shelf, "
        "where plain 0 parts three) and costs USD 400.00 more."
    )


def test_options_that_are_neither_follow_by_price() -> None:
    plain = [option(f"plain {n}", f"{130 - n}.00", 2) for n in range(4)]
    chosen, _ = ranked(JOB, plain)

    assert [one.name for one in chosen] == ["plain 3", "plain 2", "plain 1", "plain 0"]


def test_fewest_places_parted_within_the_price_slack_and_what_it_costs() -> None:
    assert told(option("5 shelves", "200.00", 2, 0), option("4 shelves", "212.00", 0, 9)) == (
        "4 shelves is recommended: every kind on one shelf, where 5 shelves part two; "
        "it costs USD 12.00 more than the cheapest, 5 shelves."
    )


def test_then_the_nearer_mirror_image_then_the_fuller_emptiest_shelf() -> None:
    assert told(option("5 shelves", "200.00", 1, 6), option("4 shelves", "212.00", 1, 1.5)) == (
        "4 shelves is recommended: rows a mirror image but for 1.5 %, where 5 shelves miss 6 %; "
        "it costs USD 12.00 more than the cheapest, 5 shelves."
    )
    low, full = option("1 shelf", "200.00", 1, 6, 0.2), option("2 shelves", "212.00", 1, 6, 0.45)
    assert told(low, full) == (
        "2 shelves is recommended: its emptiest shelf is 45 % full, that of 1 shelf 20 %; "
        "it costs USD 12.00 more than the cheapest, 1 shelf."
    )
    # the front of the look is not traded: fewer parted wins over any outline
    assert told(option("a", "10.00", 1, 0), option("b", "10.00", 0, 40)).startswith("b ")


def test_what_is_dearer_than_the_slack_is_only_told() -> None:
    slack = Decimal(str(JOB.look.price_slack))
    dear = 200 * (100 + slack) / 100 + 1
    sentence = told(option("5 shelves", "200.00", 2), option("1 shelf", f"{dear:.2f}", 0))
    assert sentence.startswith("5 shelves is recommended: it is the cheapest; 1 shelf looks best ")
    prefer = JOB.model_copy(update={"look": JOB.look.model_copy(update={"prefer": "look"})})
    options = [option("5 shelves", "200.00", 2), option("1 shelf", f"{dear:.2f}", 0)]
    assert ranked(prefer, options)[0][0].name == "1 shelf"


def unpriced(name: str, sheets: int, parted: int) -> Option:
    """The same without prices, on so many sheets."""
    one = option(name, "0.00", parted)
    assert one.cost is not None
    bare = tuple(sheet.model_copy(update={"price": None}) for sheet in one.sheets[:1] * sheets)
    cost = one.cost.model_copy(update={"complete": False})
    return one.model_copy(update={"cost": cost, "sheets": bare, "sheet_count": sheets})


def test_without_prices_nothing_is_called_cheapest_and_no_amount_is_told() -> None:
    chosen, sentence = ranked(JOB, [unpriced("six", 2, 3), unpriced("seven", 4, 0)])

    assert sentence is not None
    assert sentence.startswith("six is recommended: it takes the least stock;")
    assert sentence.endswith(" and takes 2 sheets more.")
    assert tag_words(chosen[0]) == ("recommended", "least stock")
    assert tag_words(option("priced", "5.00").model_copy(update={"tags": ("cheapest",)})) == (
        "cheapest",
    )


def test_the_same_stock_without_prices_takes_no_more() -> None:
    reason = "(every kind on one shelf, where parted parts three)"
    one, best = unpriced("parted", 2, 3), unpriced("best", 2, 0)
    assert told(one, best) == (
        f"best is recommended: it takes the least stock and looks best {reason}."
    )
    assert told(option("parted", "5.00", 3), option("best", "5.00", 0)) == (
        f"best is recommended: it is the cheapest and the best-looking {reason}."
    )
    alike = told(option("a", "5.00", 1), option("b", "6.00", 1))
    assert alike == "a is recommended: it is the cheapest and the best-looking."


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
