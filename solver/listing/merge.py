"""Lines of the same name: added up where they are the same thing, told apart where they are not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from solver.job.inventory import COUNT_MOST, Item
from solver.listing.draft import NAME_MOST
from solver.listing.line_readings import LineReading


def merge(readings: Iterable[LineReading]) -> tuple[tuple[Item, ...], tuple[LineReading, ...]]:
    """Return the items with different names, and the readings with notes on what was done.

    Same name and all else the same: the counts are added. Same name but another size
    or weight: the later one is called `jug (2)`.
    """
    merger = _Merger()
    lines = tuple(merger.take(reading) for reading in readings)
    return tuple(merger.items.values()), lines


class _Merger:
    """The items so far by the key of their name, and which names share a base."""

    def __init__(self) -> None:
        self.items: dict[str, Item] = {}
        self._known: dict[tuple[object, ...], str] = {}
        self._next: dict[str, int] = {}
        self._first_line: dict[str, int] = {}

    def take(self, reading: LineReading) -> LineReading:
        item = reading.item
        if item is None:
            return reading
        base = _key(item.name)
        same = self._known.get((base, *_rest(item)))
        if same is not None:
            return self._add(reading, item, same)
        if base in self.items:
            return self._rename(reading, item, base)
        self._keep(reading, item, base)
        return reading

    def _keep(self, reading: LineReading, item: Item, base: str) -> None:
        key = _key(item.name)
        self.items[key] = item
        self._known[(base, *_rest(item))] = key
        self._first_line[key] = reading.number

    def _add(self, reading: LineReading, item: Item, key: str) -> LineReading:
        kept = self.items[key]
        total = kept.count + item.count
        if total > COUNT_MOST:
            problem = f"with line {self._first_line[key]} there are {total}; at most {COUNT_MOST}"
            return replace(reading, item=None, problems=(*reading.problems, problem))
        self.items[key] = kept.model_copy(update={"count": total})
        note = f"added to line {self._first_line[key]}: {total} in all"
        return replace(
            reading,
            item=item.model_copy(update={"name": kept.name}),
            notes=(*reading.notes, note),
        )

    def _rename(self, reading: LineReading, item: Item, base: str) -> LineReading:
        number = self._next.get(base, 2)
        while _key(name := f"{item.name} ({number})") in self.items:
            number += 1
        self._next[base] = number + 1
        if len(name) > NAME_MOST:
            problem = "the name is taken by another thing; give it a name of its own"
            return replace(reading, item=None, problems=(*reading.problems, problem))
        renamed = item.model_copy(update={"name": name})
        self._keep(reading, renamed, base)
        what = _difference(self.items[base], item)
        note = f"renamed {name}: {what} differs from line {self._first_line[base]}"
        return replace(reading, item=renamed, notes=(*reading.notes, note))


def _key(name: str) -> str:
    return name.casefold()


def _rest(item: Item) -> tuple[object, ...]:
    return tuple(value for field, value in item if field not in ("name", "count"))


def _difference(one: Item, other: Item) -> str:
    fields = [f for f, value in one if f not in ("name", "count") and value != getattr(other, f)]
    return "size" if set(fields) & {"width", "height", "depth"} else ", ".join(fields)
