"""What came of the wishes for matched parts, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from cli.tables.words import amount, count, plain_name
from solver.stocked import MatchedSet


def set_lines(sets: Sequence[MatchedSet], currency: str) -> list[str]:
    """Return a sentence for each set: where its parts lie in order, or what it would cost."""
    return [f"Matched set {plain_name(one.name)}: {_outcome(one, currency)}." for one in sets]


def _outcome(one: MatchedSet, currency: str) -> str:
    if not one.granted:
        return f"not granted, {_refused(one, currency)}"
    names = ", ".join(plain_name(part) for part in one.parts)
    if len(one.parts) == 1:
        return f"granted, {names} on sheet {one.sheet}"
    way = "along the sheet" if one.laid == "along" else "across the sheet"
    return f"granted, on sheet {one.sheet}, {way} from the factory corner: {names}"


def _refused(one: MatchedSet, currency: str) -> str:
    """Say why a set is not granted, or what it would cost."""
    if one.why is not None:
        return one.why
    price = f"{amount(one.costs, currency)} more" if one.costs else ""
    sheets = one.more_sheets or 0
    more = f"{count(sheets, 'sheet')} more" if sheets > 0 else ""
    both = f"{price} ({more})" if price and more else price or more or "larger sheets"
    return f"it would take {both}"
