"""Cells of a table to parts of a draft, each by the kind of its column."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from solver.errors import LengthError
from solver.inventory import PICTURE_MOST
from solver.listing.columns import Column
from solver.listing.draft import Draft, UnreadableError, clean, whole_count
from solver.listing.measures import find_sizes
from solver.listing.phrases import COUNT_WORDS, mass, place
from solver.listing.sizes import settle
from solver.units import Ticks, Unit, parse_length, plain_marks

CELL_MOST = 1000
"""Most characters of a cell [-]."""
SHEET_ERRORS = frozenset(("#ref!", "#n/a", "#value!", "#name?", "#div/0!", "#num!", "#null!"))
_GUESS = re.compile(r"^(?:~|≈|(?:about|approximately|approx\.?|roughly|circa|ca\.?)\s+)|\?$", re.I)
_HAS_UNIT = re.compile(r"[a-z\"'#]", re.IGNORECASE)
_YES = frozenset(("yes", "y", "true", "1", "x", "✓", "✔", "ok", "may", "can"))
_NO = frozenset(("no", "n", "false", "0", "-", "–", "—"))


def read_cell(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    """Read one cell into `draft`; an empty one leaves the default. Faults become problems."""
    text, cut = clean(text)
    if cut and column.kind not in ("unknown", "empty"):
        draft.notes.append("control characters removed")
    if not text or column.kind not in _READERS:
        return
    try:
        if text.lower() in SHEET_ERRORS:
            msg = f"the {column.kind} cell holds the spreadsheet error {text}"
            raise UnreadableError(msg)
        if len(text) > CELL_MOST:
            msg = f"the {column.kind} cell has {len(text)} characters; {CELL_MOST} are allowed"
            raise UnreadableError(msg)
        _READERS[column.kind](draft, column, text, unit)
    except (UnreadableError, LengthError) as error:
        draft.problems.append(str(error))


def _name(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.name = text.lstrip("~≈ ")
    draft.guessed = draft.guessed or draft.name != text


def _size(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    bare, guessed = _without_guess(text)
    draft.guessed = draft.guessed or guessed
    try:
        draft.sizes[column.kind] = _length(bare, column, unit)
    except LengthError as error:
        msg = f"{column.kind} {error.message}"
        raise UnreadableError(msg) from None


def _length(text: str, column: Column, unit: Unit) -> Ticks:
    """Read a length; the header's unit holds where the cell has none."""
    bare = column.unit and not _HAS_UNIT.search(plain_marks(text))
    return parse_length(f"{text} {column.unit}" if bare else text, unit)


def _without_guess(text: str) -> tuple[str, bool]:
    bare = _GUESS.sub("", text).strip()
    return bare, bare != text


def _sizes(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    """Read a cell that holds all three sizes."""
    plain = plain_marks(text)
    found = find_sizes(plain)
    left = plain[: found[0].start] + plain[found[0].end :] if len(found) == 1 else plain
    if len(found) != 1 or re.search(r"\w", left):
        msg = f"the size {text!r} is not understood; write 9 x 12 x 5"
        raise UnreadableError(msg)
    parts = found[0].parts
    if column.unit and not any(part.unit for part in parts):
        again = find_sizes(f"{plain[found[0].start : found[0].end]} {column.unit}")
        parts = again[0].parts if again else parts
    settle(draft, parts, unit, order=column.order or None)


def _count(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    bare = re.sub(
        r"^[x×]\s*|\s*(?:x|×|off|pcs\.?|pc\.?|pieces|nos?\.?|ea\.?)$", "", text, flags=re.I
    )
    draft.count = COUNT_WORDS.get(bare.lower()) or whole_count(bare)


def _weight(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    bare = re.sub(r"\s*(?:each|ea\.?|apiece)$", "", _without_guess(text)[0], flags=re.I)
    if not _HAS_UNIT.search(bare) and column.unit:
        bare = f"{bare} {column.unit}"
    draft.weight = mass(bare, unit)


def _group(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.group = text


def _where(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.where = place(text)


def _may_lie(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.may_lie = _yes(text, "may lie")


def _guessed(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.guessed = _yes(text, "guessed") or draft.guessed


def _yes(text: str, what: str) -> bool:
    word = text.lower()
    if word in _YES or word == what:
        return True
    if word in _NO:
        return False
    msg = f"{what} is {text!r}; write yes or no"
    raise UnreadableError(msg)


def _rows(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.rows = whole_count(text, "number of rows", 6)


def _stack(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    if text.lower() in _NO:
        return
    draft.stack = whole_count(text, "stack", 50)


def _gap(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    draft.gap = _length(text, column, unit)


def _picture(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    if len(text) > PICTURE_MOST:
        msg = f"the name of the picture has {len(text)} characters; at most {PICTURE_MOST}"
        raise UnreadableError(msg)
    draft.picture = text


def _notes(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.notes.append(f"remark: {text}")


_READERS: Mapping[str, Callable[[Draft, Column, str, Unit], None]] = {
    "name": _name,
    **dict.fromkeys(("width", "height", "depth", "diameter", "length"), _size),
    "size": _sizes,
    "count": _count,
    "weight": _weight,
    "group": _group,
    "where": _where,
    "may_lie": _may_lie,
    "rows": _rows,
    "stack": _stack,
    "gap": _gap,
    "guessed": _guessed,
    "picture": _picture,
    "notes": _notes,
}
