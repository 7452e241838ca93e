"""The fixture jobs and lists say what their comments claim."""

from __future__ import annotations

import csv
import tomllib
from pathlib import Path

import openpyxl
import pytest

from solver.carcass.boards_of_case import box, lip_sizes
from solver.carcass.outline import depth_wanted
from solver.carcass.settled_job import largest_job
from solver.doorway.swing_answer import swing_of_case
from solver.intake.load import load
from solver.job.case import SizeRange, settled
from solver.job.job import Job, size_allowance
from solver.units import Unit, inches, mm, parse_length, parse_mass, round_down

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "cli" / "demo" / "clock-alcove.toml"
JOBS = [DEMO, *sorted((ROOT / "fixtures" / "jobs").glob("*.toml"))]
LISTS = ROOT / "fixtures" / "inventories"


def load_file(path: Path) -> Job:
    raw = tomllib.loads(path.read_text("utf-8"))
    return load(raw, raw["job"]["unit"])


def load_fixture(name: str) -> Job:
    return load_file(ROOT / "fixtures" / "jobs" / f"{name}.toml")


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_each_thing_by_itself_goes_into_some_bay(path: Path) -> None:
    job = load_file(path)
    sized = largest_job(job) if any(case.open_outline for case in job.cases) else job
    for item in job.items:
        extra = size_allowance(job, item)
        fits = []
        for case in sized.cases:
            depth = depth_wanted(sized, case)
            least = depth.least if isinstance(depth, SizeRange) else depth
            in_front = max(job.look.front_margin, lip_sizes(job, case)[0])
            for _, width in box(sized, case, least).bays:
                room = width - 2 * job.look.end_margin
                fits.append(item.width + extra <= room and item.depth + extra + in_front <= least)
        assert any(fits), item.name


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_sheet_and_stick_has_a_price(path: Path) -> None:
    job = load_file(path)
    prices = [sheet.price for sheet in job.sheets]
    prices += [stick.price for moulding in job.mouldings for stick in moulding.lengths]
    assert all(price is not None and 5 < price < 200 for price in prices)


@pytest.mark.parametrize(
    ("path", "kinds", "things"),
    [
        (DEMO, 23, 51),
        (ROOT / "fixtures" / "jobs" / "pair-beside.toml", 40, 120),
    ],
    ids=["demo", "pair-beside"],
)
def test_lists_are_as_long_as_described(path: Path, kinds: int, things: int) -> None:
    job = load_file(path)
    assert (len(job.items), sum(item.count for item in job.items)) == (kinds, things)


def strips(job: Job, width: int) -> int:
    """How many strips of a width come out of the first sheet."""
    shop, sheet = job.shop, job.sheets[0]
    return (sheet.width - 2 * shop.edge_trim + shop.kerf) // (width + shop.margin + shop.kerf)


def test_demo_depths_straddle_the_twelve_inch_trap() -> None:
    job = load_file(DEMO)
    wanted = depth_wanted(job, job.cases[0])
    assert isinstance(wanted, SizeRange)
    assert strips(job, wanted.least) == 4
    assert strips(job, wanted.wished) == strips(job, wanted.most) == 3


def test_demo_case_can_be_stood_up_in_its_alcove() -> None:
    job = load_file(DEMO)
    case, alcove = job.cases[0], job.doorways[0]
    deepest = inches("12-1/2")
    clear = alcove.clear_height - inches("1/4")
    high = settled(case.height)
    assert high**2 + deepest**2 <= clear**2 < (high + inches("1/8")) ** 2 + deepest**2
    assert alcove.clear_width - settled(case.width) == inches("5/8")


def test_the_demo_in_a_doorway_is_as_large_as_its_doorway_lets_it_swing() -> None:
    """Without its sizes in the file, it is the largest on the cutting step that still swings."""
    job = load_file(DEMO.with_name("larder-door.toml"))
    (case,) = job.cases
    assert swing_of_case(job, case).swings
    wider = case.model_copy(update={"width": settled(case.width) + job.shop.cutting_step})
    assert not swing_of_case(job, wider).swings
    assert [one for one in job.doorways[0].old_mortises if one < settled(case.height)]


def test_demo_leaves_the_count_open_and_some_things_unknown() -> None:
    job = load_file(DEMO)
    assert job.cases[0].shelf_counts == (6, 7)
    assert [item.name for item in job.items if item.guessed] == ["enamel bread bin"]
    assert any(item.weight is None for item in job.items)
    assert any(item.may_lie for item in job.items)
    assert any(item.stack > 1 for item in job.items)


def test_pantry_case_is_the_widest_that_swings_clear() -> None:
    job = load_fixture("pantry-door")
    case, doorway = job.cases[0], job.doorways[0]
    depth = case.depth
    assert isinstance(depth, int)
    pin = running = inches("1/8")

    def clears(width: int) -> bool:
        return (pin + width) ** 2 + depth**2 <= (doorway.clear_width - running) ** 2

    assert clears(settled(case.width))
    assert not clears(settled(case.width) + inches("1/16"))
    left = doorway.clear_height - inches("1/8") - case.above_floor
    assert case.height == round_down(left, inches("1/16"))


def test_three_tall_things_fit_with_seven_eighths_of_headroom_and_not_with_more() -> None:
    job = load_fixture("too-tall")
    case = job.cases[0]
    sizes = box(job, case, inches(15))
    wide = [item for item in job.items if item.width >= inches(14)]
    clear = sizes.inside_height - 2 * sizes.thickness
    run = sizes.inside_width - 2 * job.look.end_margin
    assert len(wide) == case.shelf_counts[0] + 1
    assert 2 * min(item.width for item in wide) + job.look.gap > run
    tall = sum(item.height for item in wide)
    assert tall + 3 * inches("7/8") == clear < tall + 3 * inches("15/16")
    assert job.look.headroom == inches(1)


def test_neighbouring_cases_have_their_bottoms_level() -> None:
    job = load_fixture("pair-beside")
    wide, narrow = job.cases
    assert narrow.beside == wide.name
    assert box(job, wide, mm(200)).floor == box(job, narrow, mm(200)).floor
    assert narrow.shelf_counts[0] < wide.shelf_counts[0]


def test_pinned_shelves_stand_on_a_32_mm_grid() -> None:
    case = load_fixture("pins").cases[0]
    assert (case.fixing, case.pin_pitch, case.first_hole) == ("pins", mm(32), mm(96))


def test_books_in_the_ceramics_case_stand_without_gaps() -> None:
    job = load_fixture("ceramics-bays")
    books = [item for item in job.items if item.group == "books"]
    assert len(books) == 5
    assert {item.gap for item in books} == {0}
    assert job.thickness("birch ply 18") == mm("17.6")
    assert job.cases[0].bay_count == 3


Row = tuple[str, int, int, int, int, int | None]
ORDER = ("name", "width", "height", "depth", "count", "weight")
HEADERS = {
    "name": "name",
    "item": "name",
    "width": "width",
    "wide": "width",
    "breadth": "width",
    "high": "height",
    "height": "height",
    "deep": "depth",
    "depth": "depth",
    "qty": "count",
    "count": "count",
    "weight": "weight",
}


def row(cells: dict[str, str], unit: Unit) -> Row:
    """One line of a table by its header, read the plainest way."""
    named = {HEADERS[k.lower()]: v for k, v in cells.items() if k.lower() in HEADERS}
    assert set(named) == set(ORDER)
    width, height, depth = (parse_length(named[k], unit) for k in ("width", "height", "depth"))
    weight = parse_mass(named["weight"], unit) if named["weight"] else None
    return named["name"], width, height, depth, int(named["count"]), weight


def read_csv(name: str, delimiter: str, header: tuple[str, ...] | None = None) -> list[Row]:
    with (LISTS / name).open(encoding="utf-8", newline="") as file:
        lines = list(csv.DictReader(file, fieldnames=header, delimiter=delimiter))
    return [row(line, "mm" if "metric" in name else "in") for line in lines]


def read_workbook(name: str) -> list[Row]:
    sheet = openpyxl.load_workbook(LISTS / name).active
    header, *lines = sheet.iter_rows(values_only=True)
    texts = [["" if cell is None else str(cell) for cell in line] for line in lines]
    return [row(dict(zip(header, line, strict=True)), "in") for line in texts]


def test_the_collection_is_one_list_in_four_formats() -> None:
    plain = read_csv("collection.csv", ",")
    assert len(plain) == 10
    assert read_csv("collection.tsv", "\t", header=ORDER) == plain
    assert read_csv("collection-metric.csv", ";") == plain
    assert read_workbook("collection.xlsx") == plain


def test_each_messy_line_has_its_expected_reading() -> None:
    lines = [line for line in (LISTS / "messy.txt").read_text("utf-8").splitlines() if line]
    with (LISTS / "messy.expected.csv").open(encoding="utf-8", newline="") as file:
        expected = list(csv.DictReader(file))
    assert len(lines) == len(expected)
    for line, wanted in zip(lines, expected, strict=True):
        assert wanted["name"] in line
        assert wanted["count"] == "1" or wanted["count"] in line
        assert ("~" in line) == (wanted["guessed"] == "yes")
        assert all(parse_length(wanted[k], "in") > 0 for k in ("width", "height", "depth"))
