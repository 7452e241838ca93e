"""What the old door did, and what follows for a case in its place.

Every answer defers to the local code and to those who are licensed for the work.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from solver.doorway import OldDoor

LOCAL = "local code and licensed practice come first"


class Duty(NamedTuple):
    """One thing that a door may do."""

    key: str
    question: str
    """As the blank form asks it."""
    then: str
    """What to do where it does."""
    source: str


DUTIES: tuple[Duty, ...] = (
    Duty(
        "louvred",
        "Was the old door louvred, or cut short at the foot?",
        "it let air through: find out for what before it is closed",
        "reasoning; local code",
    ),
    Duty(
        "return_air",
        "Did it let air return to a furnace or air handler?",
        "keep the same free area open in the case or beside it; ask the heating installer",
        "reasoning; local mechanical code",
    ),
    Duty(
        "appliance",
        "Is there an appliance behind it that burns gas, oil or wood?",
        "it needs combustion air and service room; ask its installer before anything is closed",
        "reasoning; local fuel gas code",
    ),
    Duty(
        "panel",
        "Is an electrical panel or meter behind it?",
        "panels must stay reachable with clear working space, and not beside what burns easily; "
        "ask an electrician",
        "US code as quoted in boards.straightdope.com 785764",
    ),
    Duty(
        "shut_off",
        "Are valves, a sump or a clean-out behind it?",
        "they must be reached in a hurry: the case opens without tools, and a label says so",
        "common practice, no source",
    ),
    Duty(
        "switch",
        "Is a switch, outlet, thermostat or alarm behind or in the swing?",
        "have it moved by an electrician, or keep it clear; alarms are never covered",
        "common practice, no source",
    ),
    Duty(
        "privacy",
        "Did it give privacy to a bath or bedroom?",
        "a case with gaps and no lock does not; say so to the client",
        "common practice, no source",
    ),
    Duty(
        "exit",
        "Is it a way out, or the way to the only window of a bedroom?",
        "a way out may not be disguised or narrowed",
        "IBC 1010.1, NFPA 101 7.5, IRC R310 and R311.2",
    ),
    Duty(
        "fire_door",
        "Is it rated for fire, or does it close by itself?",
        "a fire door is never replaced by a case",
        "IRC R302.5.1; from memory",
    ),
    Duty(
        "entered",
        "Can anybody be in the space behind?",
        "it must open from inside without key or tool, with air enough, and a light",
        "reasoning from IRC R310",
    ),
)
"""Everything the survey asks about the old door, in the order of the form."""

_REFUSING = ("exit", "fire_door")


def old_door(answers: OldDoor | None) -> Iterator[dict[str, Any]]:
    """Yield what follows from the answers, as fields of a judgement; not asked: not judged."""
    if answers is None:
        return
    given = {duty.key: getattr(answers, duty.key) for duty in DUTIES}
    if given["louvred"] == "yes" and given["appliance"] in ("yes", "unknown"):
        yield _row(
            "combustion air",
            "a louvred door before an appliance" if given["appliance"] == "yes"
            else "a louvred door, and what is behind it is unknown",
            "refused",
            "not to be closed by a case until whoever installed the appliance has given it air "
            f"from elsewhere, in writing; {LOCAL}",
            "reasoning: an appliance starved of air makes carbon monoxide; local fuel gas code",
        )  # fmt: skip
    for duty in DUTIES:
        if given[duty.key] in ("yes", "unknown"):
            yield _judged(duty, given[duty.key], answers.cleared_by)


def _judged(duty: Duty, answer: str, cleared_by: str | None) -> dict[str, Any]:
    known = answer == "yes"
    refuses = known and duty.key in _REFUSING
    then = duty.then if known else f"find out; if so, {duty.then}"
    if refuses:
        then += f"; cleared by {cleared_by}" if cleared_by else (
            '; refused unless cleared_by under [doorway.old_door] says who has cleared it'
        )  # fmt: skip
    verdict = "refused" if refuses and not cleared_by else "mind"
    return _row(duty.question, answer, verdict, f"{then}; {LOCAL}", duty.source)


def _row(what: str, measured: str, verdict: str, do: str, source: str) -> dict[str, Any]:
    return {"what": what, "measured": measured, "verdict": verdict, "do": do, "source": source}
