"""Slack and advice as a person reads them, and in the tables for spreadsheets."""

from __future__ import annotations

import io
from decimal import Decimal

import pytest
from rich.console import Console

from cli.screen.advice_tables import advice_line, advice_table, saving, slack_lines, slack_table
from cli.screen.console import Titled
from solver.cutting.slack import TIGHT, stick_with_slack, with_slack
from solver.plan.plan_frames import mouldings_frame, sheets_frame
from solver.plan.slack_and_advice import Advice
from solver.plan.stocked import Sheet, Stick
from solver.units import Unit, inches, mm
from tests.edits import put
from tests.sample_plans import good_plan
from tests.two_bays_cutting import STRIPS
from tests.two_bays_job import BAY, KERF, TRIM

OPTION = good_plan().options[0]


def shown(titled: Titled, width: int) -> list[str]:
    console = Console(file=io.StringIO(), width=width)
    console.print(titled.title)
    console.print(titled.table)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue().splitlines()


def advice(**changed: object) -> Advice:
    plain: dict[str, object] = {
        "what": "shorter",
        "parts": ("shelf#1",),
        "by": inches("1/8"),
        "to": inches("31-7/8"),
        "stock": "sheet",
        "sheets_saved": 1,
        "saves": Decimal(65),
        "slack": inches("1/32"),
        "text": "3 x shelf: 1/8 in shorter, 31-7/8 in long",
    }
    return Advice.model_validate({**plain, **changed})


@pytest.mark.parametrize("width", [80, 120])
def test_the_slack_of_every_sheet_and_stick_stands_in_a_line_each(width: int) -> None:
    lines = shown(slack_table(OPTION.sheets, OPTION.mouldings, "mm"), width)

    beside = 1220 - 2 * TRIM - sum(size for size, _ in STRIPS) - 4 * KERF
    along = ", ".join(
        str(2440 - 2 * TRIM - sum(size for _, size, _ in row) - KERF * (len(row) - 1))
        for _, row in STRIPS
    )
    assert max(map(len, lines)) <= width
    assert any(line.split() == ["sheet", "1", str(beside), *along.split(), "279"] for line in lines)
    stick = 1800 - 2 * BAY - KERF
    assert any(line.startswith("lip 8 x 30") and f"{stick}, {stick}" in line for line in lines)


def test_the_least_slack_is_named_with_its_place_where_there_is_enough() -> None:
    (line,) = slack_lines(OPTION.sheets, OPTION.mouldings, "mm")

    assert line == f"Least slack: {1220 - 2 * TRIM - 997} mm, sheet 2, beside its strips."


def tight_sheet(across: int, *along: int) -> Sheet:
    """The first sheet, its strips said to have so much left [tick]."""
    sheet = OPTION.sheets[0]
    strips = sheet.slack.strips if sheet.slack else ()
    made = tuple(
        strip.model_copy(update={"along": room}) for strip, room in zip(strips, along, strict=False)
    )
    return put(put(sheet, "slack.strips", made), "slack.across", across)


@pytest.mark.parametrize(("unit", "just"), [("in", inches("1/16")), ("mm", mm(1))])
def test_less_than_a_sixteenth_or_a_millimetre_is_no_slack_to_spare(unit: Unit, just: int) -> None:
    assert TIGHT[unit] == just
    enough, short = tight_sheet(just, just), tight_sheet(just, just - 1)

    assert slack_lines([enough], [], unit)[0].startswith("Least slack")
    text = slack_lines([short], [], unit)[0]
    assert text.startswith("No slack to spare in sheet 1, strip 1: ")


def test_all_places_without_slack_are_named_sheet_by_sheet() -> None:
    sheets = [tight_sheet(mm(9), 0, mm(5), 0, 0), tight_sheet(0, mm(5))]
    stick = Stick(stock="lip", length=9, price=None, on_hand=False, kerf=0, pieces=(), slack=0)

    text = slack_lines(sheets, [stick], "mm")[0]

    assert "sheet 1, strips 1, 3 and 4; sheet 2, beside its strips; stick 1:" in text


def test_many_places_without_slack_are_counted() -> None:
    text = slack_lines([tight_sheet(0)] * 7, [], "mm")[0]

    assert "; and in 3 more: a sheet or stick under size" in text


def test_rows_in_a_strip_stand_behind_it_in_brackets() -> None:
    sheet = put(OPTION.sheets[0], "slack.strips.0.rows", mm(7))

    assert any("(rows 7)" in line for line in shown(slack_table([sheet], [], "mm"), 80))


def test_nothing_cut_has_no_slack() -> None:
    assert slack_lines([], [], "mm") == []


@pytest.mark.parametrize("width", [80, 120])
def test_advice_says_what_to_change_and_what_it_saves(width: int) -> None:
    lines = shown(advice_table([advice()], "in", "USD"), width)

    assert lines[0].endswith("with room to spare: 1/32 in)")
    assert lines[-1].split("  ")[0] == "3 x shelf: 1/8 in shorter, 31-7/8 in long"
    assert lines[-1].strip().endswith("1 sheet, $65.00")
    assert max(map(len, lines)) <= width


@pytest.mark.parametrize(
    ("changed", "text"),
    [
        ({}, "1 sheet, $65.00"),
        ({"stock": "stick", "sheets_saved": 2, "saves": None}, "2 sticks"),
        ({"sheets_saved": -3, "saves": Decimal(25)}, "$25.00"),
        ({"sheets_saved": 0, "saves": None}, "smaller sheets"),
    ],
)
def test_a_saving_is_in_stock_and_in_money_as_far_as_known(
    changed: dict[str, object], text: str
) -> None:
    assert saving(advice(**changed), "USD") == text


def test_what_is_known_without_advice_is_one_line() -> None:
    assert advice_line("no small change found") == ["Advice: no small change found."]
    assert advice_line(None) == []


def test_the_tables_for_spreadsheets_name_the_strip_and_its_slack() -> None:
    frame = sheets_frame(good_plan())
    toe = frame[frame["part"] == "hall/toe"].iloc[0]

    assert toe["strip"] == 5
    assert toe["slack_along_mm"] == 2440 - 2 * TRIM - 1218
    assert toe["slack_beside_mm"] == 1220 - 2 * TRIM - sum(s for s, _ in STRIPS) - 4 * KERF
    assert set(mouldings_frame(good_plan())["slack_mm"]) == {1800 - 2 * BAY - KERF}


def test_without_slack_in_the_plan_the_cells_stay_empty() -> None:
    bare = put(good_plan(), "options.0.sheets.0.slack", None)
    row = sheets_frame(bare).iloc[0]

    assert (row["strip"], row["slack_along"], row["slack_beside_mm"]) == (None, None, None)


def test_the_table_works_slack_out_where_the_plan_does_not_state_it() -> None:
    bare = [s.model_copy(update={"slack": None}) for s in OPTION.sheets]
    sticks = [s.model_copy(update={"slack": None}) for s in OPTION.mouldings]

    assert shown(slack_table(bare, sticks, "mm"), 120) == shown(
        slack_table([with_slack(s) for s in bare], [stick_with_slack(s) for s in sticks], "mm"), 120
    )
