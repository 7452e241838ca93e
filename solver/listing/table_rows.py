"""Rows of cells: under a header, or guessed where there is none."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from solver.errors import LengthError
from solver.job.inventory import PICTURE_MOST
from solver.listing.columns import SIZE_KINDS, Column
from solver.listing.draft import (
    Draft,
    UnreadableError,
    clean_text,
    whole_count,
)
from solver.listing.phrases import (
    COUNT_WORDS,
    MASS_UNIT,
    read_mass,
    read_wishes,
)
from solver.listing.plain_lines import read_line
from solver.listing.scan import Scan
from solver.listing.size_words import (
    LENGTH_UNIT,
    NUMBER,
    find_sizes,
    report_missing,
    settle_sizes,
    spread_diameter,
    use_length,
)
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
    plain = plain_marks(text)
    runs = find_sizes(plain)
    left = plain[: runs[0].start] + plain[runs[0].end :] if len(runs) == 1 else plain
    if len(runs) != 1 or re.search(r"\w", left):
        msg = f"the size {text!r} is not understood; write 9 x 12 x 5"
        raise UnreadableError(msg)
    parts = runs[0].parts
    if column.unit and not any(part.unit for part in parts):
        again = find_sizes(f"{plain[runs[0].start : runs[0].end]} {column.unit}")
        parts = again[0].parts if again else parts
    settle_sizes(draft, parts, unit, order=column.order or None)


def _count(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    bare = re.sub(
        r"^[x×]\s*|\s*(?:x|×|off|pcs\.?|pc\.?|pieces|nos?\.?|ea\.?)$", "", text, flags=re.I
    )
    draft.count = COUNT_WORDS.get(bare.lower()) or whole_count(bare)


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


def _notes(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.notes.append(f"remark: {text}")


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


_FIGURE = re.compile(
    rf"(?:~|≈|about\s|approx\.?\s)?-?(?:\d+\s?(?:'|ft)\s?)?{NUMBER}\s?(?:{LENGTH_UNIT})?\s?\??",
    re.IGNORECASE,
)
_MASS = re.compile(rf"~?{NUMBER}\s?{MASS_UNIT}(?:\s{NUMBER}\s?{MASS_UNIT})?", re.IGNORECASE)
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
        spread_diameter(draft)
        use_length(draft)
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
    if any(find_sizes(plain_marks(cell)) for cell in cells):
        return _as_line(cells, unit)
    draft, kinds = Draft(), [_kind_of(cell) for cell in cells]
    try:
        columns = _columns(kinds, cells)
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
    plain = plain_marks(cell)
    if _FIGURE.fullmatch(plain):
        return "figure"
    return "weight" if _MASS.fullmatch(plain) else "text"


def _columns(kinds: Sequence[str], cells: Sequence[str]) -> list[Column]:
    """Give each cell of a row without a header its meaning, or ask for a header."""
    figures = [at for at, kind in enumerate(kinds) if kind == "figure"]
    texts = [at for at, kind in enumerate(kinds) if kind == "text"]
    if not texts:
        msg = f"what it is called is missing; {_ASK}"
        raise UnreadableError(msg)
    sizes, count = _sizes_and_count(figures, texts[0], cells)
    meaning = dict(zip(sizes, ("width", "height", "depth"), strict=False))
    if count is not None:
        meaning[count] = "count"
    meaning[texts[0]] = "name"
    return [
        Column(meaning.get(at, "words" if kind == "text" else kind), "")
        for at, kind in enumerate(kinds)
    ]


def _sizes_and_count(
    figures: list[int], name: int, cells: Sequence[str]
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
    return sizes, count


def _read_words(draft: Draft, words: Sequence[str], unit: Unit) -> None:
    """Read wishes such as `may lie` from the other cells; what is left is a remark."""
    scan = Scan(", ".join(words))
    try:
        read_wishes(scan, draft, 0, unit)
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
