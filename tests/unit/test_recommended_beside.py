"""In a plan the cheapest and the best-looking option are shown beside the recommended one."""

from __future__ import annotations

from decimal import Decimal

from solver.plan import Option
from solver.planning.combinations import SHOWN_MOST
from solver.planning.recommend import ranked
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
