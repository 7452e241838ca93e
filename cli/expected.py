"""Things that are expected: `spare` of [look] as a list of them, for which room is kept.

They are planned like things that are there, under a name of their own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from cli.hold_words import counted
from solver.errors import InputError
from solver.inventory import Item, expected_name
from solver.listing.read import read_listing
from solver.units import Unit

FORMS = 'such as ["4 x tall jug"] for a kind of the job, or ["4 x vase 6x12x6"] with sizes'


def expected_things(
    texts: Sequence[Any], own: Sequence[Mapping[str, Any]], listed: Sequence[Item], unit: Unit
) -> list[dict[str, Any] | Item]:
    """Return the things that are expected, as items of the job file or of a list.

    Parameters
    ----------
    texts
        What stands in the list `spare`.
    own, listed
        The things of the job file as written, and those of its lists.
    unit
        The unit of a size without one.

    Raises
    ------
    InputError
        Where a text is neither a kind of the job nor a thing with its sizes.
    """
    kinds: dict[str, Mapping[str, Any] | Item] = {item.name.casefold(): item for item in listed}
    kinds |= {str(item.get("name")).casefold(): item for item in own}
    return [_expected(text, kinds, unit) for text in texts]


def _expected(
    text: Any, kinds: Mapping[str, Mapping[str, Any] | Item], unit: Unit
) -> dict[str, Any] | Item:
    if not isinstance(text, str):
        msg = f"{text!r} is no text; {FORMS}"
        raise InputError(msg)
    name, count = counted(text, kinds)
    if name is None:
        return _marked(_read(text, unit), None)
    return _marked(kinds[name], count or 1)


def _marked(item: Mapping[str, Any] | Item, count: int | None) -> dict[str, Any] | Item:
    """The thing under a name that says that it is expected."""
    if isinstance(item, Item):
        new: dict[str, Any] = {"name": expected_name(item.name), "expected": True}
        return item.model_copy(update=new | ({"count": count} if count else {}))
    name = expected_name(str(item.get("name")))
    return {**item, "name": name, "expected": True, "count": count or 1}


def _read(text: str, unit: Unit) -> Item:
    items = read_listing(text, unit, "spare").items
    if len(items) != 1:
        msg = f"{text!r} is neither a kind of the job nor a thing with its sizes; {FORMS}"
        raise InputError(msg)
    return items[0]
