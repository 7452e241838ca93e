"""Text to lines and rows of cells, and one plain line of words to what it says.

Cells are parted by tabs, semicolons, commas or bars, with or without quotes. A plain line is such
as `3 x mantel clock 9 1/2 x 12 1/4 x 5 1/2, 6 lb`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from solver.errors import CasewrightError
from solver.listing.counts import read_count
from solver.listing.draft import Draft, UnreadableError
from solver.listing.free_tokens import Line
from solver.listing.measures import find_measures
from solver.listing.names import read_name
from solver.listing.phrases import read_remark, read_stacked, read_wishes
from solver.listing.scan import Scan
from solver.listing.sides import Around
from solver.listing.sizes import read_sizes
from solver.listing.tokens import tokens_of
from solver.listing.vocabulary import LENGTH_UNITS
from solver.listing.weights import read_weight, share_weight
from solver.units import Unit

SEPARATORS = ("\t", ";", ",", "|")
_JOINED_MOST = 20
"""Most lines of one quoted cell; above it the quote is taken for a sign of its own [-]."""
_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True)
class Record:
    """One line or row of the list; `cells` is None for a plain line."""

    number: int
    text: str
    cells: tuple[str, ...] | None = None


def split_lines(text: str) -> list[str]:
    """Return the lines of a text; an end of line after the last one makes no further line."""
    lines = _LINE_END.split(text.removeprefix("\ufeff"))
    return lines[:-1] if lines[-1] == "" else lines


def split_cells(line: str, separator: str) -> tuple[list[str], bool]:
    """Return the cells of a line, and whether a quoted one is still open at its end.

    A quote opens a cell only as its first sign, so that inch marks stay what they are.
    """
    if '"' not in line:
        return line.split(separator), False
    cells: list[str] = []
    at = 0
    while True:
        start = at
        while at < len(line) and line[at] == " ":
            at += 1
        if line.startswith('"', at):
            cell, at, is_open = _quoted(line, at + 1, separator)
        else:
            end = line.find(separator, start)
            cell, at, is_open = line[start : end if end >= 0 else None], end, False
        cells.append(cell)
        if is_open or at < 0:
            return cells, is_open
        at += 1


def _quoted(line: str, at: int, separator: str) -> tuple[str, int, bool]:
    """Return a quoted cell, the place of the separator after it (-1: none), and if it is open."""
    pieces: list[str] = []
    while True:
        end = line.find('"', at)
        if end < 0:
            return "".join([*pieces, line[at:]]), -1, True
        pieces.append(line[at:end])
        if not line.startswith('""', end):
            break
        pieces.append('"')
        at = end + 2
    after = line.find(separator, end + 1)
    pieces.append(line[end + 1 : after if after >= 0 else None].rstrip())
    return "".join(pieces), after, False


def table_records(lines: Sequence[str], first: int, separator: str) -> Iterator[Record]:
    """Yield the rows of `lines` from index `first` on; a quoted cell may run over lines."""
    at = first
    while at < len(lines):
        text, used = lines[at], 1
        cells, is_open = split_cells(text, separator)
        while is_open and used < _JOINED_MOST and at + used < len(lines):
            text = f"{text}\n{lines[at + used]}"
            cells, is_open = split_cells(text, separator)
            used += 1
        if is_open:
            text, used = lines[at], 1
            cells = text.split(separator)
        yield Record(at + 1, text, tuple(cells))
        at += used


def loose_cells(line: str) -> list[str] | None:
    """Split a line without a header into cells by the first separator that gives four or more."""
    for separator in SEPARATORS:
        cells, is_open = split_cells(line, separator)
        if is_open:
            cells = line.split(separator)
        if len(cells) >= 4:
            return cells
    cells = re.split(r" {2,}", line.strip())
    return cells if len(cells) >= 4 else None


LINE_MOST = 1000
"""Most characters of a plain line [-]."""
_BULLET = re.compile(
    r"^\s?(?:(?:>\s?)+|\[[ x✓]?\]\s|[•◦▪·‣*☐☑✓✔→]\s?|[-+](?=\s))\s?", re.IGNORECASE
)
_NUMBERING = re.compile(
    r"^\s?(?:\([a-z]\)\s|\d{1,3}\.?\)\s?|#\d{1,3}[.:)]?\s|[a-z][.)]\s|(?:[ivx]{1,4})[.)]\s)"
    r"(?!\s?[x×*]\s?\d)",
    re.IGNORECASE,
)
_GUESSED_ALL = re.compile(r"^[\s\0]*[~≈]\s?(?=[^\W\d])")
"""A mark of guessing before the name holds for all sizes."""
_SIDE = r"(w|h|d|b|t|l|p|width|height|depth)"
_ORDER = re.compile(
    rf"\(?(?<![a-zäöü]){_SIDE}\s?[x×*/]\s?{_SIDE}\s?[x×*/]\s?{_SIDE}(?![a-zäöü])\)?:?"
    r"|\(?(?<![a-z])(w|h|d)(w|h|d)(w|h|d)(?![a-z])\)?:?",
    re.IGNORECASE,
)
_FULL = {"w": "width", "h": "height", "d": "depth", "b": "width", "t": "depth", "p": "depth"}
_FULL["l"] = "length"
_UNIT_SAID = re.compile(
    rf"\b(?:in|en)\s({'|'.join(w for w in LENGTH_UNITS if w.isalpha())})\b", re.I
)


def what_is_said(text: str) -> Around:
    """Return the order and the unit of sizes that a line without figures says of all below it."""
    if any(char.isdigit() for char in text) or len(text) > LINE_MOST:
        return Around()
    unit = _UNIT_SAID.search(text)
    return Around(stated_order(Scan(text)), LENGTH_UNITS[unit[1].lower()] if unit else "")


_NOTHING_SAID = Around()


def read_line(line: str, unit: Unit, said: Around = _NOTHING_SAID) -> Draft | None:
    """Read one plain line without line breaks; None where it holds no sizes at all.

    `said` has the order and the unit of sizes where the list says them.
    """
    draft = Draft()
    if len(line) > LINE_MOST:
        draft.problems.append(f"the line has {len(line)} characters; {LINE_MOST} are allowed")
        return draft
    scan = Scan(line)
    _take_bullets(scan, draft)
    _take_age(scan, draft)
    read_remark(scan, draft)
    read_stacked(scan, draft)
    said = replace(said, order=stated_order(scan) or said.order)
    tokens = tokens_of(scan.rest)
    try:
        sizes_at = read_sizes(scan, draft, tokens, unit, said)
    except (UnreadableError, CasewrightError) as error:
        draft.problems.append(str(error))
        draft.name = scan.left(0, len(scan.rest))
        return draft
    if sizes_at is None:
        return None
    _read_all(draft, scan, Line(scan, tokens, sizes_at), unit)
    return draft


_CATALOGUE = re.compile(
    r"^\s?(?:cat|obj|inv|acc|item)(?:\.|(?<=item))?\s?(?:no\.?\s?)?\d[\w.]*(?:-\.?\w+)?\s?(?::|\s[–—-])\s",
    re.IGNORECASE,
)
"""The number of a thing in the client's catalogue, in front of its name."""
_HEIGHT_LAST = re.compile(
    r"\(?(?<!\w)(?:(?:the )?height (?:is |comes |goes )?last|(?:die )?höhe zuletzt"
    r"|(?:la )?hauteur en dernier|(?:el )?alto al final|(?:la )?altura al final)(?!\w)\)?",
    re.IGNORECASE,
)
_AGE = re.compile(
    r"(?<!\w)(?:(?:1[4-9]|20)\d\d\s?[-–]\s?(?:1[4-9]|20)\d\d"
    r"|\d{1,2}\.\s?(?:Jh|Jhd|Jahrhundert)\b\.?|\d{1,2}(?:st|nd|rd|th)\s(?:century|cent\.|c\.)"
    r"|(?:acc|cat|inv|obj|no)\.\s?(?:no\.\s?)?(?:1[89]|20)\d\d\.\d[\d.]*(?<!\.))",
    re.IGNORECASE,
)
"""How old a thing is, or its number in a catalogue, between commas or in brackets."""


def _take_age(scan: Scan, draft: Draft) -> None:
    """Keep years, a century and a catalogue number as remarks."""
    if (match := _CATALOGUE.match(scan.rest.replace("\0", " "))) is not None:
        scan.blank(*match.span())
        draft.notes.append(f"remark: {match[0].strip(' :–—-')}")
    while match := scan.take(_AGE, len(scan.rest)):
        draft.notes.append(f"remark: {match[0]}")


def _take_bullets(scan: Scan, draft: Draft) -> None:
    """Take off bullets, quotes and numbers in front."""
    for pattern in (_BULLET, _BULLET, _NUMBERING, _GUESSED_ALL):
        if match := pattern.match(scan.rest.replace("\0", " ")):
            scan.blank(*match.span())
            draft.guessed = pattern is _GUESSED_ALL
            if any(char.isdigit() for char in match[0]):
                draft.notes.append(f"{match[0].strip()} taken for its number in the list")


def _read_all(draft: Draft, scan: Scan, line: Line, unit: Unit) -> None:
    steps: list[Callable[[], None]] = [
        lambda: read_wishes(scan, draft, line.sizes_at, unit),
        lambda: read_weight(line, draft, unit),
        lambda: read_count(line, draft),
        lambda: share_weight(draft),
        lambda: read_name(line, draft),
    ]
    for step in steps:
        try:
            step()
        except (UnreadableError, CasewrightError) as error:
            draft.problems.append(str(error))


def stated_order(scan: Scan) -> tuple[str, ...]:
    """Take a stated order of sides, such as (H x W x D); () where none is stated."""
    if scan.take(_HEIGHT_LAST):
        return ("width", "depth", "height")
    match = scan.take(_ORDER)
    if not match:
        return ()
    sides = tuple(_FULL.get(side.lower(), side.lower()) for side in match.groups() if side)
    if len(set(sides)) == 3:
        return sides
    scan.rest = scan.rest[: match.start()] + match[0] + scan.rest[match.end() :]
    return ()


def has_sizes(text: str) -> bool:
    """Whether sizes stand in a text, joined by x or labelled."""
    found = find_measures(tokens_of(text[:LINE_MOST]))
    return bool(found.chains or found.labelled)


def has_chain(text: str) -> bool:
    """Whether sizes joined by x stand in a text."""
    return any(len(chain) > 2 for chain in find_measures(tokens_of(text[:LINE_MOST])).chains)
