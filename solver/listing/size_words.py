"""Sizes in running text: where they stand, which is width, height and depth, and in which unit.

Such as `9-1/2" w x 12 h x 5-1/2 d`, `150 x 120 x 90 mm`, `5 wide, 36 high`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from solver.errors import LengthError
from solver.listing.draft import SIDES, Draft, UnreadableError, whole_count
from solver.units import VULGAR, Ticks, Unit, parse_length, with_unit

NUMBER = (
    r"(?:\d+\s?[- ]\s?\d+\s?/\s?\d+|\d+\s?/\s?\d+"
    rf"|\d+\s?-?\s?[{VULGAR}]|[{VULGAR}]|\d+(?:[.,]\d+)+|(?<![\d.,])\.\d+|\d+\.?)"
)
_FOOT = r"(?:'(?!')|(?:ft\.?|feet|foot)(?![a-z]))"
LENGTH_UNIT = (
    r"""(?:"|''|'|(?:inches|inch|ins|in\.?|ft\.?|feet|foot|mm|cm|m|milli(?:met(?:re|er)s?)"""
    r"|centi(?:met(?:re|er)s?)|met(?:re|er)s?)(?![a-z]))"
)
_GUESS = r"(?:~|≈|(?<![a-z])(?:about|approximately|approx\.?|roughly|circa|ca\.?)\s)"
_LABEL = (
    r"(?:width|wide|w|breadth|broad|across|height|high|tall|h|depth|deep|d"
    r"|diameter|diam\.?|dia\.?|ø|⌀|length|long|l)(?![a-z])"
)
LABELS = {
    **dict.fromkeys(("width", "wide", "w", "breadth", "broad", "across"), "width"),
    **dict.fromkeys(("height", "high", "tall", "h"), "height"),
    **dict.fromkeys(("depth", "deep", "d"), "depth"),
    **dict.fromkeys(("diameter", "diam", "dia", "ø", "⌀"), "diameter"),
    **dict.fromkeys(("length", "long", "l"), "length"),
}
"""What each label of a size means."""


def _measure(*, before: str, after: str) -> str:
    """Pattern of one size, with groups pre, value, suf and the marks of guesses."""
    return (
        rf"(?:(?<![a-z\d])(?P<pre>{before})\s?[:=]?\s?)?(?P<guess>{_GUESS}\s?)?(?P<minus>(?<!\S)-)?"
        rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
        rf"\s?(?P<doubt>\?)?\s?(?:(?:in\s)?(?P<suf>{after}))?(?P<doubt2>\s?\?)?"
    )


def _without_groups(pattern: str) -> str:
    """The same pattern without group names, so that it can be repeated."""
    return re.sub(r"\?P<\w+>", "?:", pattern)


_PART_TEXT = _measure(before=_LABEL, after=_LABEL)
_JOINT = r"\s?(?:[x×✕*]|by(?![a-z]))\s?"
_PART = re.compile(_PART_TEXT, re.IGNORECASE)
_CHAIN = re.compile(
    rf"(?<![\w/]){_without_groups(_PART_TEXT)}(?:{_JOINT}{_without_groups(_PART_TEXT)})+(?![\w/]|[.,]\d)",
    re.IGNORECASE,
)
_UNIT_AFTER = re.compile(rf"\s?(?:\(\s?({LENGTH_UNIT})\s?\)|({LENGTH_UNIT}))", re.IGNORECASE)
_PREFIXED = re.compile(
    rf"(?<![a-z\d])(?P<pre>{_LABEL})\s?[:=]?\s?(?P<guess>{_GUESS}\s?)?(?P<minus>-)?"
    rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
    r"(?P<suf>)(?P<doubt>\s?\?)?(?P<doubt2>)",
    re.IGNORECASE,
)
_SUFFIXED = re.compile(
    rf"(?<![\w./])(?P<pre>)(?P<guess>{_GUESS}\s?)?(?P<minus>-)?"
    rf"(?P<value>(?:\d+\s?{_FOOT}\s?-?\s?(?=[\d.{VULGAR}]))?{NUMBER}\s?(?:{LENGTH_UNIT})?)"
    rf"\s?(?P<doubt>\?)?\s?(?:in\s)?(?P<suf>{_LABEL})(?P<doubt2>\s?\?)?",
    re.IGNORECASE,
)
_UNIT_AT_END = re.compile(rf"\s?({LENGTH_UNIT})$", re.IGNORECASE)
_SINGLE = re.compile(r"[whdl]", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """One size of a line: its number, unit word, label, and whether it is guessed or negative."""

    number: str
    unit: str
    label: str | None
    guessed: bool
    negative: bool


@dataclass(frozen=True)
class SizeRun:
    """The sizes found in a text, and where they stand in it."""

    parts: tuple[Part, ...]
    start: int
    end: int
    spans: tuple[tuple[int, int], ...]


def find_sizes(text: str) -> list[SizeRun]:
    """Return every run of sizes in `text` (plain marks): joined by x first, else labelled ones."""
    chains = [_chain(match, text) for match in _CHAIN.finditer(text)]
    if chains:
        return chains
    labelled = max((list(p.finditer(text)) for p in (_SUFFIXED, _PREFIXED)), key=len)
    if not labelled:
        return []
    spans = tuple(match.span() for match in labelled)
    parts = tuple(_part(match) for match in labelled)
    return [SizeRun(parts, spans[0][0], spans[-1][1], spans)]


def _chain(match: re.Match[str], text: str) -> SizeRun:
    parts, start, end = list(_split(match[0])), match.start(), match.end()
    first = next(_PART.finditer(match[0]))
    if _is_letter_of_name(first, parts):
        start += first.end("pre")
        parts[0] = Part(parts[0].number, parts[0].unit, None, parts[0].guessed, parts[0].negative)
    unit = _UNIT_AFTER.match(text, end)
    if unit and not parts[-1].unit:
        last = parts[-1]
        word = unit[1] or unit[2]
        parts[-1] = Part(last.number, word, last.label, last.guessed, last.negative)
        end = unit.end()
    return SizeRun(tuple(parts), start, end, ((start, end),))


def _is_letter_of_name(first: re.Match[str], parts: list[Part]) -> bool:
    """Whether a single letter before the first size belongs to the name, as in `vitamin D 5 x 4`.

    It is a label only where every other size has one too.
    """
    alone = bool(first["pre"]) and bool(_SINGLE.fullmatch(first["pre"]))
    return alone and not all(part.label for part in parts[1:])


def _split(chain: str) -> Iterator[Part]:
    joint = re.compile(_JOINT, re.IGNORECASE)
    at = 0
    while match := _PART.match(chain, at):
        yield _part(match)
        gap = joint.match(chain, match.end())
        if not gap:
            return
        at = gap.end()


def _part(match: re.Match[str]) -> Part:
    value = match["value"].strip()
    unit = _UNIT_AT_END.search(value)
    word = (match["suf"] or match["pre"] or "").lower().rstrip(".")
    return Part(
        number=value[: unit.start()] if unit else value,
        unit=unit[1] if unit else "",
        label=LABELS.get(word),
        guessed=bool(match["guess"] or match["doubt"] or match["doubt2"]),
        negative=bool(match["minus"]),
    )


_FEET = ("'", "ft", "ft.", "foot", "feet")


def settle_sizes(
    draft: Draft,
    parts: Sequence[Part],
    unit: Unit,
    *,
    order: Sequence[str] | None = None,
    at_start: bool = False,
) -> None:
    """Put the sizes found into `draft`; raise UnreadableError with a question where they clash.

    `order` names the sides of unlabelled sizes, else width, height, depth; `at_start` tells
    that nothing stands before the sizes, so that the first number may be the count.
    """
    if any(part.negative for part in parts):
        msg = "a size is negative; a dash before the sizes needs a space after it"
        raise UnreadableError(msg)
    if at_start:
        parts = _leading_count(draft, parts)
    named = _named(draft, parts, order)
    values = _values(list(named.values()), unit, draft)
    draft.sizes.update(zip(named, values, strict=True))
    draft.guessed = draft.guessed or any(part.guessed for part in parts)
    spread_diameter(draft)
    use_length(draft)
    report_missing(draft, unit)


def _leading_count(draft: Draft, parts: Sequence[Part]) -> Sequence[Part]:
    """Take a bare first number for the count where the sizes after it are labelled and complete."""
    first, rest = parts[0], parts[1:]
    labels = {part.label for part in rest}
    complete = labels >= set(SIDES) or labels == {"diameter", "height"}
    bare = first.label is None and not first.unit and re.fullmatch(r"\d+", first.number)
    if len(parts) > 2 and complete and None not in labels and bare:
        draft.count = whole_count(first.number)
        return rest
    return parts


def _named(draft: Draft, parts: Sequence[Part], order: Sequence[str] | None) -> dict[str, Part]:
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
        return _by_place(draft, parts, order)
    if "diameter" in known and len(parts) == 2:
        return {label or "height": part for label, part in zip(labels, parts, strict=True)}
    in_place = len(parts) == 3 and all(
        label in (None, side) for label, side in zip(labels, SIDES, strict=True)
    )
    if in_place and not order:
        return dict(zip(SIDES, parts, strict=True))
    msg = "only some sizes are labelled; label each, such as 9 w x 12 h x 5 d"
    raise UnreadableError(msg)


def _by_place(draft: Draft, parts: Sequence[Part], order: Sequence[str] | None) -> dict[str, Part]:
    if len(parts) > 3:
        msg = f"{len(parts)} sizes in a row; is one of them the count? write 3 x jug 9 x 12 x 5"
        raise UnreadableError(msg)
    if len(parts) < 3 and order:
        msg = f"{len(parts)} of the sizes {' x '.join(order)} given; three are needed"
        raise UnreadableError(msg)
    sides = order or SIDES
    if len(parts) == 3:
        draft.notes.append(f"read as {' x '.join(sides)}")
    return dict(zip(sides, parts, strict=False))


def _values(parts: Sequence[Part], unit: Unit, draft: Draft) -> list[Ticks]:
    """Parse the sizes; a unit after the last one holds for all that have none."""
    _refuse_comma(parts)
    bare = [part for part in parts if not part.unit]
    words = {part.unit.lower() for part in parts if part.unit}
    if bare and words and (parts[-1].unit or not words <= _words_of_unit(unit)):
        last = parts[-1].unit
        if not last or last.lower() in _FEET:
            msg = "some sizes have a unit and some have none; give each its unit"
            raise UnreadableError(msg)
        if last.lower() not in _words_of_unit(unit):
            draft.notes.append(f"unit {last} for all sizes")
        parts = [part if part.unit else replace(part, unit=last) for part in parts]
    try:
        return [parse_length(f"{part.number} {part.unit}", unit) for part in parts]
    except LengthError as error:
        raise UnreadableError(error.message) from None


def _words_of_unit(unit: Unit) -> set[str]:
    return {"in", "in.", "inch", "inches", "ins", '"', "''"} if unit == "in" else {"mm"}


def _refuse_comma(parts: Sequence[Part]) -> None:
    """Ask where only the last size has a comma, which may as well part it from what follows."""
    commas = ["," in part.number for part in parts]
    if commas[-1] and not any(commas[:-1]) and not parts[-1].unit:
        given = parts[-1].number
        msg = f"{given} may be one size or two figures; write {given.replace(',', '.')} or a space"
        raise UnreadableError(msg)


def spread_diameter(draft: Draft) -> None:
    """A diameter stands for width and depth, or, with only a depth beside it, width and height."""
    across = draft.sizes.pop("diameter", None)
    if across is None:
        return
    others = set(draft.sizes)
    if others not in ({"height"}, {"depth"}, set()):
        msg = "beside a diameter one size is needed: the height, or of a standing disc the depth"
        raise UnreadableError(msg)
    draft.sizes["width"] = across
    if others:
        draft.sizes["depth" if others == {"height"} else "height"] = across
        draft.notes.append("diameter taken for two sides")
    else:
        draft.sizes["depth"] = across


def use_length(draft: Draft) -> None:
    """A length is the width where no width is given; else which way it runs must be asked."""
    length = draft.sizes.pop("length", None)
    if length is None:
        return
    if "width" in draft.sizes:
        msg = "length and width are both given; say width, height and depth as it stands"
        raise UnreadableError(msg)
    draft.sizes["width"] = length
    draft.notes.append("length taken for the width")


def report_missing(draft: Draft, unit: Unit) -> None:
    """Raise UnreadableError where a side has no size, with what was read of the others."""
    missing = [side for side in SIDES if side not in draft.sizes]
    if not missing:
        return
    given = ", ".join(
        f"{side} {with_unit(draft.sizes[side], unit)}" for side in SIDES if side in draft.sizes
    )
    what = missing[0] if len(missing) == 1 else f"{', '.join(missing[:-1])} and {missing[-1]}"
    verb = "is" if len(missing) == 1 else "are"
    msg = f"the {what} {verb} missing (read: {given or 'no sizes'})"
    raise UnreadableError(msg)
