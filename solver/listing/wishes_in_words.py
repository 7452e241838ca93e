"""Words of a plain line that say what a thing is to the client.

How dear it is, hero, fragile, its number in a series, on one shelf, what it stands apart from, the
heading that it belongs under.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

from solver.listing.draft import Draft, UnreadableError, whole_count
from solver.listing.scan import Scan

Keep = Literal["must", "should", "optional"]
KEEPS: Mapping[str, Keep] = {
    **dict.fromkeys(
        ("must", "must have", "must keep", "must fit", "must be there", "must be in"), "must"
    ),
    **dict.fromkeys(
        (
            "these must be in",
            "has to be in",
            "this one has to be in",
            "have to be in",
            "muss hinein",
            "muss unbedingt hinein",
            "it must be in",
        ),
        "must",
    ),
    **dict.fromkeys(("should", "should fit"), "should"),
    **dict.fromkeys(("optional", "if room", "if there is room", "nice to have"), "optional"),
    **dict.fromkeys(
        ("only if there is room", "only if there's room", "if there's room"), "optional"
    ),
}
"""How dear a thing is, in words."""
ORDER_MOST = 9999
"""Highest number in a series [-]."""
ANY_WORD = (
    "must|muss|has to|have to|keep|kept|should|optional|room|nice|hero|fragile|order|series"
    "|one shelf|apart|beside"
    "|next to|heading|section"
)
"""Without one of these there is nothing of this in a line."""


def _after_the_start(text: str) -> re.Pattern[str]:
    """A pattern that does not begin the line: there it is the name."""
    return re.compile(rf"(?<!^)(?<![a-z]){text}(?![a-z])", re.IGNORECASE)


_WORDS = "|".join(sorted(KEEPS, key=len, reverse=True))
_KEEP = _after_the_start(rf"keep\s?[:=]?\s?({_WORDS})")
_KEEP_ALONE = _after_the_start(rf"({_WORDS})")
_HERO = _after_the_start(r"hero")
_FRAGILE = _after_the_start(r"fragile")
_ORDER = _after_the_start(
    r"(?:order\s?[:=]?\s?(\d+)|(?:no\.?|number|\#)\s?(\d+)\s(?:in|of)\s(?:the\s|its\s|a\s)?series)"
)
_TOGETHER = _after_the_start(r"(?:(?:all\s)?on\sone\sshelf|(?:keep|kept)\stogether)")
_APART = _after_the_start(
    r"(?:(?:keep\s|kept\s|stand\s)?apart\sfrom|not\s(?:beside|next\sto))\s([^,;|\0]+)"
)
_HEADING = _after_the_start(r"(?:heading|section)\s?[:=]\s?([^,;|\0]+)")


def read_what_it_is(scan: Scan, draft: Draft, sizes_at: int) -> None:
    """Read what a thing is to the client; before the sizes only between commas or brackets."""
    if match := scan.take(_HEADING):
        draft.heading = match[1].strip()
    if match := scan.take(_ORDER, sizes_at):
        draft.order = read_order(match[1] or match[2])
    while match := scan.take(_APART, sizes_at):
        draft.apart = (*draft.apart, match[1].strip())
    draft.together = bool(scan.take(_TOGETHER, sizes_at))
    alone = len(scan.rest)
    draft.hero = bool(scan.take(_HERO, alone))
    draft.fragile = bool(scan.take(_FRAGILE, alone))
    if match := scan.take(_KEEP, sizes_at) or scan.take(_KEEP_ALONE, alone):
        draft.keep = read_keep(match[1])


def read_keep(text: str) -> Keep:
    """Read how dear a thing is: must, should or optional."""
    word = text.strip().lower()
    if word in KEEPS:
        return KEEPS[word]
    msg = f"keep is {text.strip()!r}; write must, should or optional"
    raise UnreadableError(msg)


def read_order(text: str) -> int:
    """Read a number in a series, from 0 to 9999 [-]."""
    return whole_count(text, "number in the series", ORDER_MOST, least=0)
