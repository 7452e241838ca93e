"""What the old door did, and what follows for a case in its place: duties, bans, advice.

Everything gives way to the local code and to those who are licensed for the work.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from solver.job.doorway import OldDoor

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


class Provided(NamedTuple):
    """What the job provides: air from elsewhere, opening from inside; and whether a case is hung.

    A hung case closes the doorway as a door does, so that somebody may be shut in.
    """

    hung: bool = True
    air: bool = False
    opens_inside: bool = False


class Ban(NamedTuple):
    """Why no case may take the old door's place as things stand."""

    key: str
    duty: str
    """Key of the duty that it follows from."""
    why: str
    unless: str
    """What would allow it, and where to say so."""
    source: str


_AIR_PROVIDED = (
    "air is provided another way, worked out by a licensed installer ([site] air says how)"
)
_CLEARED = "the authority allows it (old_door cleared_by says who has cleared it)"


def bans(old: OldDoor, provided: Provided) -> tuple[Ban, ...]:
    """Return what forbids a case; empty where nothing does. Survey and plan both use it.

    Only answers count. "Unknown" counts as yes in one case only: what a louvred door let air to,
    because an appliance starved of air makes carbon monoxide.
    """
    reasons = [*_air_bans(old)] if not provided.air else []
    if provided.hung and old.entered == "yes" and not provided.opens_inside:
        reasons.append(
            Ban(
                "opens-inside",
                "entered",
                "somebody can be in the space behind",
                "the case opens from inside without key or tool ([site] opens_inside = true)",
                "reasoning from IRC R310, as quoted",
            )
        )
    return (*reasons, *(_exit_bans(old) if not old.cleared_by else ()))


def _air_bans(old: OldDoor) -> Iterator[Ban]:
    unknown = old.louvred == "yes" and old.appliance == "unknown"
    if old.appliance == "yes" or unknown:
        door = "a louvred door" if old.louvred == "yes" else "the old door"
        what = "what nobody has named" if unknown else "an appliance that burns fuel"
        yield Ban(
            "combustion-air",
            "appliance",
            f"{door} let air to {what}; a case shuts it off, and an appliance starved of air makes "
            "carbon monoxide",
            _AIR_PROVIDED,
            "fuel-gas codes and the maker's instructions, from memory",
        )
    if old.return_air == "yes":
        yield Ban(
            "return-air",
            "return_air",
            "the old door let air back to the furnace or air handler; a case shuts it off",
            _AIR_PROVIDED,
            "mechanical codes, from memory",
        )


def _exit_bans(old: OldDoor) -> Iterator[Ban]:
    if old.exit == "yes":
        yield Ban(
            "exit",
            "exit",
            "the old door is a way out; a case may not block, hide or narrow it",
            _CLEARED,
            "IRC R311.2 and R310, IBC 1010.1, NFPA 101 7.5, as quoted",
        )
    if old.fire_door == "yes":
        yield Ban(
            "fire-door",
            "fire_door",
            "the old door is a fire door, or closes by itself; a case may not replace it",
            _CLEARED,
            "IRC R302.5.1, from memory",
        )


def old_door(answers: OldDoor | None, provided: Provided) -> Iterator[dict[str, Any]]:
    """Yield what follows from the answers, as fields of a judgement; none without them."""
    if answers is None:
        return
    banned = {ban.duty: ban for ban in bans(answers, provided)}
    for duty in DUTIES:
        answer = getattr(answers, duty.key)
        if duty.key in banned:
            ban = banned[duty.key]
            do = f"{ban.why}; refused unless {ban.unless}; {LOCAL}"
            yield _row(duty.question, answer, "refused", do, ban.source)
        elif answer in ("yes", "unknown"):
            yield _advice(duty, answer, answers.cleared_by)


def _advice(duty: Duty, answer: str, cleared_by: str | None) -> dict[str, Any]:
    then = duty.then if answer == "yes" else f"find out; if so, {duty.then}"
    if answer == "yes" and duty.key in ("exit", "fire_door") and cleared_by:
        then += f"; cleared by {cleared_by}"
    return _row(duty.question, answer, "mind", f"{then}; {LOCAL}", duty.source)


def _row(what: str, measured: str, verdict: str, do: str, source: str) -> dict[str, Any]:
    return {"what": what, "measured": measured, "verdict": verdict, "do": do, "source": source}
