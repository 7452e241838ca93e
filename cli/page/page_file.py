"""From a plan to the page: one HTML file that needs nothing outside itself.

The page may load nothing: its content security policy allows the one style sheet and the
one program in it, by their hashes, and pictures written into it. Names are data: jinja2
escapes them in the HTML, and in the JSON every sign that could end its place is escaped.
`page_view` makes everything that the templates show.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from cli.drawings.keys import key_marks
from cli.drawings.shapes import Picture
from cli.page.elevation_svg import PAINTS, Elevation, Paint, ShownPicture, elevation, paints, shown
from cli.page.facts import Facts, page_facts
from cli.page.option_differences import Prices, prices, sentences
from cli.page.option_rows import Row, rows
from cli.screen.caution_lines import cautions
from cli.screen.marking_tables import lines_apart_notes
from solver.job.price_terms import PriceList
from solver.plan.plan import Option, Plan
from solver.strength.cautions import cautions_of
from solver.units import TICKS_PER_MM, Ticks, with_unit

STYLES = ("page.css", "drawing.css", "print.css")
PROGRAMS = ("units", "rhythm", "model", "words", "picture", "handles", "view", "page")
"""Files of js/, in the order in which they are put together."""


def page_html(
    plan: Plan, known: PriceList | None = None, pictures: Mapping[str, Picture] | None = None
) -> str:
    """Return the client page of a plan: the same bytes for the same plan, timing aside.

    `known` is a price list for what the job gives no price of, `pictures` are those of its
    things by name.
    """
    view = page_view(plan, known, pictures or {})
    style = _read(*STYLES) + view.style
    program = f'(() => {{\n"use strict";\n{_read(*(f"js/{name}.js" for name in PROGRAMS))}}})();\n'
    return (
        _environment()
        .get_template("page.html.j2")
        .render(
            view=view,
            style=style,
            program=program,
            policy=policy(style, program),
            facts=json_island(view.facts),
        )
    )


def policy(style: str, program: str) -> str:
    """The content security policy: these two by their hashes, pictures as data, nothing else."""
    return (
        f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(program)}; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"


def json_island(facts: dict[str, Any]) -> str:
    """JSON that may stand in a script element: no sign in it ends the element or a line."""
    text = json.dumps(facts, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text


def _read(*names: str) -> str:
    return "".join((files("cli.page") / name).read_text("utf-8") for name in names)


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("cli.page", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


@dataclass(frozen=True)
class Kind:
    """One kind of thing in the key."""

    letter: str
    name: str
    count: int
    size: str
    paint: int
    """Which of the paints it is drawn with."""
    expected: bool
    pictured: bool


@dataclass(frozen=True)
class OptionView:
    """One option: its card, and its picture where it has a layout."""

    number: int
    name: str
    tags: tuple[str, ...]
    price: str
    price_of: str
    """What is in the price."""
    lines: tuple[str, ...]
    changes: tuple[str, ...]
    works: bool
    picture: Elevation | None
    thumb: str
    """The part of the picture's plane that its small view shows: the same of all options."""


@dataclass(frozen=True)
class PageView:
    """The whole page."""

    title: str
    unit: str
    recommendation: str
    options: tuple[OptionView, ...]
    names: tuple[str, ...]
    """Of the options in the table."""
    rows: tuple[Row, ...]
    kinds: tuple[Kind, ...]
    paints: tuple[Paint, ...]
    pictures: tuple[ShownPicture, ...]
    notes: tuple[str, ...]
    not_shown: int
    eye: str
    version: str
    facts: Facts
    style: str
    """Rules for the sizes of the pictures."""


def page_view(plan: Plan, known: PriceList | None, pictures: Mapping[str, Picture]) -> PageView:
    """Return all that the page shows of a plan.

    A price list prices what has no price in the plan; pictures are by name of the kind.
    """
    drawn = tuple(option for option in plan.options if option.cases)
    priced = prices(plan, drawn, known)
    numbers = {option.name: at for at, option in enumerate(drawn)}
    drawings = [elevation(plan.job, option, f"p{at}") for at, option in enumerate(drawn)]
    size = _largest(drawings)
    options = tuple(
        _option(plan, one, at, drawings[at] if at >= 0 else None, size, priced)
        for one in plan.options
        for at in [numbers.get(one.name, -1)]
    )
    facts = page_facts(plan)
    for said, option in zip(facts["options"], drawn, strict=True):
        said["left"] = [f"{left.count} × {left.item}" for left in option.left_out]
    for option, picture in zip(facts["options"], drawings, strict=True):
        option["places"] = list(picture.places)
        option["size"], option["ground"] = picture.size, picture.ground
    return PageView(
        title=plan.job.head.title,
        unit=plan.unit,
        recommendation=plan.recommendation or "",
        options=options,
        names=tuple(option.name for option in drawn),
        rows=rows(plan, drawn, priced),
        kinds=_kinds(plan, pictures),
        paints=paints(len(plan.job.items)),
        pictures=shown(plan.job, pictures),
        notes=_notes(plan, drawn),
        not_shown=plan.not_shown,
        eye=with_unit(plan.job.look.eye_level, plan.unit),
        version=plan.version,
        facts=facts,
        style="".join(_style(at, picture, size) for at, picture in enumerate(drawings)),
    )


def _option(
    plan: Plan,
    option: Option,
    number: int,
    picture: Elevation | None,
    size: tuple[Ticks, Ticks],
    priced: Prices,
) -> OptionView:
    return OptionView(
        number=number,
        name=option.name,
        tags=tuple(t for t in option.tags if t != "cheapest" or priced.is_least(option)),
        price=priced.text(option),
        price_of=priced.what if priced.is_known(option) else "",
        lines=tuple(sentences(plan, option, priced)),
        changes=tuple(change.text for change in option.changes),
        works=option.fits_all,
        picture=picture,
        thumb="" if picture is None else picture.shown(size),
    )


def _largest(pictures: list[Elevation]) -> tuple[Ticks, Ticks]:
    """Width and height that hold every picture [tick]."""
    sizes = [picture.size for picture in pictures] or [(0, 0)]
    return max(width for width, _ in sizes), max(height for _, height in sizes)


def _kinds(plan: Plan, pictures: Mapping[str, Picture]) -> tuple[Kind, ...]:
    keys = key_marks(plan.job)
    unit = plan.unit
    return tuple(
        Kind(
            letter=keys[item.name].letter,
            name=item.name,
            count=item.count,
            size=" × ".join(
                with_unit(side, unit).removesuffix(f" {unit}")
                for side in (item.width, item.height, item.depth)
            ),
            paint=at % PAINTS,
            expected=item.expected,
            pictured=item.name in pictures,
        )
        for at, item in enumerate(plan.job.items)
    )


def _notes(plan: Plan, drawn: tuple[Option, ...]) -> tuple[str, ...]:
    """What is to be known before it is built: of the first option, each once."""
    if not drawn:
        return ()
    notes = [*cautions(plan.job, drawn[0]), *(one.text for one in cautions_of(plan.job, drawn[0]))]
    return tuple(dict.fromkeys([*lines_apart_notes(drawn[0]), *drawn[0].notes, *notes]))


def _style(at: int, picture: Elevation, size: tuple[Ticks, Ticks]) -> str:
    """Shape of a picture, its share of the largest width and height, and its [mm] per dot."""
    width, height = picture.size
    return (
        f".draw-{at}{{--shape:{width / height:.5f};--share:{width / size[0]:.5f};"
        f"--tall:{height / size[1]:.5f};--per-px:{height / TICKS_PER_MM / 640:.4f}}}\n"
    )
