"""The client page as a file: self-contained, escaped, the same bytes, small; and its lines."""

from __future__ import annotations

import base64
import json
import re
import struct
import zlib
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from cli.drawings.pictures import read_pictures
from cli.page.facts import page_facts, shelf_lines
from cli.page.option_differences import prices, sentences
from cli.page.page_file import json_island, page_html
from solver.job.have import Have
from solver.plan.plan import Plan, Timing
from tests.builders import make_job
from tests.mutations import NOT_SHARED
from tests.sample_display import sample_plan
from tests.sample_plans import good_plan

ROUGH = (
    "<script>alert(1)</script>",
    "</script><!-- x",
    "a \"quoted\" & 'single' one",
    "=cmd()",
    "line\u2028end\u2029",
    "עברית \u202eright to left",
    "🏺 ΩΩ",
    "{{ 7 * 7 }}",
    "a very long name " * 11,
)


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


DOT = (
    b"\x89PNG\r\n\x1a\n"
    + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(b"\0\x80"))
    + chunk(b"IEND", b"")
)
"""One grey dot (ISO/IEC 15948)."""


def swapped(data: Any, old: str, new: str) -> Any:
    """The data with one text for another, wherever it stands, as a key too."""
    if isinstance(data, dict):
        return {swapped(k, old, new): swapped(v, old, new) for k, v in data.items()}
    if isinstance(data, list):
        return [swapped(one, old, new) for one in data]
    return data.replace(old, new) if isinstance(data, str) else data


def parts(html: str) -> tuple[str, str]:
    """The page without its style, program and facts; and the facts."""
    facts = re.search(r'<script type="application/json" id="facts">(.*?)</script>', html, re.DOTALL)
    assert facts is not None
    return re.sub(r"<(script|style)[^>]*>.*?</\1>", "", html, flags=re.DOTALL), facts[1]


@pytest.mark.parametrize("name", ROUGH)
def test_names_are_data_everywhere(name: str) -> None:
    data = json.loads(good_plan().to_json())
    for old in (data["job"]["item"][0]["name"], data["job"]["job"]["title"], "2 shelves"):
        data = swapped(data, old, name)
    plan = Plan.model_validate_json(json.dumps(data))

    body, facts = parts(page_html(plan))

    assert json.loads(facts)["options"][0]["name"] == plan.options[0].name == name
    assert body.count("<script") == body.count("<!--") == 0
    assert name in unescape(re.search("<h1>.*</h1>", body)[0])  # type: ignore[index]
    assert not re.search("[<>\u2028\u2029]", facts)


def test_the_island_reads_back_as_it_was() -> None:
    facts = {"name": "</script><!--\u2028\u2029&amp; \\ \" '"}

    assert json.loads(json_island(facts)) == facts


def test_the_page_allows_and_names_nothing_outside() -> None:
    html = page_html(sample_plan())

    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', html)
    assert policy is not None
    assert "default-src &#39;none&#39;" in policy[1]
    assert "unsafe" not in policy[1]
    addresses = set(re.findall(r"\w+://[^\s\"'<]+", html))
    assert addresses == {"http://www.w3.org/2000/svg"}  # the name of a language, never fetched
    assert re.findall(r"(?:src|href)=\"(?!#)[^\"]*", html) == []


def test_the_same_plan_gives_the_same_bytes_whatever_time_it_took() -> None:
    plan = sample_plan()
    slower = plan.model_copy(update={"timing": Timing(seconds=99)})
    again = Plan.model_validate_json(plan.to_json())

    assert page_html(plan) == page_html(slower) == page_html(again)


def test_a_large_plan_stays_under_a_mebibyte() -> None:
    things = [
        {"name": f"thing {i} " + "x" * 150, "width": 2, "height": 3, "depth": 3, "count": 3}
        for i in range(200)
    ]
    case = {"width": 94, "height": 90, "shelves": 6, "back": "none"}
    boards = {"name": "ply", "material": "ply", "length": 96, "width": 48, "thickness": "3/4"}
    plan = sample_plan(make_job(case=case, items=things, sheet=[{**boards, "price": 90}]))

    assert len(page_html(plan).encode()) < 2**20


def test_a_picture_is_in_the_page_once_and_used_for_each_thing(tmp_path: Path) -> None:
    plan = sample_plan()
    item, *others = plan.job.items
    named = (item.model_copy(update={"picture": "clock.png"}), *others)
    plan = plan.model_copy(update={"job": plan.job.model_copy(update={"items": named})})
    (tmp_path / "clock.png").write_bytes(DOT)

    html = page_html(plan, pictures=read_pictures(plan.job, str(tmp_path / "job.toml")))

    standing = [
        thing
        for option in plan.options
        for case in option.cases
        for bay in case.bays
        for opening in bay.openings
        for thing in opening.items
        if thing.item == item.name and not thing.lying
    ]
    assert html.count(base64.b64encode(DOT).decode()) == 1
    assert html.count('<use href="#picture-0"') == len(standing) + 1  # one in the key
    assert '<use href="#picture' not in page_html(plan)


def test_options_are_told_apart_in_plain_words() -> None:
    plan = sample_plan()
    first, second, impossible = plan.options
    priced = prices(plan, (first, second), None)

    assert sentences(plan, impossible, priced) == [f"Not possible: {impossible.why}."]
    assert "One shelf more." in sentences(plan, second, priced)
    assert not any("shelf more" in line for line in sentences(plan, first, priced))


def test_shelves_of_one_height_in_neighbouring_bays_are_one_line() -> None:
    plan = good_plan()
    option = plan.options[0]
    each = len(option.cases[0].bays[0].shelves)
    alone = NOT_SHARED(plan).options[0]

    assert shelf_lines(option) == tuple(((0, at), (1, at)) for at in range(each))
    assert shelf_lines(alone) == tuple(((bay, at),) for bay in (0, 1) for at in range(each))


def test_a_shelf_that_is_fixed_already_stays_and_so_does_its_line() -> None:
    plan = good_plan()
    there = plan.options[0].cases[0].bays[1].shelves[0].part
    fixed = Have(what="fixed", name=there)
    job = plan.job.model_copy(update={"have": (fixed,)})

    lines = page_facts(plan.model_copy(update={"job": job}))["options"][0]["lines"]

    assert [one["fixed"] for one in lines] == [True] + [False] * (len(lines) - 1)
    assert not any(one["fixed"] for one in page_facts(plan)["options"][0]["lines"])
