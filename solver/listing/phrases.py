"""Words of a plain line besides its sizes: counts, weights, and how a thing may stand.

Each reader takes what it understands out of a :class:`~solver.listing.scan.Scan`.
"""

from __future__ import annotations

import re

from solver.job.inventory import WishedPlace
from solver.listing.draft import Draft, UnreadableError, whole_count
from solver.listing.scan import Scan
from solver.listing.vocabulary import NUMBERS
from solver.listing.wishes_in_words import ANY_WORD, read_what_it_is
from solver.units import Unit, parse_length

PLACES: dict[str, WishedPlace] = {
    **dict.fromkeys(("low", "lowest", "bottom", "down low"), "low"),
    **dict.fromkeys(("eye", "eye level", "eye-level", "middle"), "eye"),
    **dict.fromkeys(("top", "topmost", "highest"), "top"),
}
"""Wished places in words."""
_PLACE = "|".join(sorted(PLACES, key=len, reverse=True))
_ANY_WISH = re.compile(
    rf"{ANY_WORD}|lie|lay|laid|lying|liegen|gelegt|couch|tumbad|acostad|stack|row|group|set|where|place|shelf|opening|gap|guess|estimat|approx|\?|{_PLACE}",
    re.IGNORECASE,
)
"""Without one of these there is no wish in a line: most lines are done at once."""


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text, re.IGNORECASE)


_LIE = _pattern(
    r"(?<![a-z])(?:may|can|could)\s(?:lie|lay|be\slaid)(?:\s(?:down|flat|on\s(?:its|their)\ssides?))?\b"
    r"|(?<![a-z])(?:ok|okay|fine)\s(?:lying|laid)\s(?:down|flat)\b"
    r"|(?<![a-z])(?:darf|dürfen|kann|können)\s(?:auch\s)?(?:liegen|gelegt werden)\b"
    r"|(?<![a-z])(?:peut|peuvent)\sêtre\scouchée?s?\b"
    r"|(?<![a-z])puede[n]?\s(?:ir|estar)\s(?:tumbad|acostad)[oa]s?\b"
)
_STACK = _pattern(r"(?<![a-z])stack(?:s|ed|able)?\s?(?:up to|of|to|:|=)?\s?(\d+)(?:\shigh)?\b")
_STACKED = _pattern(
    r"(?<![a-z])(?:(?:can|may|could)\s(?:be\s)?)?stack(?:ed)?\s(\d+|two|three|four|five|six)\shigh\b"
)
"""Read before the sizes, since its number is no height."""
_STACKABLE = _pattern(r"(?<![a-z])(?:stackable|may stack|can stack)(?![a-z])")
_ROWS = _pattern(
    r"(?<![a-z\d])(?:rows\s?[:=]?\s?(\d+)|(?:in\s)?(\d|two|three)\srows?)(?:\sdeep)?\b"
)
_GROUP = _pattern(r"(?<![a-z])(?:group|set)\s?[:=]\s?([^,;|\0]+)")
_WHERE = _pattern(
    rf"(?<![a-z])(?:(?:put|place)\s(?:it|them)\son\s|on\s)?(?:where|place|shelf|opening)\s?[:=]?\s?({_PLACE}|\d+)(?:\sshelf)?(?:\sif\syou\scan)?(?![\w])"
)
_PLACE_ALONE = _pattern(rf"(?<![a-z])(?:on\s)?({_PLACE})(?:\sshelf)?(?![\w])")
_GAP = _pattern(r"(?<![a-z])gap\s?[:=]?\s?([\d.,/ ]*[\d]\s?(?:in\.?|mm|cm|\")?)(?![\w/])")
_REMARK = _pattern(r"(?<![a-z])(?:notes?|remarks?)\s?[:=]\s?(.+)$")
_GUESSED = _pattern(r"(?<![a-z])(?:guess(?:ed)?|estimated?|approx\.?|approximate)(?![\w])|\(\?\)")


def read_remark(scan: Scan, draft: Draft) -> None:
    """Keep what follows `notes:` as a remark; it changes nothing."""
    match = scan.take(_REMARK)
    if match:
        draft.notes.append(f"remark: {match[1].strip()}")


def read_stacked(scan: Scan, draft: Draft) -> None:
    """Read `can be stacked 4 high`."""
    if match := scan.take(_STACKED):
        draft.stack = NUMBERS.get(match[1].lower()) or whole_count(match[1], "stack", 50)


def read_wishes(scan: Scan, draft: Draft, sizes_at: int, unit: Unit) -> None:
    """Read how and where a thing may stand: lying, stacked, rows, group, place, gap."""
    if not _ANY_WISH.search(scan.rest):
        return
    read_what_it_is(scan, draft, sizes_at)
    draft.guessed = bool(scan.take(_GUESSED, sizes_at)) or draft.guessed
    draft.may_lie = bool(scan.take(_LIE, sizes_at)) or draft.may_lie
    if match := scan.take(_STACK, sizes_at):
        draft.stack = whole_count(match[1], "stack", 50)
    elif scan.take(_STACKABLE, sizes_at):
        draft.stack = 2
        draft.notes.append("stackable taken for 2 high; write stack 3 for more")
    if match := scan.take(_ROWS, sizes_at):
        draft.rows = NUMBERS.get(match[2] or "") or whole_count(
            match[1] or match[2], "number of rows", 6
        )
    if match := scan.take(_GROUP, sizes_at):
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
