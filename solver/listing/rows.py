"""Rows of cells: under a header, or guessed where there is none."""

from __future__ import annotations

import re
from collections.abc import Sequence

from solver.errors import LengthError
from solver.listing.cells import read_cell
from solver.listing.columns import SIZE_KINDS, Column
from solver.listing.draft import Draft, UnreadableError
from solver.listing.lines import read_line
from solver.listing.measures import LENGTH_UNIT, NUMBER, find_sizes
from solver.listing.phrases import MASS_UNIT, read_wishes
from solver.listing.scan import Scan
from solver.listing.sizes import report_missing, spread_diameter, use_length
from solver.units import Unit, plain_marks

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
        found = "one size" if len(figures) == 1 else f"{len(figures) or 'no'} sizes"
        msg = f"{found} found; width, height and depth are needed"
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
