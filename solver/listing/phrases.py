"""Words of a plain line besides its sizes: counts, weights, and how a thing may stand.

Each reader takes what it understands out of a :class:`~solver.listing.scan.Scan`.
"""

from __future__ import annotations

import re

from solver.errors import CasewrightError
from solver.job.inventory import WishedPlace
from solver.listing.draft import Draft, UnreadableError, whole_count
from solver.listing.scan import Scan
from solver.listing.size_words import NUMBER
from solver.listing.wishes_in_words import ANY_WORD, read_what_it_is
from solver.units import Unit, parse_length, parse_mass

COUNT_WORDS = {
    **{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6},
    **{"seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12},
}
"""Counts in words."""
_WORD = "|".join(COUNT_WORDS)
PLACES: dict[str, WishedPlace] = {
    **dict.fromkeys(("low", "lowest", "bottom", "down low"), "low"),
    **dict.fromkeys(("eye", "eye level", "eye-level", "middle"), "eye"),
    **dict.fromkeys(("top", "topmost", "highest"), "top"),
}
"""Wished places in words."""
_PLACE = "|".join(sorted(PLACES, key=len, reverse=True))
_ANY_WISH = re.compile(
    rf"{ANY_WORD}|lie|stack|row|group|set|where|place|shelf|opening|gap|guess|estimat|approx|\?|{_PLACE}",
    re.IGNORECASE,
)
"""Without one of these there is no wish in a line: most lines are done at once."""


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text, re.IGNORECASE)


MASS_UNIT = (
    r"(?:(?:lbs?\.?|pounds?|oz\.?|ounces?|kilograms?|kilos?|kgs?|grammes?|grams?|gr|g)(?![a-z])|#)"
)
_WEIGHT = _pattern(
    rf"(?<![\w.,/])(?:(?:weight|weighs|wt\.?|mass)\s?[:=]?\s?)?"
    rf"((?:~|about\s|approx\.?\s)?{NUMBER}\s?{MASS_UNIT}(?:\s{NUMBER}\s?{MASS_UNIT})?)"
    r"(?:\s?(each|ea\.?|apiece)|\s(total|in all|altogether|together))?(?![\w])"
)
_WEIGHT_BARE = _pattern(rf"(?<![a-z])(?:weight|weighs|wt\.?|mass)\s?[:=]?\s?({NUMBER})(?![\w/])")
_STRAY_MASS = _pattern(rf"^\s?{MASS_UNIT}")

_FIGURE = rf"-?\d+(?:[.,]\d+)?|{_WORD}"
_COUNTS = (
    _pattern(rf"(?<![a-z])(?:qty\.?|quantity|count|how many|pcs)\s?[:=]?\s?({_FIGURE})(?![\w/])"),
    _pattern(rf"\(\s?[x×]?\s?({_FIGURE})\s?(?:x|×|off|pcs\.?|pieces|of them)?\s?\)"),
)
_COUNTS_APART = (
    _pattern(rf"(?<![\w.,/])({_FIGURE})\s?(?:off|pcs\.?|pieces|pc\.?)(?![\w])"),
    _pattern(r"(?<![\w.,/])[x×]\s?(\d+)(?![\w/.,])"),
    _pattern(r"(?<![\w.,/])(\d+)\s?[x×](?![\w])"),
)
_LEADING = _pattern(
    rf"^\s?(-?\d+(?:[.,]\d+)?|{_WORD})(?:\s?(?:x|×|\*)\s|\s?(?:off|pcs\.?|pieces?|nos?\.)\s|\s)"
    r"(?:of\s)?(?=\S)"
)
_LEADING_MARK = re.compile(r"[x×*.]|off|pc|piece|no", re.IGNORECASE)
_NOT_COUNTED = _pattern(
    r"^\s?\d+\s(?:inch|in\b|mm\b|cm\b|ft\b|foot|feet|lbs?\b|oz\b|kg\b|g\b|days?\b|hours?\b|pieces?\s)"
)
_TRAILING = _pattern(r"(?<![\w.,/])(?:[x×]\s?(\d+)|(\d+)\s?[x×])[\s:,-]*$")
_UNCLEAR = _pattern(
    r"^\s?(?:a\s)?(pair|couple|few|set)\sof\s|^\s?(some|several|various|many|few)\s"
)
_DOZEN = _pattern(r"^\s?(?:a\s)?(half\sa\s)?dozen\s(?=\S)")
_COUNT_SURE_MOST = 99
"""A bare number before the name above this may be a year or a type, and is asked about."""

_LIE = _pattern(r"(?<![a-z])(?:may|can|could)\slie(?:\s(?:down|flat|on\s(?:its|their)\ssides?))?\b")
_STACK = _pattern(r"(?<![a-z])stack(?:s|ed|able)?\s?(?:up to|of|to|:|=)?\s?(\d+)(?:\shigh)?\b")
_STACKABLE = _pattern(r"(?<![a-z])(?:stackable|may stack|can stack)(?![a-z])")
_ROWS = _pattern(r"(?<![a-z\d])(?:rows\s?[:=]?\s?(\d+)|(\d+)\srows?)(?:\sdeep)?\b")
_GROUP = _pattern(r"(?<![a-z])(?:group|set)\s?[:=]\s?([^,;|\0]+)")
_WHERE = _pattern(
    rf"(?<![a-z])(?:where|place|shelf|opening)\s?[:=]?\s?({_PLACE}|\d+)(?:\sshelf)?(?![\w])"
)
_PLACE_ALONE = _pattern(rf"(?<![a-z])(?:on\s)?({_PLACE})(?:\sshelf)?(?![\w])")
_GAP = _pattern(rf"(?<![a-z])gap\s?[:=]?\s?({NUMBER}\s?(?:in\.?|mm|cm|\")?)(?![\w/])")
_REMARK = _pattern(r"(?<![a-z])(?:notes?|remarks?)\s?[:=]\s?(.+)$")
_GUESSED = _pattern(r"(?<![a-z])(?:guess(?:ed)?|estimated?|approx\.?|approximate)(?![\w])|\(\?\)")


def read_remark(scan: Scan, draft: Draft) -> None:
    """Keep what follows `notes:` as a remark; it changes nothing."""
    match = scan.take(_REMARK)
    if match:
        draft.notes.append(f"remark: {match[1].strip()}")


def read_wishes(scan: Scan, draft: Draft, sizes_at: int, unit: Unit) -> None:
    """Read how and where a thing may stand: lying, stacked, rows, group, place, gap."""
    if not _ANY_WISH.search(scan.rest):
        return
    read_what_it_is(scan, draft, sizes_at)
    draft.guessed = bool(scan.take(_GUESSED, sizes_at)) or draft.guessed
    draft.may_lie = bool(scan.take(_LIE, sizes_at))
    if match := scan.take(_STACK, sizes_at):
        draft.stack = whole_count(match[1], "stack", 50)
    elif scan.take(_STACKABLE, sizes_at):
        draft.stack = 2
        draft.notes.append("stackable taken for 2 high; write stack 3 for more")
    if match := scan.take(_ROWS, sizes_at):
        draft.rows = whole_count(match[1] or match[2], "number of rows", 6)
    if match := scan.take(_GROUP):
        draft.group = match[1].strip()
    if match := scan.take(_WHERE, sizes_at) or scan.take(_PLACE_ALONE, sizes_at):
        draft.where = read_place(match[1])
    if match := scan.take(_GAP, sizes_at):
        draft.gap = parse_length(match[1], unit)


def read_place(text: str) -> WishedPlace:
    """Read a wished place: low, eye, top or the number of an opening from 0 to 99."""
    word = text.strip().lower().removesuffix(" shelf")
    if word in PLACES:
        return PLACES[word]
    if re.fullmatch(r"\d{1,2}", word):
        return int(word)
    msg = f"the place {text.strip()!r} is not low, eye, top or the number of an opening"
    raise UnreadableError(msg)


def read_weight(scan: Scan, draft: Draft, sizes_at: int, unit: Unit) -> None:
    """Read the weight of one; a weight of all together is asked about."""
    match = scan.take(_WEIGHT, sizes_at) or scan.take(_WEIGHT_BARE)
    if not match:
        return
    if match.re is _WEIGHT and match[3]:
        msg = f"{match[1]} {match[3]}: write the weight of one"
        raise UnreadableError(msg)
    if scan.take(_WEIGHT, sizes_at):
        msg = "two weights are given"
        raise UnreadableError(msg)
    draft.weight = read_mass(re.sub(r"^(?:~|about\s|approx\.?\s)", "", match[1]), unit)


def read_mass(text: str, unit: Unit) -> int:
    """Read the weight of one [g]; UnreadableError where there is none, or it is 0."""
    try:
        grams = parse_mass(text, unit)
    except CasewrightError as error:
        raise UnreadableError(str(error)) from None
    if grams < 1:
        msg = f"the weight {text.strip()!r} is nothing; leave it out where it is not known"
        raise UnreadableError(msg)
    return grams


def read_count(scan: Scan, draft: Draft, sizes_at: int) -> None:
    """Read how many there are: marked anywhere, else a number or word before the name."""
    texts = [match[1] for pattern in _COUNTS if (match := scan.take(pattern))]
    texts += [m[1] for pattern in _COUNTS_APART if (m := scan.take(pattern, sizes_at))]
    head = scan.rest[:sizes_at]
    if trailing := _TRAILING.search(head):
        texts.append(trailing[1] or trailing[2])
        scan.blank(*trailing.span())
    leading = _leading(scan, sizes_at, counted=bool(texts))
    texts += [leading] if leading else []
    counts = {_figure(text) for text in texts}
    if len(counts) > 1:
        msg = f"two counts are given: {' and '.join(map(str, sorted(counts)))}"
        raise UnreadableError(msg)
    if counts:
        draft.count = counts.pop()


def _figure(text: str) -> int:
    return COUNT_WORDS.get(text.lower()) or whole_count(text)


def _leading(scan: Scan, sizes_at: int, *, counted: bool) -> str | None:
    """Take a count from before the name; a bare number is part of the name where one is given."""
    head = scan.rest[:sizes_at]
    if not counted and (unclear := _UNCLEAR.match(head)):
        msg = f"how many are {unclear[0].strip()!r}? write 2 x … or qty 1"
        raise UnreadableError(msg)
    if dozen := _DOZEN.match(head):
        scan.blank(*dozen.span())
        return "6" if dozen[1] else "12"
    match = _LEADING.match(head)
    if not match or _NOT_COUNTED.match(head):
        return None
    marked = bool(_LEADING_MARK.search(match[0][match.end(1) - match.start() :]))
    if counted and not marked:
        return None
    if not marked and match[1].isdigit() and int(match[1]) > _COUNT_SURE_MOST:
        msg = f"is {match[1]} a count or part of the name? write {match[1]} x …, or add qty 1"
        raise UnreadableError(msg)
    scan.blank(match.start(), match.end())
    return match[1]


def starts_with_mass_unit(text: str) -> bool:
    """Whether a leftover begins with pounds or kilograms that no number is left for."""
    return bool(_STRAY_MASS.match(text))
