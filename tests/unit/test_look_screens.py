"""Tables and lines that tell the look: options side by side, before and now, the front."""

from __future__ import annotations

import io
from decimal import Decimal

import pytest
from rich.console import Console
from rich.table import Table

from cli.page.option_differences import Prices, sentences
from cli.page.option_rows import rows
from cli.screen.before_after import changed_tables, freely_line
from cli.screen.front_chart import chart
from cli.screen.front_tables import front_notes, front_table, print_front
from cli.screen.option_comparison import client_rows, comparison
from cli.screen.plan_screen import point_by_point, print_plan, stages_table, together_lines
from cli.screen.wording import of_stage
from solver.plan.compared import ComparedFigures, Comparison
from solver.plan.plan import Option, Plan, Stage, Timing
from solver.plan.price_front import FrontPoint, OpenPart, TradeOff
from solver.units import Ticks, inches
from tests.sample_display import sample_plan

WIDTHS = [80, 120]
FALL = "each opening 2-1/8 in lower than the one below"
TOGETHER = "every kind on one shelf but teapot (shelves 1 and 2)"


def printed(table: Table, width: int = 80) -> str:
    screen = io.StringIO()
    Console(file=screen, width=width).print(table)
    text = screen.getvalue()
    assert max(len(line.rstrip()) for line in text.splitlines()) <= width
    return text


def row(text: str, label: str) -> str:
    """The line of a table that begins with a label, blanks made one."""
    return " ".join(next(line for line in text.splitlines() if line.startswith(label)).split())


@pytest.mark.parametrize("width", WIDTHS)
def test_options_side_by_side_show_what_is_parted_the_step_the_mirror_and_the_air(
    width: int,
) -> None:
    text = printed(comparison(sample_plan(), width)[0], width)
    assert row(text, "places parted") == "places parted 2 2 –"
    assert row(text, "step per opening").startswith("step per opening 2-1/8 in, within")
    assert row(text, "off the mirror") == "off the mirror 2.4 % 2.4 % –"
    assert "air over things" in text
    assert "rhythm" not in text


def test_every_option_is_told_point_by_point() -> None:
    lines = point_by_point(sample_plan().options)
    assert lines[0] == f"6 shelves: {FALL}, {TOGETHER}"
    assert len(lines) == 2  # the one that cannot work looks like nothing


def test_stages_are_told_in_words() -> None:
    text = printed(stages_table(sample_plan().options[0], "in", "USD").table, 120)
    assert FALL in text
    assert TOGETHER in text


@pytest.mark.parametrize(
    ("unit", "value", "inch", "metric"),
    [
        ("mm2", 64516, "100 in²", "645 cm²"),  # 645.16 mm2 to the square inch
        ("g", 4536, "10.0 lb", "4.5 kg"),
        ("%", 2.4, "2.4 %", "2.4 %"),
        ("places", 3, "3", "3"),
        ("mm2", "0 0 5", "0 0 5", "0 0 5"),
    ],
)
def test_units_of_stages(unit: str, value: float | str, inch: str, metric: str) -> None:
    stage = Stage(name="x", value=value, bound=None, proven=False, unit=unit)
    assert of_stage(value, stage, "in", "USD") == inch
    assert of_stage(value, stage, "mm", "EUR") == metric


def test_everything_that_is_parted_is_named_where_a_sentence_names_only_some() -> None:
    plan = sample_plan()
    assert together_lines(plan, plan.options[0])[0].startswith("Not on one shelf: ")
    assert together_lines(plan, plan.options[0].model_copy(update={"cases": ()})) == []


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_of_a_plan_is_wider_than_the_terminal(width: int) -> None:
    screen = io.StringIO()
    print_plan(Console(file=screen, width=width), sample_plan(), every=True)
    text = screen.getvalue()
    assert max(len(line.rstrip()) for line in text.splitlines()) <= width
    assert "rhythm" not in text


def test_the_client_reads_how_each_option_looks() -> None:
    plan = sample_plan()
    table = {label: cells for label, *cells in client_rows(plan, plan.options[:2])}
    assert table["how it looks"][0] == f"{FALL}\n{TOGETHER}"


def test_the_client_page_tells_the_look_and_what_more_is_parted() -> None:
    plan = sample_plan()
    first, second = plan.options[:2]
    assert second.scores is not None
    scores = second.scores.model_copy(update={"places_parted": 4})
    second = second.model_copy(update={"scores": scores})
    told = sentences(plan, second, PRICES)
    assert "2 places more parted." in told
    assert f"E{FALL[1:]}." in told
    assert f"E{TOGETHER[1:]}." in told
    labels = {one.label: one.cells for one in rows(plan, (first, second), PRICES)}
    assert labels["Places parted"] == (("2",), ("4",))
    assert labels["Openings"] == ((FALL,), (FALL,))
    assert labels["Rows off a mirror image"][0] == ("2.4 %",)


PRICES = Prices({}, frozenset(), "USD", "sheets")


def figures(parted: int, steps: Ticks) -> ComparedFigures:
    return ComparedFigures(
        price=None,
        sheets=2,
        places_parted=parted,
        steps_range=steps,
        headroom_least=inches("1"),
        headroom_spread=inches("3"),
        left_out=0,
    )


def compared(before: ComparedFigures, after: ComparedFigures) -> Plan:
    plan = sample_plan()
    comparison_ = Comparison(
        job_hash="",
        option="6 shelves",
        marks=(),
        marks_kept=6,
        things=(),
        things_kept=3,
        before=before,
        after=after,
    )
    return plan.model_copy(update={"comparison": comparison_})


def test_before_and_now_compare_what_is_parted_and_the_steps() -> None:
    plan = compared(figures(1, inches("1/16")), figures(3, inches("1")))
    text = printed(changed_tables(plan)[0].table)
    assert row(text, "places parted") == "places parted 1 3 +2"
    assert row(text, "steps differ by") == "steps differ by 1/16 in 1 in +15/16 in"
    assert freely_line(plan) == []  # nothing was held


def point(number: int, price: str, parted: int, option: Option) -> FrontPoint:
    return FrontPoint(
        number=number,
        price=Decimal(price),
        price_bound=Decimal(price),
        area=0.0,
        places_parted=parted,
        parted_bound=parted,
        proven=True,
        premium=None,
        option=option,
    )


def front(*figures_: tuple[str, int], **update: object) -> TradeOff:
    plan = sample_plan()
    option = plan.options[0].model_copy(update={"tags": ()})
    best = option.model_copy(update={"tags": ("recommended",)})
    points = tuple(
        point(n, price, parted, best if n == 1 else option)
        for n, (price, parted) in enumerate(figures_, start=1)
    )
    made = TradeOff(
        version="0.1.0",
        unit="in",
        job=plan.job,
        job_hash="",
        complete=True,
        stopped=False,
        points=points,
        timing=Timing(seconds=1),
    )
    return made.model_copy(update=update)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_front_has_a_row_an_option_with_its_look(width: int) -> None:
    text = printed(front_table(front(("92.00", 4), ("184.00", 0)), width), width)
    assert "parted" in text
    assert "off mirror" in text
    assert ("step" in text) == (width >= 100)
    assert "recommended" in text
    screen = io.StringIO()
    print_front(Console(file=screen, width=width), front(("92.00", 4), ("184.00", 0)))
    assert max(len(line.rstrip()) for line in screen.getvalue().splitlines()) <= width
    assert f"No. 1: {FALL}" in " ".join(screen.getvalue().split())


def test_what_is_not_proven_stands_beside_what_was_found() -> None:
    made = front(("92.00", 4), ("184.00", 2))
    open_ = made.points[1].model_copy(update={"parted_bound": 1, "proven": False})
    text = printed(front_table(made.model_copy(update={"points": (made.points[0], open_)}), 80))
    assert "2 (>= 1)" in text
    assert "not proven" in text


@pytest.mark.parametrize("width", [60, 80, 120])
def test_every_point_is_on_the_line_of_its_price(width: int) -> None:
    lines = chart(front(("92.00", 9), ("184.00", 0)), width, plain=False)
    assert all(len(line) <= width for line in lines)
    assert lines[1].startswith("$92.00")
    assert lines[1].endswith("●1*")
    assert lines[2].startswith("$184.00")
    assert lines[2].endswith("●2")
    assert lines[1].index("●") > lines[2].index("●")
    assert lines[-1].split() == ["0", "3", "6", "9", "12"]  # whole places


def test_plain_terminals_get_plain_signs() -> None:
    assert "\n".join(chart(front(("1.00", 1), ("2.00", 0)), 80, plain=True)).isascii()


def test_points_at_one_spot_stand_below_each_other() -> None:
    first, second = chart(front(("9.00", 0), ("9.00", 0), ("9.00", 3)), 80, plain=False)[1:3]
    assert "1*" in first
    assert second.strip() == "●2"


def test_one_option_alone_needs_no_chart() -> None:
    assert chart(front(("9.00", 0)), 80, plain=False) == []


def test_an_open_front_never_says_proven() -> None:
    assert front_notes(front())[0].startswith("Proven")
    assert front_notes(front(complete=False))[0].startswith("Not proven")


@pytest.mark.parametrize(
    ("price", "parted", "said"),
    [
        ("92.00", None, "Open: 4 shelves at $92.00: too soon."),
        (None, None, "Open: 4 shelves: too soon."),
        (None, 1, "Open: 4 shelves, 1 place parted or more: too soon."),
    ],
)
def test_what_is_open_is_told(price: str | None, parted: int | None, said: str) -> None:
    part = OpenPart(
        name="4 shelves",
        shelf_counts={"alcove": (4,)},
        price=price,
        parted_least=parted,
        why="too soon",
    )
    assert said in front_notes(front(open_parts=(part,)))
