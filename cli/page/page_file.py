"""From a plan to the page: one HTML file that needs nothing outside itself.

The page may load nothing: its content security policy allows the one style sheet and the
one program in it, by their hashes, and pictures written into it. Names are data: jinja2
escapes them in the HTML, and in the JSON every sign that could end its place is escaped.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from cli.drawings.shapes import Picture
from cli.page.view import page_view
from solver.job.terms import PriceList
from solver.plan.plan import Plan

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
            facts=island(view.facts),
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


def island(facts: dict[str, Any]) -> str:
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
