"""The client page in a real browser: dragging, keys, copying, options, printing, access."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page
from typer.testing import CliRunner

from cli.main import app
from solver.plan.plan import Plan
from solver.units import inches, parse_length, with_unit
from tests.browsing import Watched
from tests.sample_display import sample_plan
from tests.sample_plans import good_plan

Opener = Callable[..., Watched]

HALL = """
[job]
unit = "in"
title = "Hall"
[[case]]
name = "the hall"
width = 22
height = 44
depth = 9
shelves = [2, 3]
back = "none"
[look]
headroom = 1
clear_least = 4
[[sheet]]
name = "ply"
material = "ply"
length = 96
width = 48
thickness = "3/4"
price = 60
[[item]]
name = "urn"
width = 10
height = 12
depth = 5
weight = "1 lb"
[[item]]
name = "cup"
width = 5
height = 6
depth = 5
count = 4
weight = "1 lb"
"""
SHELF = '.elevation:not([hidden]) [role="slider"]'
SIXTEENTH = inches("1/16")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a small job that has been planned: two options."""
    made = tmp_path_factory.mktemp("hall")
    (made / "hall.toml").write_text(HALL, "utf-8")
    done = CliRunner().invoke(app, ["plan", str(made / "hall.toml"), "--quiet", "--no-near"])
    assert done.exit_code == 0, done.output
    return made


@pytest.fixture(scope="module")
def hall(folder: Path) -> Plan:
    return Plan.model_validate_json((folder / "hall.last-plan.json").read_text("utf-8"))


def mark(page: Page, shelf: int) -> int:
    """Mark of a shelf of the chosen option as the page tells it [tick]."""
    text = page.locator(SHELF).nth(shelf - 1).get_attribute("aria-valuetext") or ""
    return parse_length(text.split(". ")[0], "in" if " in." in text else "mm")


def inches_of(page: Page, shelf: int, bound: str) -> int:
    value = page.locator(SHELF).nth(shelf - 1).get_attribute(f"aria-value{bound}")
    assert value is not None
    return round(float(value) * inches(1))


def planned(plan: Plan, option: int = 0) -> list[int]:
    return [s.underside for s in plan.options[option].cases[0].bays[0].shelves]


def test_a_shelf_is_dragged_step_by_step_and_stops_where_things_stop_fitting(
    opened: Opener, hall: Plan
) -> None:
    page = opened(hall).page
    grip = page.locator(SHELF).first
    grip.scroll_into_view_if_needed()
    box = grip.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    low, high = inches_of(page, 1, "min"), inches_of(page, 1, "max")
    bay = hall.options[0].cases[0].bays[0]
    tallest = [max(t.y + t.height for t in o.items) if o.items else 0 for o in bay.openings]
    least = max(tallest[0] + hall.job.look.headroom, hall.job.look.clear_least)
    assert low == bay.openings[0].floor + least  # all of these are whole sixteenths

    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 9, steps=3)
    part = planned(hall)[0] - mark(page, 1)
    page.mouse.move(x, y - 2000, steps=5)
    top = mark(page, 1)
    page.mouse.move(x, y + 2000, steps=5)
    page.mouse.up()

    assert 0 < part < planned(hall)[0] - low
    assert part % SIXTEENTH == 0
    assert mark(page, 1) == low < planned(hall)[0] < high == top
    assert page.locator(".one.out, .one.tight").count() == 0


def test_keys_step_by_the_marking_step_and_to_the_ends(opened: Opener, hall: Plan) -> None:
    page = opened(hall).page
    grip = page.locator(SHELF).first
    start, low, high = mark(page, 1), inches_of(page, 1, "min"), inches_of(page, 1, "max")
    assert high - low > inches(3)

    grip.focus()
    page.keyboard.press("Home")
    assert mark(page, 1) == low
    page.keyboard.press("ArrowUp")
    assert mark(page, 1) == low + SIXTEENTH
    page.keyboard.press("PageUp")
    assert mark(page, 1) == low + SIXTEENTH + inches(1)
    page.keyboard.press("ArrowDown")
    assert mark(page, 1) == low + inches(1)
    page.keyboard.press("End")
    page.keyboard.press("ArrowUp")
    assert mark(page, 1) == high
    for _ in range(5):  # the last key did nothing
        page.get_by_role("button", name="Undo").click()
    assert mark(page, 1) == start
    assert page.locator("#moved").is_hidden()


def test_buttons_move_a_shelf_by_a_step_without_any_dragging(opened: Opener, hall: Plan) -> None:
    page = opened(hall).page
    start, low = mark(page, 2), inches_of(page, 2, "min")
    lower, higher = (page.get_by_role("button", name=word) for word in ("Lower", "Higher"))

    page.get_by_label("Shelf", exact=True).select_option("2")
    higher.click()
    assert mark(page, 2) == start + SIXTEENTH
    page.locator(SHELF).nth(1).focus()
    page.keyboard.press("Home")
    assert mark(page, 2) == low
    assert lower.is_disabled()
    higher.click()
    assert mark(page, 2) == low + SIXTEENTH


def test_figures_follow_the_shelves_and_things_that_no_longer_fit_are_marked(
    opened: Opener, hall: Plan
) -> None:
    page = opened(hall).page
    assert "planned" not in page.locator("#now").inner_text()
    page.get_by_label("let shelves go where things no longer fit").check()
    page.locator(SHELF).first.focus()
    page.keyboard.press("Home")

    # the lowest opening is now the least that the job allows
    bay = hall.options[0].cases[0].bays[0]
    assert mark(page, 1) == bay.openings[0].floor + hall.job.look.clear_least
    too_tall = [t for t in bay.openings[0].items if t.height > hall.job.look.clear_least]
    assert page.locator(".one.out").count() == len(too_tall) > 0
    assert "too tall" in page.locator("#now .wrong").inner_text()
    assert "(planned" in page.locator("#now").inner_text()
    text = page.locator(SHELF).first.get_attribute("aria-valuetext")
    assert page.locator("#copy-warning").is_visible()
    assert "too tall" in (text or "").split("Above")[0]


@pytest.mark.parametrize("option", [0, 1])
def test_what_is_copied_plans_the_same_marks_again(
    opened: Opener, folder: Path, hall: Plan, option: int
) -> None:
    page = opened(hall, permissions=["clipboard-read", "clipboard-write"]).page
    page.get_by_role("radio", name=hall.options[option].name).check()
    page.locator(SHELF).nth(1).focus()
    page.keyboard.press("End")
    page.keyboard.press("ArrowDown")
    page.get_by_role("button", name="Copy the marks").click()
    page.get_by_text("Copied.").wait_for()
    words = shlex.split(page.evaluate("navigator.clipboard.readText()"))
    count = len(hall.options[option].cases[0].bays[0].shelves)
    wanted = [mark(page, shelf) for shelf in range(1, count + 1)]
    assert wanted != planned(hall, option)

    out = folder / f"again-{option}.json"
    done = CliRunner().invoke(
        app,
        ["plan", str(folder / "hall.toml"), *words, "--quiet", "--no-keep", "--json", str(out)],
    )

    assert done.exit_code == 0, done.output
    assert planned(Plan.model_validate_json(out.read_text("utf-8"))) == wanted


def test_shelves_of_one_line_move_together(opened: Opener) -> None:
    plan = good_plan()
    page = opened(plan).page
    bays = plan.options[0].cases[0].bays
    assert page.locator(SHELF).count() == len(bays[0].shelves) < sum(len(b.shelves) for b in bays)
    before = page.locator("#holds").input_value()
    page.locator(SHELF).first.focus()
    by = {}
    for key in ("Home", "End"):
        page.keyboard.press(key)
        words = shlex.split(page.locator("#holds").input_value())[1::2]
        by[key] = {word.split("=")[0]: int(word.split("=")[1]) for word in words}
        assert by[key]["hall/1:shelf1"] == by[key]["hall/2:shelf1"]
    assert by["Home"]["hall/1:shelf1"] < by["End"]["hall/1:shelf1"]
    assert by["Home"]["hall/1:shelf2"] == by["End"]["hall/1:shelf2"]
    page.get_by_role("button", name="Back as planned").click()
    assert page.locator("#holds").input_value() == before


def test_options_things_dimensions_and_eye_level_are_switched(opened: Opener, hall: Plan) -> None:
    page = opened(hall).page
    first, second = (one.name for one in hall.options)
    assert page.locator("#chosen-name").inner_text() == first
    page.get_by_role("radio", name=second).check()
    assert page.locator("#chosen-name").inner_text() == second
    assert page.locator(".elevation:visible").count() == 1
    assert page.locator(SHELF).count() == len(planned(hall, 1))
    for word, parts in (("things", ".one"), ("dimensions", ".label"), ("eye level", ".eye-line")):
        shown = page.locator(f".elevation:not([hidden]) .draw {parts}").first
        assert shown.is_visible()
        page.get_by_label(word, exact=True).uncheck()
        assert shown.is_hidden()
    page.get_by_label("eye level", exact=True).check()
    page.get_by_label("ft", exact=True).fill("5")
    page.get_by_label("in", exact=True).fill("4.5")
    # eyes are 4-1/2 in below the crown
    line = page.locator(".elevation:not([hidden]) .eye-line")
    assert line.inner_text().startswith("your eyes, 60 in up")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 360])
def test_nothing_is_wrong_in_either_light_at_any_width(
    opened: Opener, hall: Plan, scheme: str, width: int
) -> None:
    found = opened(hall, color_scheme=scheme, size=(width, 800))
    page = found.page
    page.get_by_label("let shelves go where things no longer fit").check()
    page.locator(SHELF).first.focus()
    page.keyboard.press("Home")

    assert page.evaluate("document.documentElement.scrollWidth") == width
    assert [one["id"] for one in Axe().run(page).response["violations"]] == []
    assert found.faults == []
    assert found.requests == [page.url]


def test_a_thing_that_is_pointed_at_is_named(opened: Opener, hall: Plan) -> None:
    page = opened(hall).page
    opening = hall.options[0].cases[0].bays[0].openings[0]
    thing = opening.items[0]

    page.locator('#p0b0o0 [data-n="0"] rect').click()

    said = page.locator("#strip").inner_text()
    assert thing.item in said
    assert with_unit(thing.headroom, "in") in said


def test_all_options_are_drawn_beside_each_other_and_the_one_that_is_touched_is_chosen(
    opened: Opener, hall: Plan
) -> None:
    page = opened(hall).page
    page.get_by_label("all options beside each other").check()
    left, right = (page.locator(".elevation .draw").nth(at).bounding_box() for at in (0, 1))
    assert left is not None
    assert right is not None
    assert left["x"] + left["width"] <= right["x"]
    outside = [option.cases[0].outside for option in hall.options]
    assert outside[0] == outside[1]
    assert (left["width"], left["height"]) == (right["width"], right["height"])

    page.locator('.elevation[data-option="1"] [role="slider"]').first.focus()
    page.keyboard.press("Home")

    assert page.locator("#chosen-name").inner_text() == hall.options[1].name
    assert page.get_by_role("radio", name=hall.options[1].name).is_checked()
    assert "Shelf 1" in page.locator("#strip").inner_text()
    assert Axe().run(page).response["violations"] == []


def test_the_theme_can_be_chosen(opened: Opener, hall: Plan) -> None:
    page = opened(hall).page
    paper = "getComputedStyle(document.documentElement).backgroundColor"
    light = page.evaluate(paper)
    page.get_by_label("dark", exact=True).check()
    dark = page.evaluate(paper)
    page.get_by_label("as the device").check()
    assert page.evaluate(paper) == light != dark


def test_a_finger_moves_a_shelf_without_scrolling_the_page(opened: Opener, hall: Plan) -> None:
    page = opened(hall, size=(360, 740), has_touch=True, is_mobile=True).page
    grip = page.locator(SHELF).first
    grip.scroll_into_view_if_needed()
    box = grip.bounding_box()
    assert box is not None
    assert box["height"] >= 24  # least target of WCAG 2.2, 2.5.8
    before, scrolled = mark(page, 1), page.evaluate("scrollY")
    low = inches_of(page, 1, "min")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    session = page.context.new_cdp_session(page)
    for kind, down in (("touchStart", 0), ("touchMove", 40), ("touchMove", 300), ("touchEnd", 0)):
        points = [] if kind == "touchEnd" else [{"x": x, "y": y + down}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    assert mark(page, 1) == low < before
    assert page.evaluate("scrollY") == scrolled


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_on_one_page_whatever_the_theme(
    opened: Opener, hall: Plan, paper: str, tmp_path: Path
) -> None:
    page = opened(hall, color_scheme="dark").page
    file = tmp_path / "page.pdf"
    page.pdf(path=str(file), format=paper)
    document = pypdfium2.PdfDocument(file)
    text = document[0].get_textpage().get_text_range()
    assert len(document) == 1
    assert all(word in text for word in ("Hall", "Side by side", "urn", hall.options[1].name))
    document.close()


def test_many_options_print_on_one_page_with_the_one_that_is_chosen(
    opened: Opener, tmp_path: Path
) -> None:
    plan = sample_plan()
    options = tuple(
        plan.options[at % 2].model_copy(update={"name": f"choice {at + 1}", "tags": ()})
        for at in range(8)
    )
    page = opened(plan.model_copy(update={"options": options})).page
    page.get_by_role("radio", name="choice 8").check()
    file = tmp_path / "page.pdf"
    page.pdf(path=str(file), format="A4")
    document = pypdfium2.PdfDocument(file)
    text = document[0].get_textpage().get_text_range()
    assert len(document) == 1
    assert text.count("choice 8") == 2  # over the drawing, and in the table
    assert "choice 7" not in text
    document.close()


def test_a_plan_without_any_layout_says_why_and_has_no_fault(opened: Opener) -> None:
    plan = sample_plan()
    impossible = plan.model_copy(update={"options": plan.options[2:]})
    found = opened(impossible)
    assert "Not possible: the openings would be lower" in found.page.inner_text("main")
    assert found.page.locator(".elevation").count() == 0
    assert found.faults == []
