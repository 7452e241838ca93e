"""Short ways to read one line or a small list in tests, with sizes written as people do."""

from __future__ import annotations

from solver.job.inventory import Item
from solver.listing.line_readings import LineReading
from solver.listing.read import read_listing
from solver.units import Ticks, Unit, parse_length


def line(text: str, unit: Unit = "in") -> LineReading:
    """Read a list of one line."""
    (reading,) = read_listing(text, unit).lines
    return reading


def thing(text: str, unit: Unit = "in") -> Item:
    """Read a list of one line that must hold a thing."""
    reading = line(text, unit)
    assert reading.item is not None, reading.problems
    return reading.item


def faults(text: str, unit: Unit = "in") -> str:
    """Read a list of one line that must be unreadable, and return what is said about it."""
    reading = line(text, unit)
    assert reading.item is None
    assert reading.problems, reading
    return "; ".join(reading.problems)


def questions(text: str, unit: Unit = "in") -> str:
    """Read a list of one line that must be asked about, and return what is asked."""
    reading = line(text, unit)
    assert reading.item is not None, reading.problems
    assert reading.doubts, reading
    return "; ".join(doubt.question for doubt in reading.doubts)


def sizes(item: Item) -> tuple[Ticks, Ticks, Ticks]:
    """Return width, height, depth of a thing [tick]."""
    return item.width, item.height, item.depth


def ticks(width: str, height: str, depth: str, unit: Unit = "in") -> tuple[Ticks, Ticks, Ticks]:
    """Return three lengths [tick]."""
    return parse_length(width, unit), parse_length(height, unit), parse_length(depth, unit)
