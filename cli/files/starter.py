"""The starter job that `casewright new` writes: commented, complete, and valid as it is.

On a terminal a few questions are asked for it, each with its default and again until it is read.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cli.files.job_reference import reference
from cli.files.quick_job import parse_shelves
from cli.files.reading import ENDINGS, read_inventory
from solver.errors import InputError
from solver.job.assumed import default_sheets
from solver.job.defaults import table_defaults
from solver.units import TICKS_PER_MM, Unit, parse_length


@dataclass(frozen=True)
class Answers:
    """The few measurements that matter, as texts in the job's unit.

    Attributes
    ----------
    unit
        "in" or "mm" [-].
    kind
        hung, standing, built-in or wall.
    width, height, depth
        Outside sizes of the case; an empty depth is left to the deepest thing [text].
    shelves
        Shelf counts as a job file has them: 4, [4, 5] or a table with least and most.
    items
        A list of things beside the job file; empty: the things stand in the job file.
    """

    unit: Unit
    kind: str
    width: str
    height: str
    depth: str
    shelves: str
    items: str = ""


def standard(unit: Unit) -> Answers:
    """Return the answers where nothing is asked: a standing case of a usual size."""
    if unit == "in":
        return Answers("in", "standing", "30", "60", "9", "[4, 5]")
    return Answers("mm", "standing", "760", "1520", "230", "[4, 5]")


def starter(answers: Answers) -> str:
    """Return the text of the starter job."""
    parts = [
        _job(answers),
        _case(answers),
        _look(answers.unit),
        *([] if answers.items else [_items(answers.unit)]),
        _sheets(answers.unit),
        _shop(answers.unit),
        reference(answers.unit),
    ]
    return "\n".join(parts)


def _text(value: object) -> str:
    """A text in quotes; JSON and TOML agree on how."""
    return json.dumps(str(value), ensure_ascii=False)


def _job(answers: Answers) -> str:
    beside = (
        f"items = {_text(answers.items)}"
        if answers.items
        else '# items = "inventory.csv"   # a list of things beside this file (.csv .xlsx .txt)'
    )
    sample = "9-1/2" if answers.unit == "in" else "241.5"
    return f"""\
# A job for Casewright. Lines with # are remarks. Everything but the things to display and
# one case's width and height has a default: casewright defaults lists them all.
# casewright check reads this file and says how it is understood; casewright plan solves it.
# Fractions and units stand in quotes: "{sample}", "18 mm", "6' 5-3/4\\"".

[job]
title = "Display case"
unit = "{answers.unit}"   # of every number without a unit: "in" or "mm"
currency = "{table_defaults("job", answers.unit)["currency"]}"
{beside}
"""


def _case(answers: Answers) -> str:
    depth = (
        f"depth = {_text(answers.depth)}"
        if answers.depth
        else "# depth = left to the deepest thing"
    )
    least, most = ("8", "10") if answers.unit == "in" else ("200", "260")
    toe = "3-1/2" if answers.unit == "in" else "90"
    return f"""\
[[case]]   # repeat this table for each further case, with a name of its own
name = "case"
kind = "{answers.kind}"   # hung (in a doorway), standing, built-in (alcove) or wall
sizes = "outside"   # or "inside": what width, height and depth measure
width = {_text(answers.width)}   # take the smallest of three: top, middle, bottom
height = {_text(answers.height)}
{depth}   # front of shelf to back of back; or a range: {{ least = {least}, most = {most} }}
# Shelves are the boards between the lowest board and the top: 4 shelves make 5 openings.
shelves = {answers.shelves}   # one count, several such as [4, 5], or {{ least = 4, most = 6 }}
# uprights = 1   # boards that divide the case into bays of equal width
# raised_bottom = "{toe}"   # height of the toe (plinth)
# Trim stands under [case.trim], light under [case.light], glass under [case.glass], after the
# case they are of: casewright defaults lists their keys.
"""


def _look(unit: Unit) -> str:
    look = table_defaults("look", unit)
    return f"""\
[look]
headroom = {_text(look["headroom"])}   # least room above each thing
gap = {_text(look["gap"])}   # least room between two things
rhythm = "{look["rhythm"]}"   # of the openings: steady, even, graduated, symmetric or to-fit
"""


def _items(unit: Unit) -> str:
    if unit == "in":
        clock = 'width = "9-1/2"\nheight = "12-1/4"\ndepth = "5-1/2"', "6 lb"
        jug, tin = (
            "width = 6\nheight = 9\ndepth = 6",
            'width = 5\nheight = "2-1/2"\ndepth = "4-1/2"',
        )
    else:
        clock = "width = 240\nheight = 310\ndepth = 140", "2.7 kg"
        jug, tin = "width = 150\nheight = 230\ndepth = 150", "width = 125\nheight = 65\ndepth = 115"
    return f"""\
# The things to display: sizes as they stand, width along the shelf. Put your own here.
[[item]]
name = "mantel clock"
{clock[0]}
count = 3
weight = "{clock[1]}"   # of one; left out, a standard load is assumed
where = "eye"   # a wish: low, eye, top, or the number of an opening from 0 (lowest)
keep = "must"   # where not everything fits: must, should or optional

[[item]]
name = "enamel jug"
{jug}
count = 4
group = "kitchen"   # things of a group stand together

[[item]]
name = "tea tin"
{tin}
count = 6
stack = 3   # so many on each other
group = "kitchen"
guessed = true   # not measured yet: an allowance is added
"""


def _sheets(unit: Unit) -> str:
    tables = [
        f"""\
[[sheet]]
name = {_text(sheet["name"])}
material = {_text(sheet["material"])}
length = {sheet["length"]}   # along the grain
width = {sheet["width"]}
thickness = {_text(sheet["thickness"])}   # as measured
# price = 0.00   # of one sheet, in the job's currency
"""
        for sheet in default_sheets(unit)
    ]
    return (
        "# The sheets you buy. Boards come from the first, the back from the thin one.\n"
        + "\n".join(tables)
    )


def _shop(unit: Unit) -> str:
    shop = table_defaults("shop", unit)
    return f"""\
[shop]
kerf = {_text(shop["kerf"])}   # width of the saw cut
edge_trim = {_text(shop["edge_trim"])}   # cut off each factory edge
"""


Ask = Callable[[str, str], str]
"""Shows a question and its default, and returns what was typed, or the default."""
Tell = Callable[[str], None]
KINDS = ("hung", "standing", "built-in", "wall")
SMALLEST = 100 * TICKS_PER_MM
"""A case smaller than this each way is taken for a typing error [tick]."""


def ask_for(unit: Unit, folder: Path, ask: Ask, tell: Tell) -> Answers:
    """Ask for the few measurements that matter; `folder` is where the job file will stand."""
    usual = standard(unit)

    def again(question: str, default: str, check: Callable[[str], str]) -> str:
        while True:
            try:
                return check(ask(question, default).strip())
            except InputError as error:
                tell(str(error))

    return Answers(
        unit=unit,
        kind=again(f"Kind of case ({', '.join(KINDS)})", usual.kind, _kind),
        width=again(f"Outside width ({unit})", usual.width, lambda text: _size(text, unit)),
        height=again(f"Outside height ({unit})", usual.height, lambda text: _size(text, unit)),
        depth=again(
            f"Outside depth ({unit}), or open", usual.depth, lambda text: _depth(text, unit)
        ),
        shelves=again("Shelves between bottom and top: 4, or 4,5, or 4-6", "4,5", _shelves),
        items=again(
            "List of things beside the job (.csv .xlsx .txt), or later",
            "later",
            lambda text: _list(text, folder, unit),
        ),
    )


def _kind(text: str) -> str:
    if text.lower() not in KINDS:
        msg = f"{text!r} is no kind of case; choose {', '.join(KINDS)}"
        raise InputError(msg)
    return text.lower()


def _size(text: str, unit: Unit) -> str:
    if parse_length(text, unit) < SMALLEST:
        msg = f"{text!r} is smaller than 100 mm; check the unit"
        raise InputError(msg)
    return text


def _depth(text: str, unit: Unit) -> str:
    if text.lower() in ("", "open", "none"):
        return ""
    if parse_length(text, unit) < SMALLEST // 2:
        msg = f"{text!r} is less than 50 mm; check the unit, or say open"
        raise InputError(msg)
    return text


def _shelves(text: str) -> str:
    counts = parse_shelves(text)
    if isinstance(counts, dict):
        return f"{{ least = {counts['least']}, most = {counts['most']} }}"
    return json.dumps(counts)


def _list(text: str, folder: Path, unit: Unit) -> str:
    """Read the list at once, so that its faults show while the client is still there."""
    if text.lower() in ("", "later"):
        return ""
    if Path(text).is_absolute() or Path(text).suffix.lower() not in ENDINGS:
        msg = (
            f"{text!r}: give the name of a {', '.join(ENDINGS)} file in the job's folder, or later"
        )
        raise InputError(msg)
    read_inventory(str(folder / text), unit).raise_if_unreadable()
    return text
