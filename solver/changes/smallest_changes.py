"""Changes that would let everything fit: one length, two together, or no length at all.

No lengths: a shelf more or fewer, things lying, stacked or in rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.changes.change_words import change_text
from solver.changes.situation import Lever, Situation, altered, described, growths, looks
from solver.changes.trials import Fitter, sag_felt
from solver.job.case import SHELVES_MOST
from solver.job.inventory import Item
from solver.job.job import Job
from solver.outcome import Limits, Verdict
from solver.plan.plan import Change
from solver.plan.remarks import Altered

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


TRIED_MOST = 5
"""Most pairs whose least amounts are looked for [-]."""


def smallest_pairs(asked: Situation, fitter: Fitter) -> Found:
    """Return pairs of length changes that let everything fit, the least in sum first.

    Neither length of a pair does by itself. One is made as small as it can be with the other
    at its most, then the other as small as it can be with that; both orders are tried.
    Proven where a step less of either is proven not to do.
    """
    levers = [*looks(asked.job), *(one for one in growths(asked.job) if one.case is None)]
    together = asked
    for lever in levers:
        together = lever.at(together, lever.most)
    if fitter.fits(together) is not Verdict.YES:
        return []
    doing = [
        pair for pair in combinations(levers, 2) if fitter.fits(_both(asked, *pair)) is Verdict.YES
    ]
    found = []
    for pair in doing[:TRIED_MOST]:
        tries = [one for order in (pair, pair[::-1]) if (one := _least(asked, fitter, *order))]
        if tries:
            found.append(min(tries, key=lambda one: sum(c.by or 0 for c in one[0])))
    return sorted(found, key=lambda one: sum(c.by or 0 for c in one[0]))


def _both(asked: Situation, one: Lever, other: Lever) -> Situation:
    return other.at(one.at(asked, one.most), other.most)


def _least(
    asked: Situation, fitter: Fitter, one: Lever, other: Lever
) -> tuple[tuple[Altered, ...], bool] | None:
    """The first lever as little as can be, then the other; None where the first is not needed."""
    first = fitter.least(other.at(asked, other.most), one, known=one.most)
    if first is None:
        return None
    second = fitter.least(one.at(asked, first.steps), other, known=other.most)
    if second is None:
        return None
    made = (one.change(first.steps), other.change(second.steps))
    proven = first.proven and second.proven
    if proven and sag_felt(asked, other):
        # `first` was the least at the most width, which need not be the best of them
        less = other.at(one.at(asked, first.steps - 1), second.steps)
        proven = fitter.fits(less) is Verdict.NO
    return made, proven


LENGTHS_MOST, PAIRS_MOST = 6, 3
"""Most changes of one length, and most pairs of changes, that are told [-]."""


def smallest_changes(job: Job, asked: Situation, limits: Limits) -> tuple[Change, ...]:
    """Return what would let everything fit, the smallest change first.

    `asked` is the job with its sizes decided, in which not everything fits.
    Lengths each by itself, in whole steps; then a shelf more or fewer, and things that lie,
    are stacked or stand in rows; where none of these does, two lengths together. A change
    is proven where one step less is proven not to do. Empty where nothing within reason helps.
    """
    fitter = Fitter(limits)
    lengths = _lengths(asked, fitter)
    found = [*lengths, *other_counts(asked, fitter), *other_forms(asked, fitter)]
    if not found:
        pairs = smallest_pairs(asked, fitter)
        return tuple(_change(job, asked, made, proven=sure) for made, sure in pairs[:PAIRS_MOST])
    return tuple(_change(job, asked, made, proven=sure) for made, sure in found)


def _lengths(asked: Situation, fitter: Fitter) -> list[tuple[tuple[Altered, ...], bool]]:
    """Every length by itself, the smallest change first; each case by itself if that is less."""
    found: list[tuple[tuple[Altered, ...], bool]] = []
    for lever in [*looks(asked.job), *growths(asked.job)]:
        least = fitter.least(asked, lever)
        if least is not None:
            found.append(((lever.change(least.steps),), least.proven))
    found.sort(key=lambda one: (one[0][0].by or 0, one[0][0].case or ""))
    return [one for one in found if not _is_wider_than_needed(one[0][0], found)][:LENGTHS_MOST]


def _is_wider_than_needed(
    change: Altered, found: Sequence[tuple[tuple[Altered, ...], bool]]
) -> bool:
    """Whether all cases are changed where one of them alone, by no more, would do."""
    return change.case is None and any(
        other.what == change.what and other.case is not None and other.by == change.by
        for (other, *_), _ in found
    )


def _change(job: Job, asked: Situation, made: tuple[Altered, ...], *, proven: bool) -> Change:
    told = described(job, altered(asked, made), made)
    return Change(
        what=told[0].what if len(told) == 1 else "several",
        by=told[0].by if len(told) == 1 else None,
        alters=told,
        proven=proven,
        text=change_text(asked.job, told),
    )
