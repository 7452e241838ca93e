"""The option of a trade-off front that the client chose, as a plan of its own."""

from __future__ import annotations

from cli.tables.words import tag_words
from solver.errors import InputError
from solver.plan import Plan
from solver.tradeoff import TradeOff

MARKS = ("recommended", "cheapest", "least stock", "best-looking")


def check_words(which: str | None) -> None:
    """Raise InputError where an option is named in no way that is known."""
    if which is not None and which not in MARKS and not which.isdecimal():
        msg = f"--take: {which!r} is neither a number of the table nor one of {', '.join(MARKS)}"
        raise InputError(msg)


def taken(front: TradeOff, which: str) -> Plan:
    """Return the option taken as a plan.

    Parameters
    ----------
    which
        Its number in the table, or what it is: recommended, cheapest, best-looking.

    Raises
    ------
    InputError
        Where the front has no such option.
    """
    for point, plan in zip(front.points, front.plans(), strict=True):
        if which in (str(point.number), *point.option.tags, *tag_words(point.option)):
            return plan.model_copy(update={"not_shown": len(front.points) - 1})
    numbers = f"1 to {len(front.points)}" if len(front.points) > 1 else "1"
    msg = f"--take: {which} is not there; the options are {numbers}"
    raise InputError(msg)
