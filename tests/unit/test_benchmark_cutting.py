"""The cutting benchmark counts what it says, and refuses answers that cannot be right."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.cutting.cutting_problem import CuttingProblem, StickPart, StickProblem, StickStock
from solver.outcome import Limits
from solver.sticks.solve_sticks import solve_sticks
from tests.benchmark.cutting_run import Result, refuted, run, stick_faults
from tests.benchmark.cutting_sets import Instance, instances, long_list
from tests.benchmark.cutting_tables import beside, markdown, plain, table
from tests.benchmark.rules_of_thumb import packer_count, strips_count
from tests.benchmark.shop_lists import KINDS_MOST, PARTS_MOST, shop_list, shop_lists
from tests.cutting_checks import problem


def test_shop_lists_repeat_and_keep_to_their_sizes() -> None:
    first = list(shop_lists(40))
    assert first == [shop_list(number) for number in range(40)]
    assert first != list(shop_lists(40, seed=2))
    for one in first:
        kinds = {(p.length, p.width, p.may_turn) for asked in one.problems for p in asked.parts}
        assert len(kinds) <= KINDS_MOST
        assert sum(len(asked.parts) for asked in one.problems) <= PARTS_MOST


def test_long_lists_have_every_kind() -> None:
    (asked,) = long_list(50, 20, turn=False).problems
    assert isinstance(asked, CuttingProblem)
    assert len(asked.parts) == 50
    assert len({part.id.split("#")[0] for part in asked.parts}) == 20


def test_strips_take_what_first_fit_gives() -> None:
    # Strips of 6, 4 and 4: 6 + 4 on one sheet of 10, the last 4 on another. Across: lengths
    # 9, 9, 9 are the strips' widths, one a sheet, and each has room for one part of 6 and of 4.
    parts = [(9, 6, 1), (9, 4, 2)]
    assert strips_count(problem(parts, (10, 10))) == 2
    assert strips_count(problem(parts, (10, 10), first_cut="crosscut")) == 2
    assert strips_count(problem(parts, (10, 10), kerf=2)) == 2  # 4 + 2 + 4 is just 10
    assert strips_count(problem(parts, (10, 10), kerf=3)) == 3
    assert strips_count(problem([(11, 1, 1)], (10, 12))) is None
    assert strips_count(problem([(11, 1, 1)], (10, 12), turn=True)) == 1


def test_the_packer_speaks_only_where_it_can_be_compared() -> None:
    asked = problem([(5, 5, 4)], (10, 10))
    assert packer_count(asked) == 1
    assert packer_count(replace(asked, kerf=1)) == 4
    assert packer_count(replace(asked, stages="2")) is None
    assert packer_count(replace(asked, sheets=asked.sheets * 2)) is None


def test_a_bound_above_a_known_answer_is_told() -> None:
    one = Instance("a", "k", (problem([(5, 5, 4)], (10, 10)),), best=2, best_proven=True)
    assert refuted(one, sheets=2, bound=2, packer=2, strips=2) == []
    assert refuted(one, sheets=3, bound=3, packer=None, strips=3) == [
        "its bound 3 is above best known, 2"
    ]
    assert refuted(one, sheets=1, bound=1, packer=2, strips=2) == [
        "1 sheets are fewer than the proven 2"
    ]


def test_sticks_are_judged() -> None:
    asked = StickProblem((StickPart("a", 6), StickPart("b", 3)), (StickStock("s", 10, None),), 1)
    answer = solve_sticks(asked, Limits())
    assert stick_faults(asked, answer) == []
    wider = replace(asked, kerf=2)
    assert stick_faults(wider, answer) != []
    assert "each piece once" in stick_faults(asked, replace(answer, stock=()))


@pytest.fixture
def results() -> list[Result]:
    asked = problem([(5, 5, 4)], (10, 10))
    known = Instance("a fixed", "k fixed", (asked,), best=1, best_proven=True)
    return [
        run(known, 2.0, beside=True),
        run(replace(known, name="b", kind="k turning", best=0), 2.0, beside=True),
    ]


def test_the_tables_add_up(results: list[Result]) -> None:
    assert [r.wrong for r in results] == [(), ()]
    head, *rows = table(results)
    total = dict(zip(head, rows[-1], strict=True))
    assert [row[0] for row in rows] == ["k fixed", "k turning", "all fixed", "all turning", "all"]
    assert (total["lists"], total["sheets"], total["best known"]) == ("2", "2", "1")
    assert (total["equal"], total["of proven best"], total["proven"]) == ("1", "1 + 0 + 0", "2")
    assert beside(results)[1] == [
        *("k fixed", "1", "1", "1", "1", "1", "0.00% / 0.00% / 0.00%"),
    ]


def test_tables_are_written_for_terminal_and_file(results: list[Result]) -> None:
    rows = beside(results)
    assert len({len(line) for line in plain(rows).splitlines()}) == 1
    assert markdown(rows).splitlines()[1] == "| --- |" + " ---: |" * (len(rows[0]) - 1)


def test_a_limit_takes_rows_of_every_part_of_a_set() -> None:
    assert [one.name for one in instances("shop", None, 3)] == [  # type: ignore[arg-type]
        f"shop 1.{number}" for number in range(3)
    ]
