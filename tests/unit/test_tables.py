"""Tables of a plan: what they say, and that nothing is cut off."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from itertools import pairwise

import pytest
from rich.console import Console

from cli.screen.caution_lines import cautions
from cli.screen.console import Titled
from cli.screen.cutting_tables import allowances_text, parts_table, price_table
from cli.screen.marking_tables import marking_lines, marking_tables
from cli.screen.option_comparison import comparison
from cli.screen.plan_screen import print_plan, stages_table
from cli.screen.wording import (
    alike_bays,
    alike_parts,
    of_stage,
    plain_name,
    short_text,
    status_text,
)
from solver.outcome import Status
from solver.plan.plan import Option, Plan, ShortBy, Stage
from solver.strength.cautions import cautions_of
from solver.units import inches, mm
from solver.words import word
from tests.builders import make_job
from tests.sample_display import renamed, sample_plan
from tests.sample_plans import good_plan


def printed(*tables: Titled, width: int = 80) -> str:
    out = io.StringIO()
    console = Console(file=out, width=width, markup=False, emoji=False, highlight=False)
    for titled in tables:
        console.print(titled.title)
        console.print(titled.table)
    return out.getvalue()


def shown(plan: Plan, width: int = 80, *, every: bool = False) -> str:
    out = io.StringIO()
    console = Console(file=out, width=width, markup=False, emoji=False, highlight=False)
    print_plan(console, plan, every=every)
    return out.getvalue()


def words(text: str) -> str:
    """The text without line breaks and rules, so that folded cells can be looked for."""
    return " ".join(re.sub(r"[─│]", " ", text).split())


def changed(option: Option, **values: object) -> Option:
    return option.model_copy(update=values)


PLANS = {"alcove": sample_plan(), "two bays": good_plan()}


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("name", PLANS)
def test_nothing_is_cut_off(name: str, width: int) -> None:
    text = shown(PLANS[name], width, every=True)

    assert max(map(len, text.splitlines())) <= width
    assert "…" not in text


@pytest.mark.parametrize("name", PLANS)
def test_every_thing_and_part_of_the_recommended_option_is_named(name: str) -> None:
    plan = PLANS[name]
    text = words(shown(plan))
    option = plan.options[0]

    for case in option.cases:
        for bay in case.bays:
            for opening in bay.openings:
                for thing in opening.items:
                    assert thing.item in text
    for part in option.parts:
        assert part.id in text


def test_options_stand_side_by_side_while_they_fit_and_below_each_other_after() -> None:
    plan = sample_plan()
    six = plan.model_copy(update={"options": plan.options * 2})

    assert len(comparison(plan, 80)) == 1
    assert [len(table.columns) - 1 for table in comparison(six, 80)] == [4, 2]
    assert [len(table.columns) - 1 for table in comparison(six, 120)] == [6]


@pytest.mark.parametrize("options", [2, 4])
def test_the_last_option_is_as_wide_as_the_others_where_names_are_long(options: int) -> None:
    plan = sample_plan()
    name = "aaaa bbbb cccc dddd eeee ffff gggg hhhh jjjj kkkk"  # long enough to be folded
    named = tuple(changed(plan.options[0], name=f"{name} {n}") for n in range(options))
    same = plan.model_copy(update={"options": named})
    text = printed(*(Titled("", table) for table in comparison(same, 80)))

    assert [text.count(word) for word in name.split()] == [options] * len(name.split())


def test_the_comparison_says_what_does_not_fit_and_by_how_much() -> None:
    plan = sample_plan()
    text = words(shown(plan, 120))
    missing = [left for option in plan.options for left in option.left_out]

    assert missing
    assert all(f"{left.count} {left.item}: 3/8 in too high" in text for left in missing[:1])
    assert "12 shelves the openings would be lower than the tallest things" in text
    assert "would do: 4-1/2 in more height" in text


def test_worse_combinations_that_are_not_shown_are_counted() -> None:
    plan = sample_plan().model_copy(update={"not_shown": 3})

    assert "3 worse combinations" in shown(plan)
    assert "worse combinations" not in shown(sample_plan())


@pytest.mark.parametrize("name", PLANS)
def test_marks_and_openings_close_on_the_height_of_the_side(name: str) -> None:
    for option in PLANS[name].options:
        for group in alike_bays(option):
            lines = marking_lines(group, "in")
            boards = [(low, high) for board, low, high, _ in lines if board != "toe"]
            clear = [above for _, _, _, above in lines if above is not None]
            gaps = [low - high for (_, high), (low, _) in pairwise(boards)]

            assert gaps == clear
            assert lines[0][1] == 0
            assert lines[-1][2] == group.case.outside.height


def test_bays_that_are_alike_are_marked_out_once() -> None:
    option = good_plan().options[0]
    tables = marking_tables(option, "mm")

    assert len(option.cases[0].bays) == 2
    assert [titled.title.split(" (")[0] for titled in tables] == ["Marking out, bays 1, 2"]


def test_bays_that_differ_are_marked_out_each() -> None:
    option = good_plan().options[0]
    case = option.cases[0]
    first = case.bays[0].openings[0]
    raised = case.bays[0].model_copy(
        update={
            "openings": (
                first.model_copy(update={"height": first.height + mm(10)}),
                *case.bays[0].openings[1:],
            )
        }
    )
    differing = case.model_copy(update={"bays": (raised, case.bays[1])})

    titles = [t.title for t in marking_tables(changed(option, cases=(differing,)), "mm")]

    assert [title.split(" (")[0] for title in titles] == [
        "Marking out, bay 1",
        "Marking out, bay 2",
    ]


def test_parts_that_are_cut_alike_are_counted_and_others_are_not() -> None:
    option = sample_plan().options[0]
    counts = {alike[0].name: len(alike) for alike in alike_parts(option.parts)}

    assert counts == {"side": 2, "top": 1, "bottom": 1, "toe": 1, "shelf": 6, "back": 1}


def test_an_allowance_says_what_it_is_for_and_where_it_goes() -> None:
    parts = {part.name: part for part in good_plan().options[0].parts}
    shelf = allowances_text(parts["shelf"], "mm")

    assert shelf == "housing: length +12; lipping: width -8"
    assert allowances_text(parts["side"], "mm") == ""


def test_a_metric_job_is_worded_in_metric_terms() -> None:
    assert [word(term, "in") for term in ("toe", "dado", "lip")] == ["toe", "dado", "lip"]
    assert [word(term, "mm") for term in ("toe", "dado", "lip")] == ["plinth", "housing", "lipping"]
    assert "plinth" in printed(parts_table(good_plan().options[0].parts, "mm"))


def test_the_price_adds_up_and_names_its_bound() -> None:
    option = sample_plan().options[0]
    assert option.cost is not None
    text = words(printed(price_table(option, option.cost)))

    assert f"oak ply 18, 8 x 4 ft 2 $92.00 ${2 * 92}.00" in text
    assert f"total (stock) ${2 * 92 + 38}.00" in text
    assert f"stock cannot cost less than ${2 * 92}.00" in text


def test_a_total_without_some_prices_says_so() -> None:
    option = sample_plan().options[0]
    assert option.cost is not None
    cost = option.cost.model_copy(update={"complete": False})
    bare = tuple(sheet.model_copy(update={"price": None}) for sheet in option.sheets)

    text = words(printed(price_table(changed(option, sheets=bare), cost)))

    assert "no price" in text
    assert "prices are missing" in text


@pytest.mark.parametrize(
    ("unit", "value", "stage_unit", "expected"),
    [
        ("in", 3.175, "mm", "1/8 in"),
        ("mm", 3.175, "mm", "3.2− mm"),
        ("in", "1092.5", "money", "$1,092.50"),
        ("in", 3, "things", "3"),
        ("in", None, "mm", "–"),
    ],
)
def test_a_stage_is_given_in_the_units_of_the_job(
    unit: str, value: float | str | None, stage_unit: str, expected: str
) -> None:
    stage = Stage(name="x", value=value, bound=None, proven=False, unit=stage_unit)

    assert of_stage(value, stage, "in" if unit == "in" else "mm", "USD") == expected


def test_stages_say_which_are_proven() -> None:
    rows = printed(stages_table(sample_plan().options[0], "in", "USD")).splitlines()
    proven = {row.split("  ")[0]: "yes" in row.split() for row in rows[3:] if row[0] != " "}

    assert proven == {
        "fit": True,
        "price": False,
        "size": True,
        "together": True,
        "steady": True,
        "void": False,
        "heavy": True,
        "composition": False,
    }


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        ({"status": Status.OPTIMAL, "left_out": ()}, "proven best"),
        ({"status": Status.INFEASIBLE}, "cannot work"),
        ({"status": Status.UNKNOWN}, "not settled by the limit"),
        ({}, "best found, price within $38.00 of the bound"),
    ],
)
def test_the_status_is_said_in_plain_words(values: dict[str, object], expected: str) -> None:
    option = changed(sample_plan().options[0], **values)

    assert status_text(option, "in", "USD") == expected


def test_proven_with_things_left_out_is_not_called_best() -> None:
    option = changed(sample_plan().options[1], status=Status.OPTIMAL)

    assert option.left_out
    assert status_text(option, "in", "USD") == "proven: not everything can fit"


@pytest.mark.parametrize(
    ("short", "expected"),
    [
        (ShortBy(), "no place left"),
        (ShortBy(height=inches("3/8")), "3/8 in too high"),
        (ShortBy(width=inches(1), depth=inches(2)), "1 in too wide, 2 in too deep"),
        (ShortBy(load=4536), "10.0 lb too heavy"),
    ],
)
def test_what_is_missing_is_said_for_each_direction(short: ShortBy, expected: str) -> None:
    assert short_text(short, "in") == expected


def test_names_are_data_and_steer_nothing() -> None:
    plan = renamed(sample_plan(), ["[bold]x[/bold] :smile: \x1b[31m"])

    text = shown(plan, 120)

    assert "[bold]x[/bold] :smile: ?[31m" in text
    assert "\x1b" not in text
    assert plain_name("a\nb\tc") == "a?b?c"


def lines(built: object, option: Option | None = None) -> Sequence[str]:
    job = make_job(job={"house_built": built}, case={"kind": "built-in"})
    return cautions(job, option or sample_plan().options[0])


@pytest.mark.parametrize(
    ("built", "kind", "spoken_of"),
    [
        (1977, "built-in", True),
        (1978, "built-in", False),
        ("unknown", "hung", True),
        (1931, "standing", False),
    ],
)
def test_lead_paint_is_spoken_of_where_an_old_house_is_worked_on(
    built: object, kind: str, spoken_of: bool
) -> None:
    job = make_job(job={"house_built": built}, case={"kind": kind})
    option = sample_plan().options[0].model_copy(update={"cases": ()})

    assert any(one.key == "lead-paint" for one in cautions_of(job, option)) is spoken_of


def test_a_tall_standing_case_is_to_be_fixed_to_the_wall() -> None:
    option = sample_plan().options[0]
    standing = option.cases[0].model_copy(update={"kind": "standing"})
    low = standing.model_copy(
        update={"outside": standing.outside.model_copy(update={"height": inches(20)})}
    )

    def warned(*cases: object) -> bool:
        found = lines(2000, option=changed(option, cases=cases))
        return any(line.startswith("Tip-over") for line in found)

    assert warned(standing)
    assert not warned(low)
    assert not warned(option.cases[0])


def test_the_load_limit_says_that_it_is_no_sag_check_and_which_weights_are_assumed() -> None:
    text = "\n".join(lines(2000))

    assert "40 lb/ft2, at most 200 lb a shelf, not a sag check" in text
    assert "assumed: skeleton clock under a dome, watch stand" in text
