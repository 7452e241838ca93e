"""Sizes among the tokens of a line: values with unit and label, joined by x or on their own.

Tokens are taken as long as they are values, labels, joints or extras such as `(11 with lid)`. What
follows one another so is a segment; joints part it into runs. In a run the labels stand all before
their values or all after them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from solver.listing.tokens import Token
from solver.listing.vocabulary import (
    DOTTED,
    FILLERS,
    GUESSES,
    JOINTS,
    LABELS,
    LENGTH_UNITS,
    MASS_UNITS,
    SHORT,
)


@dataclass(frozen=True)
class Value:
    """One size as written.

    Attributes
    ----------
    number
        The figures; of a range the larger ones.
    unit
        Unit of the value, or "" [-].
    start, end
        Where it stands, its label included [characters].
    label
        What its label means, or None.
    low
        The smaller figures of a range, or "".
    marks
        guess, asked (a question mark), either (`9 or 10`), negative, with (a lid), without.
    """

    number: str
    unit: str
    start: int
    end: int
    label: str | None = None
    low: str = ""
    marks: frozenset[str] = frozenset()
    inner: int = -1
    """Where the value stands after a single letter that may be the end of a name, or -1."""


@dataclass(frozen=True)
class Label:
    """A word that says which side a value is."""

    meaning: str
    start: int
    end: int
    is_letter: bool = False


@dataclass
class Found:
    """What the tokens of a line hold: chains of sizes, sizes with a label, and others."""

    chains: list[tuple[Value, ...]] = field(default_factory=list)
    labelled: list[Value] = field(default_factory=list)
    bare: list[Value] = field(default_factory=list)
    extras: list[Value] = field(default_factory=list)
    crossed: bool = False
    """True where labels and values cannot be matched."""


def find_measures(tokens: Sequence[Token]) -> Found:
    """Return the sizes among `tokens`."""
    found, at = Found(), 0
    while at < len(tokens):
        segment, after = _segment(tokens, at, found)
        _sort(segment, found)
        at = max(after, at + 1)
    return found


Item = Value | Label | str
"""A part of a segment; a joint is its text."""


def _segment(tokens: Sequence[Token], at: int, found: Found) -> tuple[list[Item], int]:
    """Return values, labels and joints that follow one another, and the place after them."""
    items: list[Item] = []
    while at < len(tokens):
        extra = _extra(tokens, at)
        if extra:
            found.extras.append(extra[0])
            at = extra[1]
            continue
        step = _value(tokens, at) or _label(tokens, at) or _joint(tokens, at, items)
        if step is None:
            break
        items.append(step[0])
        at = step[1]
    return items, at


def _joint(tokens: Sequence[Token], at: int, items: list[Item]) -> tuple[str, int] | None:
    token = tokens[at]
    slash = token.text == "/" and bool(items) and _is_number(tokens, at + 1)
    if (token.text in JOINTS or slash) and items:
        return token.text, at + 1
    return None


def _is_number(tokens: Sequence[Token], at: int) -> bool:
    return at < len(tokens) and tokens[at].kind == "number"


def _word(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def _joined(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token stands right after the one before it."""
    return 0 < at < len(tokens) and tokens[at - 1].end == tokens[at].start


def _label(tokens: Sequence[Token], at: int) -> tuple[Label, int] | None:
    start = at
    while _word(tokens, at) in FILLERS:
        at += 1
    if [_word(tokens, at + n) for n in range(3)] == ["front", "to", "back"]:
        return Label("depth", tokens[start].start, tokens[at + 2].end), at + 3
    word = _word(tokens, at)
    dot = _word(tokens, at + 1) == "." and word in SHORT
    meaning = LABELS.get(word)
    if word == "large" and _word(tokens, at - 1) == "de":
        meaning = "width"
    if meaning is None or (word in DOTTED and not dot) or (start != at and len(word) == 1):
        return None
    at += 1 + dot
    if meaning in ("square", "diameter"):
        while _word(tokens, at) in ("base", "of") and (
            _word(tokens, at) == "base" or _word(tokens, at + 1) == "base"
        ):
            at += 1
    at += _word(tokens, at) in (":", "=") and _is_number(tokens, at + 1)
    return Label(meaning, tokens[start].start, tokens[at - 1].end, len(word) == 1), at


def _value(tokens: Sequence[Token], at: int) -> tuple[Value, int] | None:
    """A size with its unit: guessed, doubted, a range."""
    start, marks = at, set()
    if _word(tokens, at) in GUESSES:
        marks.add("guess")
        at += 1
        at += _word(tokens, at) == "."
    between = _word(tokens, at) in ("between", "from", "zwischen", "entre", "von")
    for words in (("up", "to"), ("just", "under"), ("bis", "zu")):
        if tuple(_word(tokens, at + n) for n in range(2)) == words:
            at += 2
    at += between
    if _word(tokens, at) == "-" and _joined(tokens, at + 1) and not _joined(tokens, at):
        marks.add("negative")
        at += 1
    if not _is_number(tokens, at):
        return None
    number, unit, at = _figure(tokens, at)
    low = ""
    how = _word(tokens, at)
    tight = how == "-" and _joined(tokens, at) and _joined(tokens, at + 1)
    if _is_number(tokens, at + 1) and (
        tight or how in ("to", "bis", "or", "oder", "à") or (between and how in ("and", "und", "y"))
    ):
        marks |= {"either"} if how in ("or", "oder") else set()
        low = f"{number} {unit}".strip()
        number, unit, at = _figure(tokens, at + 1)
    if _word(tokens, at) == "ish" and _joined(tokens, at):
        marks.add("guess")
        at += 1
    if _word(tokens, at) == "?":
        marks.add("asked")
        at += 1
    value = Value(number, unit, tokens[start].start, tokens[at - 1].end, None, low)
    return replace(value, marks=frozenset(marks)), at


def _figure(tokens: Sequence[Token], at: int) -> tuple[str, str, int]:
    """Figures and unit, feet and inches taken together, and the place after them."""
    number, unit = tokens[at].text, tokens[at].unit
    at += 1
    if not unit and _unit_at(tokens, at):
        unit = LENGTH_UNITS[tokens[at].text]
        dotted = _word(tokens, at + 1) == "." and tokens[at].text in ("in", "ft", "cm", "mm")
        at += 1 + dotted
    step = at + (_word(tokens, at) == "-" and _is_number(tokens, at + 1))
    if unit == "ft" and _is_number(tokens, step) and _word(tokens, step + 1) not in MASS_UNITS:
        inches, inner, after = _figure(tokens, step)
        if inner in ("", "in"):
            return f"{number} ft {inches}", "in", after
    return number, unit, at


def _unit_at(tokens: Sequence[Token], at: int) -> bool:
    word = _word(tokens, at)
    if word not in LENGTH_UNITS:
        return False
    return word != "m" or _word(tokens, at + 1) != "&"


def _extra(tokens: Sequence[Token], at: int) -> tuple[Value, int] | None:
    """A size with a lid or handles up: `(11 with lid)`, `with lid 12`, `(6 without)`."""
    start = at
    opened = _word(tokens, at) == "("
    at += opened or (_word(tokens, at) == "," and _word(tokens, at + 1) in ("with", "mit", "avec"))
    if _word(tokens, at) in ("with", "mit", "avec", "con"):
        at += 1 + (_word(tokens, at + 1) in ("the", "its"))
        value = _value(tokens, at + 1)
        if not value or _label(tokens, value[1]) or _word(tokens, at) in JOINTS:
            return None
        found, after = value
        if _word(tokens, after) in JOINTS or _word(tokens, after) in MASS_UNITS:
            return None
        if tokens[after:] and tokens[after].kind == "word" and not opened:
            return None
        mark = "with"
    else:
        value = _value(tokens, at) if opened else None
        how = _word(tokens, value[1]) if value else ""
        if not value or how not in ("with", "without", "mit", "ohne", "avec", "sans", "incl"):
            return None
        found, after = value[0], value[1]
        while after < len(tokens) and tokens[after].text != ")":
            after += 1
        mark = "without" if how in ("without", "ohne", "sans") else "with"
    after += opened and _word(tokens, after) == ")"
    first, last = tokens[start].start, tokens[after - 1].end
    return replace(found, marks=found.marks | {mark}, start=first, end=last), after


def _sort(segment: list[Item], found: Found) -> None:
    """Put the runs of one segment where they belong."""
    runs: list[list[Item]] = [[]]
    for item in segment:
        if isinstance(item, str):
            runs.append([])
        else:
            runs[-1].append(item)
    while len(runs) > 1 and not any(isinstance(one, Value) for one in runs[-1]):
        runs.pop()
    matched = [list(_matched(run, found)) for run in runs]
    first = next((n for n, run in enumerate(matched) if run), None)
    if first is None:
        return
    matched = matched[first:]
    if len(matched) == 1:
        for value in matched[0]:
            (found.labelled if value.label else found.bare).append(value)
        return
    head, tail = matched[0], matched[-1]
    for value in head[:-1] + tail[1:]:
        (found.labelled if value.label else found.bare).append(value)
    middle = [run[0] for run in matched[1:-1] if run]
    if any(len(run) != 1 for run in matched[1:-1]):
        found.crossed = True
    if tail:
        found.chains.append((head[-1], *middle, tail[0]))


def _matched(run: list[Item], found: Found) -> Iterator[Value]:
    """Give the values of a run their labels, which stand all before or all after them."""
    items = list(run)
    labels = [one for one in items if isinstance(one, Label)]
    values = [one for one in items if isinstance(one, Value)]
    if not labels or not values:
        yield from values
        return
    after = isinstance(items[-1], Label)
    if after and isinstance(items[0], Label) and len(labels) > len(values):
        items = items[1:]
    if not after and isinstance(items[0], Value) and len(values) > len(labels) > 1:
        found.crossed = True
    after = after or isinstance(items[0], Value)
    for at, item in enumerate(items):
        if isinstance(item, Value):
            near = items[at + 1 : at + 2] if after else items[max(0, at - 1) : at]
            label = near[0] if near and isinstance(near[0], Label) else None
            yield _with_label(item, label) if label else item


def _with_label(value: Value, label: Label) -> Value:
    start, end = min(value.start, label.start), max(value.end, label.end)
    may_be_name = label.is_letter or label.meaning in ("cube", "sphere")
    inner = value.start if may_be_name and label.start < value.start else -1
    return replace(value, label=label.meaning, start=start, end=end, inner=inner)
