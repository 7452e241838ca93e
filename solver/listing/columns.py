"""Headers of a table: which column holds what, in which unit, in any order and common wording."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from solver.units import plain

_WORDINGS: dict[str, str] = {
    "name": "name item items description object what thing things piece kind bezeichnung"
    " gegenstand désignation objet nom objeto nombre",
    "width": "w width wide breadth across broad b breite largeur ancho",
    "height": "h height high tall höhe hauteur alto",
    "depth": "d depth deep t tiefe p profondeur fondo",
    "diameter": "dia diam diameter ø durchmesser diamètre diámetro",
    "length": "l length long",
    "size": "size sizes dimension dimensions dims measurements measurement",
    "count": "qty count no no. number pcs pieces quantity how_many amount nos quan"
    " order_quantity order_qty stück anzahl menge quantité cantidad",
    "weight": "weight mass wt gewicht poids peso weight_each weight_of_one lb lbs kg oz",
    "group": "group set",
    "heading": "heading section",
    "keep": "keep must_have",
    "hero": "hero",
    "fragile": "fragile delicate breakable",
    "order": "order no_in_series no._in_series number_in_series",
    "together": "together keep_together one_shelf on_one_shelf",
    "apart": "apart keep_apart apart_from not_beside",
    "where": "where place shelf opening position",
    "may_lie": "lie may_lie can_lie lying may_lie_down lie_flat",
    "rows": "rows rows_deep",
    "stack": "stack stack_of stacked stackable may_stack",
    "gap": "gap",
    "guessed": "guessed guess estimated estimate",
    "picture": "picture photo photograph image",
    "notes": "notes note remark remarks comment comments",
    "line": "line row # ref id nr line_no line_number row_no",
}
HEADERS = {
    word.replace("_", " "): kind for kind, words in _WORDINGS.items() for word in words.split()
}
"""What each header word means."""
SIZE_KINDS = ("width", "height", "depth", "diameter", "length", "size")
_UNIT = (
    r"in\.?|inches|inch|ins|mm|cm|m|ft|millimet(?:re|er)s|centimet(?:re|er)s"
    r"|lbs?|pounds?|kgs?|kilograms|oz|ounces|g|grams"
)
_UNIT_END = re.compile(rf"^(.+?)\s*[(\[/,:]?\s*(?:in\s+)?\b({_UNIT}|\"|'')\s*[)\]]?$")
_ORDER = re.compile(r"([a-z]+)\s*[x×*/]\s*([a-z]+)\s*[x×*/]\s*([a-z]+)")
_MASS_WORDS = frozenset(("lb", "lbs", "kg", "oz"))
_SIDE_OF = {"w": "width", "h": "height", "d": "depth", "l": "length"}


@dataclass(frozen=True)
class Column:
    """One column: what it holds, its unit where the header names one, the order of its sizes."""

    kind: str
    header: str
    unit: str = ""
    order: tuple[str, ...] = ()


def header_of(cells: Sequence[str]) -> tuple[Column, ...] | None:
    """Return the columns where `cells` are a header, else None.

    A header has no cell that starts with a figure, no figure in a column that is
    understood, and names at least one size and one other column.
    """
    if len(cells) < 2 or any(re.match(r"[-~.]?\d", cell.strip()) for cell in cells):
        return None
    columns = tuple(column_of(cell) for cell in cells)
    known = [column for column in columns if column.kind not in ("unknown", "empty")]
    sized = any(column.kind in SIZE_KINDS for column in columns)
    return _with_name(columns) if sized and len(known) >= 2 else None


def column_of(header: str) -> Column:
    """Understand one header cell, such as `Width (in)`, `H mm` or `Size (W x H x D)`."""
    shown = header.strip()
    text = re.sub(r"\s+", " ", plain(shown).lower().replace("_", " ")).strip()
    if not text:
        return Column("empty", shown)
    if any(char.isdigit() for char in text):
        return Column("unknown", shown)
    if text in HEADERS:
        return Column(HEADERS[text], shown, text if text in _MASS_WORDS else "")
    unit = _UNIT_END.match(text)
    body, word = (unit[1].strip(" ([/,:"), unit[2]) if unit else (text, "")
    order = _order(body)
    if order:
        return Column("size", shown, word, order)
    words = re.sub(r"[^a-zäöüßéèñáíø#. ]", " ", body).split()
    for name in (" ".join(words), " ".join(words).rstrip("."), *words[:1]):
        if name in HEADERS:
            return Column(HEADERS[name], shown, word)
    return Column("unknown", shown)


def _order(text: str) -> tuple[str, ...]:
    match = _ORDER.search(text)
    if not match:
        return ()
    sides = tuple(_SIDE_OF.get(word, HEADERS.get(word, "")) for word in match.groups())
    return sides if len(set(sides)) == 3 and set(sides) <= set(_SIDE_OF.values()) else ()


def _with_name(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Take the first column that is not understood for the name where none is called so."""
    if any(column.kind == "name" for column in columns):
        return columns
    for at, column in enumerate(columns):
        if column.kind in ("unknown", "empty"):
            return (*columns[:at], Column("name", column.header), *columns[at + 1 :])
    return columns


def column_problems(columns: Sequence[Column]) -> list[str]:
    """Return what is wrong with a header: columns given twice, or missing."""
    kinds = [column.kind for column in columns]
    problems = [
        f"two columns for the {kind}"
        for kind in dict.fromkeys(kinds)
        if kinds.count(kind) > 1 and kind not in ("unknown", "empty", "notes", "line")
    ]
    if "name" not in kinds:
        problems.append("no column for the name; call it name or item")
    return problems + _missing_sides(columns)


def _missing_sides(columns: Sequence[Column]) -> list[str]:
    kinds = {column.kind for column in columns}
    orders = {side for column in columns for side in column.order}
    if "length" in kinds | orders and "width" in kinds | orders:
        return ["length and width are both columns; call them width, height, depth as it stands"]
    if "size" in kinds:
        return []
    sides = set(kinds)
    if "diameter" in sides:
        sides |= {"width", "depth"}
    if "length" in sides:
        sides.add("width")
    missing = [side for side in ("width", "height", "depth") if side not in sides]
    return [f"no column for the {' and the '.join(missing)}"] if missing else []


def column_notes(columns: Sequence[Column]) -> list[str]:
    """Return how each column of a header is understood."""
    notes = []
    for column in columns:
        if column.kind == "empty":
            continue
        if column.kind == "unknown":
            notes.append(f"column {column.header!r} is not used")
            continue
        as_what = " x ".join(column.order) or column.kind.replace("_", " ")
        unit = f" in {column.unit}" if column.unit else ""
        notes.append(f"{column.header or 'a column without a header'}: {as_what}{unit}")
    return notes
