"""Cells that say how and where a thing is to stand, and how dear it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from solver.job.inventory import NAME_MOST
from solver.listing.columns import Column
from solver.listing.draft import Draft, UnreadableError, whole_count
from solver.listing.phrases import read_place
from solver.listing.wishes_in_words import read_keep, read_order
from solver.units import Unit

YES = frozenset(("yes", "y", "true", "1", "x", "✓", "✔", "ok", "may", "can"))
NO = frozenset(("no", "n", "false", "0", "-", "–", "—"))


def yes(text: str, what: str) -> bool:
    """Read yes or no; `what` itself is a yes. UnreadableError for anything else."""
    word = text.lower()
    if word in YES or word == what:
        return True
    if word in NO:
        return False
    msg = f"{what} is {text!r}; write yes or no"
    raise UnreadableError(msg)


def _group(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.group = text


def _heading(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    if len(text) > NAME_MOST:
        msg = f"the heading has {len(text)} characters; shorten it to {NAME_MOST}"
        raise UnreadableError(msg)
    draft.heading = text


def _keep(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.keep = "must" if text.lower() in YES else read_keep(text)


def _hero(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.hero = yes(text, "hero")


def _fragile(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.fragile = yes(text, "fragile")


def _order(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.order = read_order(text)


def _together(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    """Yes or no, whether the kind is to stand on one shelf; or the name of a group."""
    if text.lower() in YES | NO:
        draft.together = yes(text, "together")
    else:
        draft.group = text


def _apart(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    """Names between semicolons; a name may have commas in it."""
    draft.apart = tuple(name.strip() for name in text.split(";") if name.strip())


def _where(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.where = read_place(text)


def _may_lie(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.may_lie = yes(text, "may lie")


def _rows(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    draft.rows = whole_count(text, "number of rows", 6)


def _stack(draft: Draft, _column: Column, text: str, _unit: Unit) -> None:
    if text.lower() in NO:
        return
    draft.stack = whole_count(text, "stack", 50)


WISHES: Mapping[str, Callable[[Draft, Column, str, Unit], None]] = {
    "group": _group,
    "heading": _heading,
    "keep": _keep,
    "hero": _hero,
    "fragile": _fragile,
    "order": _order,
    "together": _together,
    "apart": _apart,
    "where": _where,
    "may_lie": _may_lie,
    "rows": _rows,
    "stack": _stack,
}
"""What reads a cell, by what its column holds."""
