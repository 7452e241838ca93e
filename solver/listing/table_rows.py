"""Rows of cells: under a header, or guessed where there is none."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from solver.errors import LengthError
from solver.job.inventory import PICTURE_MOST
from solver.listing.columns import SIZE_KINDS, Column
from solver.listing.counts import read_count
from solver.listing.draft import (
    SIDES,
    Draft,
    UnreadableError,
    clean_text,
    whole_count,
)
from solver.listing.free_tokens import Line
from solver.listing.line_readings import Choice, Doubt
from solver.listing.measures import find_measures
from solver.listing.phrases import read_stacked, read_wishes
from solver.listing.plain_lines import has_sizes, read_line, stated_order
from solver.listing.scan import Scan
from solver.listing.sides import Around, report_missing, spread
from solver.listing.sizes import settle
from solver.listing.tokens import tokens_of
from solver.listing.vocabulary import LENGTH_UNITS, MASS_UNITS, NUMBERS
from solver.listing.weights import read_mass, read_weight
from solver.listing.wish_cells import WISHES, yes
from solver.units import Ticks, Unit, parse_length, plain_marks

CELL_MOST = 1000
"""Most characters of a cell [-]."""
SHEET_ERRORS = frozenset(("#ref!", "#n/a", "#value!", "#name?", "#div/0!", "#num!", "#null!"))
_GUESS = re.compile(r"^(?:~|≈|(?:about|approximately|approx\.?|roughly|circa|ca\.?)\s+)|\?$", re.I)
_HAS_UNIT = re.compile(r"[a-z\"'#]", re.IGNORECASE)


def read_cell(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    """Read one cell into `draft`; an empty one leaves the default. Faults become problems."""
    text, cut = clean_text(text)
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
    scan = Scan(text)
    order = stated_order(scan) or column.order
    found = find_measures(tokens_of(scan.rest))
    parts = found.chains[0] if found.chains else tuple(found.labelled)
    for part in parts:
        scan.blank(part.start, part.end)
    left = re.sub(r"[x×*]|\bby\b", "", scan.left(0, len(scan.rest)), flags=re.IGNORECASE)
    if not parts or len(found.chains) > 1 or re.search(r"\w", left):
        msg = f"the size {text!r} is not understood; write 9 x 12 x 5"
        raise UnreadableError(msg)
    if column.unit and not any(part.unit for part in parts):
        parts = tuple(replace(part, unit=LENGTH_UNITS[column.unit]) for part in parts)
    settle(draft, parts, unit, Around(order))


def _count(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    bare = re.sub(
        r"^[x×]\s*|\s*(?:x|×|off|pcs\.?|pc\.?|pieces|nos?\.?|ea\.?)$", "", text, flags=re.I
    )
    draft.count = NUMBERS.get(bare.lower()) or whole_count(bare)


def _weight(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    bare = re.sub(r"\s*(?:each|ea\.?|apiece)$", "", _without_guess(text)[0], flags=re.I)
    if not _HAS_UNIT.search(bare) and column.unit:
        bare = f"{bare} {column.unit}"
    draft.weight = read_mass(bare, unit)


def _guessed(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.guessed = yes(text, "guessed") or draft.guessed


def _gap(draft: Draft, column: Column, text: str, unit: Unit) -> None:
    draft.gap = _length(text, column, unit)


def _picture(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    if len(text) > PICTURE_MOST:
        msg = f"the name of the picture has {len(text)} characters; at most {PICTURE_MOST}"
        raise UnreadableError(msg)
    draft.picture = text


def _notes(draft: Draft, _column: Column, text: str, unit: Unit) -> None:
    _read_words(draft, [text], unit)


_READERS: Mapping[str, Callable[[Draft, Column, str, Unit], None]] = {
    "name": _name,
    **dict.fromkeys(("width", "height", "depth", "diameter", "length"), _size),
    "size": _sizes,
    "count": _count,
    "weight": _weight,
    **WISHES,
    "gap": _gap,
    "guessed": _guessed,
    "picture": _picture,
    "notes": _notes,
}


_ASK = "put a header line above, such as name, width, height, depth, count, weight"


def read_row(cells: Sequence[str], columns: Sequence[Column], unit: Unit) -> Draft:
    """Read a row under a header."""
    draft = Draft()
    extra = [cell for cell in cells[len(columns) :] if cell.strip()]
    if extra:
        draft.name = extra[0]
        draft.problems.append(
            f"{len(cells)} cells under {len(columns)} headers; "
            "put quotes round a cell that holds the separator"
        )
        return draft
    for column, cell in zip(columns, cells, strict=False):
        read_cell(draft, column, cell, unit)
    if draft.problems:
        _report_empty(draft, cells, columns)
    elif not any(column.kind == "size" for column in columns):
        _finish_sizes(draft, unit)
    elif not draft.sizes:
        draft.problems.append("the size is missing")
    return draft


def _finish_sizes(draft: Draft, unit: Unit) -> None:
    try:
        spread(draft)
        report_missing(draft, unit)
    except UnreadableError as error:
        draft.problems.append(str(error))


def _report_empty(draft: Draft, cells: Sequence[str], columns: Sequence[Column]) -> None:
    padded = [*cells, *[""] * (len(columns) - len(cells))]
    draft.problems += [
        f"the {column.kind} is missing"
        for column, cell in zip(columns, padded, strict=False)
        if column.kind in SIZE_KINDS and not cell.strip()
    ]


def guess_row(cells: Sequence[str], unit: Unit) -> Draft:
    """Read a row without a header: a name, three sizes, and where given a count and a weight."""
    cells = [cell.strip() for cell in cells if cell.strip()]
    if any(has_sizes(cell) for cell in cells):
        return _as_line(cells, unit)
    draft, kinds = Draft(), [_kind_of(cell) for cell in cells]
    try:
        columns = _columns(kinds, cells, draft, unit)
    except UnreadableError as error:
        draft.name = next((c for c, k in zip(cells, kinds, strict=True) if k == "text"), "")
        draft.problems.append(str(error))
        return draft
    for column, cell in zip(columns, cells, strict=True):
        read_cell(draft, column, cell, unit)
    _read_words(draft, [c for c, k in zip(cells, columns, strict=True) if k.kind == "words"], unit)
    if not draft.problems:
        _finish_sizes(draft, unit)
        draft.notes.insert(0, "columns taken for " + ", ".join(column.kind for column in columns))
    return draft


def _kind_of(cell: str) -> str:
    """Whether a cell is a figure, a weight or text."""
    tokens = tokens_of(cell)
    numbers = [token for token in tokens if token.kind == "number"]
    if numbers and numbers[0] is tokens[0] and tokens[-1].text in MASS_UNITS and len(tokens) < 5:
        return "weight"
    found = find_measures(tokens)
    values = [*found.bare, *found.labelled]
    one = values[0] if len(values) == 1 and not found.chains else None
    whole = one is not None and not cell[: one.start].strip() and not cell[one.end :].strip()
    return "figure" if one and whole and one.label is None else "text"


def _columns(kinds: Sequence[str], cells: Sequence[str], draft: Draft, unit: Unit) -> list[Column]:
    """Give each cell of a row without a header its meaning, or ask for a header."""
    figures = [at for at, kind in enumerate(kinds) if kind == "figure"]
    texts = [at for at, kind in enumerate(kinds) if kind == "text"]
    if not texts:
        msg = f"what it is called is missing; {_ASK}"
        raise UnreadableError(msg)
    sizes, count = _sizes_and_count(figures, texts[0], cells, draft, unit)
    meaning = dict(zip(sizes, ("width", "height", "depth"), strict=False))
    if count is not None:
        meaning[count] = "count"
    meaning[texts[0]] = "name"
    return [
        Column(meaning.get(at, "words" if kind == "text" else kind), "")
        for at, kind in enumerate(kinds)
    ]


def _sizes_and_count(
    figures: list[int], name: int, cells: Sequence[str], draft: Draft, unit: Unit
) -> tuple[list[int], int | None]:
    """Return which figures are the sizes, and which is the count."""
    if len(figures) < 3:
        number = "one size" if len(figures) == 1 else f"{len(figures) or 'no'} sizes"
        msg = f"{number} found; width, height and depth are needed"
        raise UnreadableError(msg)
    if len(figures) == 3:
        return figures, None
    leads = figures[0] < name < figures[1]
    sizes, count = (figures[1:], figures[0]) if leads else (figures[:3], figures[3])
    if len(figures) > 4 or not re.fullmatch(r"\d+(?:\.0+)?", cells[count]):
        msg = f"{len(figures)} figures, and what each of them is cannot be told; {_ASK}"
        raise UnreadableError(msg)
    if not leads and cells[figures[0]].isdigit():
        _ask_which_counts(figures, cells, draft, unit)
    return sizes, count


def _ask_which_counts(figures: list[int], cells: Sequence[str], draft: Draft, unit: Unit) -> None:
    """Four figures, the first and the last of them whole: either may be the count."""
    first, *rest = (cells[at] for at in figures)
    sizes = dict(zip(SIDES, (parse_length(cell, unit) for cell in rest), strict=True))
    choices = (
        Choice(f"{rest[-1]}, the last"),
        Choice(f"{first}, the first", {"count": whole_count(first), **sizes}),
    )
    draft.doubts.append(Doubt("which of the four figures is the count?", choices))


def _read_words(draft: Draft, words: Sequence[str], unit: Unit) -> None:
    """Read wishes such as `may lie` from the other cells; what is left is a remark."""
    scan = Scan(", " + ", ".join(words))  # a wish never begins a line: there it is the name
    line = Line(scan, tokens_of(scan.rest), 0)
    try:
        read_stacked(scan, draft)
        read_wishes(scan, draft, 0, unit)
        read_weight(line, draft, unit)
        read_count(line, draft)
    except (UnreadableError, LengthError) as error:
        draft.problems.append(str(error))
    left = scan.left(0, len(scan.rest))
    if left:
        draft.notes.append(f"remark: {left}")


def _as_line(cells: Sequence[str], unit: Unit) -> Draft:
    """Read cells, one of which holds all sizes, as one plain line."""
    marked = [f"qty {cell}" if re.fullmatch(r"\d+", cell) else cell for cell in cells]
    draft = read_line(", ".join(marked), unit)
    if draft is None:
        draft = Draft()
        draft.problems.append(f"the sizes are not understood; {_ASK}")
    return draft
