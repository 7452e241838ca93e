"""The words for some of a kind of thing: a number and a name, or a name alone."""

from __future__ import annotations

import re
from collections.abc import Container

_COUNTED = re.compile(r"(?P<count>\d+)\s*[x×]\s*(?P<name>\D.*)", re.IGNORECASE)


def counted(text: str, names: Container[str]) -> tuple[str | None, int | None]:
    """Return the name that is meant, in small letters, and the number before it, if any.

    `names` are the known ones in small letters; a name that itself begins with a number
    goes first. (None, None) where no known name is meant.
    """
    words = text.strip().casefold()
    if words in names:
        return words, None
    found = _COUNTED.fullmatch(words)
    if found and found["name"].strip() in names:
        return found["name"].strip(), int(found["count"])
    return None, None
