"""Changes that are no lengths: a shelf more or fewer, things lying, stacked or in rows."""

from __future__ import annotations

from collections.abc import Iterator

from solver.case import SHELVES_MOST
from solver.inventory import Item
from solver.outcome import Verdict
from solver.planning.situation import Situation, altered
from solver.planning.trials import Fitter
from solver.remarks import Altered

Found = list[tuple[tuple[Altered, ...], bool]]
"""Changes, and whether less is proven not to do."""

FORMS_MOST, KINDS_MOST = 2, 6
"""Most changes of how a kind stands that are told, and most kinds tried [-]."""
STACK_MOST, ROWS_MOST = 3, 3
"""Things are not asked to be stacked higher, or to stand deeper, than this [-]."""


def shelves_changes(asked: Situation) -> Iterator[Altered]:
    """One shelf fewer, one more: in all bays of all cases, and of each case."""
    cases = asked.job.cases
    names: list[str | None] = [None] if len(cases) == 1 else [None, *(c.name for c in cases)]
    for name in names:
        bays = [n for case, ns in asked.counts.items() if name in (None, case) for n in ns]
        for more in (-1, 1):
            change = Altered(what="shelves", case=name, number=more)
            if min(bays) + more >= 0 and max(bays) + more <= SHELVES_MOST:
                yield change


def is_asked(asked: Situation, change: Altered) -> bool:
    """Whether the job compares the shelf counts that a change comes to as it is."""
    counts = altered(asked, [change]).counts
    return all(set(counts[case.name]) <= set(case.shelf_counts) for case in asked.job.cases)


def other_counts(asked: Situation, fitter: Fitter) -> Found:
    """One shelf fewer or more, where everything then fits; all cases only if not one alone."""
    found: Found = []
    for change in sorted(shelves_changes(asked), key=lambda one: one.case is None):
        alone = any(one.number == change.number for (one, *_), _ in found)
        if (change.case is None and alone) or is_asked(asked, change):
            continue
        if fitter.fits(altered(asked, [change])) is Verdict.YES:
            found.append(((change,), True))  # less than one shelf is none
    return found


def other_forms(asked: Situation, fitter: Fitter) -> Found:
    """Things of one kind that lie, are stacked or stand in rows, where everything then fits."""
    found: Found = []
    for item in sorted(asked.job.items, key=_bulk, reverse=True)[:KINDS_MOST]:
        for changes in _forms(item):
            for change in changes:  # the least that does
                if fitter.fits(altered(asked, [change])) is Verdict.YES:
                    found.append(((change,), _is_least(asked, fitter, change)))
                    break
        if len(found) >= FORMS_MOST:
            break
    return found[:FORMS_MOST]


def _bulk(item: Item) -> tuple[int, str]:
    return item.width * item.height * item.count, item.name


def _forms(item: Item) -> Iterator[list[Altered]]:
    """The ways in which a kind does not stand as asked, each with its amounts, least first."""
    if not item.may_lie:
        yield [Altered(what="lying", item=item.name)]
    stacks = range(item.stack + 1, min(STACK_MOST, item.count) + 1)
    yield [Altered(what="stacking", item=item.name, number=n) for n in stacks]
    rows = range(item.rows + 1, min(ROWS_MOST, item.count) + 1)
    yield [Altered(what="rows", item=item.name, number=n) for n in rows]


def _is_least(asked: Situation, fitter: Fitter, change: Altered) -> bool:
    """Whether one fewer on each other, or in a row, is proven not to do."""
    item = asked.job.item(change.item or "")
    now = {"lying": None, "stacking": item.stack, "rows": item.rows}[change.what]
    if now is None or change.number == now + 1:
        return True  # less is the job as asked, in which not everything fits
    less = change.model_copy(update={"number": (change.number or 0) - 1})
    return fitter.fits(altered(asked, [less])) is Verdict.NO
