"""The sizes of a thing: which is width, height and depth, in which unit, and what must be asked."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from solver.errors import LengthError
from solver.listing.draft import SIDES, Draft, UnreadableError, whole_count
from solver.listing.line_readings import Choice, Doubt
from solver.listing.measures import Found, Value, find_measures
from solver.listing.scan import Scan
from solver.listing.sides import ONE_SIZE, TWO_SIDED, Around, report_missing, spread
from solver.listing.tokens import Token
from solver.listing.vocabulary import BALLS, ROUND
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, parse_length, with_unit

_SMALL: Ticks = 80 * TICKS_PER_MM
"""Sizes without a unit that are all below this may have been meant in cm [tick]."""
_LARGE: Ticks = 96 * TICKS_PER_INCH
"""A size without a unit above this may have been meant in mm [tick]."""
_LONGEST: Ticks = 4000 * TICKS_PER_MM
"""No thing on a shelf is longer: it tells which unit was meant [tick]."""
_SAME_DEPTH = re.compile(
    r"same\s(depth|width)\sas\s(?:the\s)?(width|depth)|as\sdeep\sas\swide", re.I
)


_LID = re.compile(r"lid|cover|stopper|deckel|couvercle|tapa", re.IGNORECASE)
_WITH = re.compile(
    r"\s?(?:with|incl\w*|mit|avec|con|when|overall|over all|to the top)\b", re.IGNORECASE
)


def read_sizes(
    scan: Scan, draft: Draft, tokens: Sequence[Token], unit: Unit, said: Around
) -> int | None:
    """Put the sizes of a line into `draft` and blank them out.

    Returns where they begin [characters], or None where there are none. Raises UnreadableError
    with a question where they clash.
    """
    found = find_measures(tokens)
    words = {token.text for token in tokens}
    same = scan.take(_SAME_DEPTH)
    around = replace(
        said, is_round=bool(words & ROUND), is_ball=bool(words & BALLS), same_depth=bool(same)
    )
    parts = _chosen(found, scan, draft)
    if parts is None:
        return None
    before = scan.rest[: parts[0].start].strip("\0 ")
    parts = _leading_count(draft, parts) if not before else parts
    parts = _letter_of_name(parts)
    for part in parts:
        scan.blank(part.start, part.end)
    _blank_joints(scan, parts)
    at = min(part.start for part in parts)
    try:
        settle(draft, parts, unit, around)
        _use_extras(draft, found, parts, scan, unit)
    except (UnreadableError, LengthError) as error:
        draft.problems.append(str(error))
    return at


def _blank_joints(scan: Scan, parts: Sequence[Value]) -> None:
    for one, other in pairwise(parts):
        between = scan.rest[one.end : other.start]
        if re.fullmatch(
            r"\s?(?:x|×|✕|\*|by|/|mal|par|por|,?\s?(?:and|und|et|y)|&|,|;)\s?",
            between,
            re.IGNORECASE,
        ):
            scan.blank(one.end, other.start)


def _chosen(found: Found, scan: Scan, draft: Draft) -> tuple[Value, ...] | None:
    """Choose the sizes of the thing among all values of a line; None where there are none."""
    full = [chain for chain in found.chains if len(chain) >= 3]
    if len(full) > 1:
        msg = "the sizes are given twice; keep one line for each thing"
        raise UnreadableError(msg)
    if found.crossed:
        msg = "which figure is which side cannot be told; write 9 w x 12 h x 5 d"
        raise UnreadableError(msg)
    if full:
        return full[0]
    labels = {value.label for value in found.labelled}
    if _complete(labels):
        return tuple(found.labelled)
    if len(found.chains) > 1:
        msg = "the sizes are given twice; keep one line for each thing"
        raise UnreadableError(msg)
    parts = (*(found.chains[0] if found.chains else ()), *found.labelled)
    if not parts:
        parts = tuple(value for value in found.bare if value.unit)
        if len(parts) == 1 and not scan.rest[parts[0].end :].strip(" .;,)"):
            given = scan.rest[parts[0].start : parts[0].end]
            msg = f"one size only, {given}; width, height and depth are needed"
            raise UnreadableError(msg)
        return None
    return tuple(sorted(parts, key=lambda part: part.start))


def _complete(labels: set[str | None]) -> bool:
    return (
        labels >= set(SIDES)
        or labels >= {"length", "height", "depth"}
        or bool(labels & set(ONE_SIZE))
        or ("height" in labels and bool(labels & set(TWO_SIDED)))
    )


def _leading_count(draft: Draft, parts: tuple[Value, ...]) -> tuple[Value, ...]:
    """Take a bare first number for the count where the sizes after it are labelled and complete."""
    first, rest = parts[0], parts[1:]
    labels = {part.label for part in rest}
    bare = first.label is None and not first.unit and first.number.isdigit()
    if len(parts) > 2 and _complete(labels) and None not in labels and bare:
        draft.count = whole_count(first.number)
        draft.counted = True
        return rest
    return parts


def _letter_of_name(parts: tuple[Value, ...]) -> tuple[Value, ...]:
    """Leave a single letter before the first size to the name, as in `vitamin D 5 x 4 x 3`.

    It is a label only where every other size has one too.
    """
    first, rest = parts[0], parts[1:]
    special = first.label in TWO_SIDED
    if first.inner < 0 or special or not rest or all(part.label for part in rest):
        return parts
    return (replace(first, label=None, start=first.inner, inner=-1), *rest)


def settle(draft: Draft, parts: Sequence[Value], unit: Unit, around: Around) -> None:
    """Put sizes into `draft` by side [tick]; raise UnreadableError where they clash."""
    if any("negative" in part.marks for part in parts):
        msg = "a size is negative; a dash before the sizes needs a space after it"
        raise UnreadableError(msg)
    named = _named(draft, parts, around)
    draft.guessed = draft.guessed or any(part.marks & {"guess", "asked"} for part in parts)
    if around.unit and not any(part.unit for part in parts):
        named = {side: replace(part, unit=around.unit) for side, part in named.items()}
        draft.notes.append(f"in {around.unit}, as the list says")
    draft.sizes.update(_ticks(named, unit, draft))
    spread(draft, around)
    report_missing(draft, unit)
    for key, part in named.items():
        _ask_of_part(draft, key, part, named, unit, around)
    if not any(part.unit for part in named.values()):
        _ask_of_unit(draft, unit)


def _named(draft: Draft, parts: Sequence[Value], around: Around) -> dict[str, Value]:
    """Give each size its side: by its label, else by its place."""
    labels = [part.label for part in parts]
    known = [label for label in labels if label]
    twice = sorted({label for label in known if known.count(label) > 1})
    if twice:
        msg = f"the {twice[0]} is given twice"
        raise UnreadableError(msg)
    if len(known) == len(parts):
        return dict(zip(known, parts, strict=True))
    if not known:
        return _by_place(draft, parts, around)
    if set(known) & set(TWO_SIDED) and len(parts) == 2:
        return {label or "height": part for label, part in zip(labels, parts, strict=True)}
    in_place = len(parts) == 3 and all(
        label in (None, side) for label, side in zip(labels, SIDES, strict=True)
    )
    if in_place and not around.order:
        return dict(zip(SIDES, parts, strict=True))
    msg = "only some sizes are labelled; label each, such as 9 w x 12 h x 5 d"
    raise UnreadableError(msg)


def _by_place(draft: Draft, parts: Sequence[Value], around: Around) -> dict[str, Value]:
    if len(parts) > 3:
        msg = f"{len(parts)} sizes in a row; is one of them the count? write 3 x jug 9 x 12 x 5"
        raise UnreadableError(msg)
    if len(parts) < 3 and around.order:
        msg = f"{len(parts)} of the sizes {' x '.join(around.order)} given; three are needed"
        raise UnreadableError(msg)
    sides = around.order or SIDES
    if len(parts) == 3:
        draft.notes.append(f"read as {' x '.join(sides)}")
    return dict(zip(sides, parts, strict=False))


def _ticks(named: dict[str, Value], unit: Unit, draft: Draft) -> dict[str, Ticks]:
    """Parse the sizes; a unit after the last one holds for all that have none."""
    parts = list(named.values())
    _refuse_comma(parts, unit)
    bare = [part for part in parts if not part.unit]
    units = {part.unit for part in parts if part.unit}
    other = _unit_for_bare(parts, units, unit, draft) if bare and units - {unit} else ""
    try:
        sizes = {
            side: parse_length(f"{part.number} {part.unit or other}", unit)
            for side, part in named.items()
        }
    except LengthError as error:
        raise UnreadableError(error.message) from None
    draft.written.update((side, f"{part.number} {part.unit}") for side, part in named.items())
    for part in parts:
        if part.low and "either" not in part.marks:
            draft.notes.append(f"{part.low} to {part.number}: the larger taken")
    return sizes


def _unit_for_bare(parts: Sequence[Value], units: set[str], unit: Unit, draft: Draft) -> str:
    """The unit of sizes without one beside others that have one; asks where it may be two."""
    last = parts[-1].unit
    if len(units) > 1 or last == "ft" or (not last and units == {"ft"}):
        msg = "some sizes have a unit and some have none; give each its unit"
        raise UnreadableError(msg)
    (given,) = units
    if last:
        draft.notes.append(f"unit {given} for all sizes")
        return given
    if any(_is_too_long(f"{part.number} {given}", unit) for part in parts if not part.unit):
        draft.notes.append(f"{unit} where no unit is given")
        return ""
    msg = f"some sizes are in {given} and some have no unit; give each its unit"
    raise UnreadableError(msg)


def _is_too_long(text: str, unit: Unit) -> bool:
    try:
        return parse_length(text, unit) > _LONGEST
    except LengthError:
        return True


def _refuse_comma(parts: Sequence[Value], unit: Unit) -> None:
    """Ask where one size has a comma: it may part two figures, and inches are written without."""
    commas = ["," in part.number for part in parts]
    unsure = [*parts[-1:]]
    if unit == "in":
        unsure += [part for part in parts if re.fullmatch(r"\d+,\d\d?", part.number)]
    lone = [part for part in unsure if "," in part.number and sum(commas) == 1]
    if lone and not parts[-1].unit:
        given = lone[0].number
        msg = f"{given} may be one size or two figures; write {given.replace(',', '.')} or a space"
        raise UnreadableError(msg)


def _ask_of_part(
    draft: Draft, key: str, part: Value, named: dict[str, Value], unit: Unit, around: Around
) -> None:
    """Ask of a size with a question mark, and of one that is `9 or 10`."""
    if "asked" in part.marks:
        unsure = Choice("about that", {"guessed": True})
        sure = Choice("exactly that", {"guessed": False})
        draft.doubts.append(Doubt(f"{key} {part.number}?: is it sure?", (unsure, sure)))
    if "either" in part.marks:
        other = Draft(count=draft.count)
        low = {**named, key: replace(part, number=part.low.split()[0], low="", marks=frozenset())}
        other.sizes.update(_ticks(low, unit, other))
        spread(other, around)
        choices = Choice(part.number), Choice(part.low, dict(other.sizes))
        draft.doubts.append(Doubt(f"{key}: {part.low} or {part.number}?", choices))


def _ask_of_unit(draft: Draft, unit: Unit) -> None:
    """Ask whether sizes without a unit are in cm, or mm, where that of the job makes them odd."""
    longest = max(draft.sizes.values())
    if draft.doubts or (longest >= _SMALL if unit == "mm" else longest <= _LARGE):
        return
    given = {side: draft.sizes[side] for side in SIDES}
    other, per, base = ("cm", 10, 1) if unit == "mm" else ("mm", TICKS_PER_MM, TICKS_PER_INCH)
    draft.sizes.update({side: size * per // base for side, size in given.items()})
    choices = Choice(other), Choice(unit, dict(given))
    draft.doubts.append(Doubt(f"sizes without a unit: in {other} or in {unit}?", choices))


def _use_extras(draft: Draft, found: Found, parts: Sequence[Value], scan: Scan, unit: Unit) -> None:
    """Let the whole height count: with its lid on, with handles up."""
    for extra in found.extras:
        scan.blank(extra.start, extra.end)
        if "without" in extra.marks:
            draft.notes.append(f"{extra.number} without: not used")
            continue
        lid = _LID.search(scan.original[extra.start : extra.end])
        near = [n for n, part in enumerate(parts) if part.end <= extra.start]
        label = parts[near[-1]].label if near else None
        in_chain = len(parts) == 3 and not any(part.label for part in parts) and near
        side = SIDES[near[-1]] if in_chain else label if label in SIDES else "height"
        side = "height" if lid else side
        _take_larger(draft, side, extra, unit)
    used = set(parts)
    for value in found.labelled:
        if value in used or value.label is None or value.label in ONE_SIZE:
            continue
        after = scan.rest[value.end :]
        if _WITH.match(after) and value.label in SIDES:
            scan.blank(value.start, value.end)
            _take_larger(draft, value.label, value, unit)
        elif not re.search(r"(?<![^\W\d_])[^\W\d_]$|^[^\W\d_]\d", _shown(scan, value)):
            msg = f"{_shown(scan, value)}: is it another size of the same thing? write one of them"
            raise UnreadableError(msg)


def _shown(scan: Scan, value: Value) -> str:
    return scan.original[value.start : value.end].strip()


def _take_larger(draft: Draft, side: str, value: Value, unit: Unit) -> None:
    """Take a second size of a side where it is the larger one; else it is a question."""
    size = parse_length(f"{value.number} {value.unit}", unit)
    before = draft.sizes[side]
    if size < before:
        msg = f"the {side} is given twice: {with_unit(before, unit)} and {value.number}"
        raise UnreadableError(msg)
    draft.sizes[side] = size
    shown = draft.written.get(side) or with_unit(before, unit)
    draft.notes.append(f"{side} {value.number} taken, not {shown}")
