"""The answers to what-if questions in one sentence each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.job import Job
from solver.plan import Plan
from solver.planning.held import place_text
from solver.whatif import Answer, Stands


def answer_text(
    job: Job,
    answer: Answer,
    stands: Sequence[Stands],
    plan: Plan | None,
    *,
    settled: bool,
    left: Mapping[str, int] | None = None,
    fewer: str | None = None,
) -> str:
    """Say what would have to change, and where the added things would stand.

    `fewer` names shelf counts that would be enough for what is left.
    """
    sure = "" if settled else " Whether less would do was not settled by the limit."
    if answer == "further case":
        named = ", ".join(f"{count} x {name}" for name, count in (left or {}).items())
        rest = f" Of what is added {named} would find no place in these." if named else ""
        return f"They need a further case: no further shelves in these do.{rest}{sure}"
    start = {
        "as it stands": "Yes, without moving anything" if stands else "Nothing else has to move",
        "things move": f"Yes, if {_moved(plan)} change places; no shelf moves",
        "shelves move": f"Yes, if {_shelves(plan)}",
        "further shelf": f"They need a further shelf ({plan.options[0].name if plan else ''})",
    }[answer]
    spared = f" {fewer} would do as well." if fewer else ""
    return f"{start}.{_where(job, stands)}{sure}{spared}"


def _moved(plan: Plan | None) -> str:
    compared = plan.comparison if plan else None
    number = sum(one.count for one in compared.things if one.from_ and one.to) if compared else 0
    return "1 thing" if number == 1 else f"{number} things"


def _shelves(plan: Plan | None) -> str:
    compared = plan.comparison if plan else None
    number = len(compared.marks) if compared else 0
    shelves = "1 shelf moves" if number == 1 else f"{number} shelves move"
    return f"{shelves} and {_moved(plan)} change places"


def _where(job: Job, stands: Sequence[Stands]) -> str:
    if not stands:
        return ""
    named = ", ".join(
        f"{one.count} x {one.item} in opening {place_text(job, one.where)}" for one in stands
    )
    return f" {named[0].upper()}{named[1:]}."
