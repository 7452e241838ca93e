"""What is said of a file that another version of this program has made."""

from __future__ import annotations

from shlex import quote
from typing import Any, TypeAlias

from cli.hold_words import option_of_hold
from solver.batch import Batch
from solver.edition import RULES, UNNUMBERED, Age, age_of
from solver.outcome import program_version
from solver.plan import CutPlan, Plan
from solver.tradeoff import TradeOff
from solver.whatif import WhatIf

Answer: TypeAlias = Plan | CutPlan | Batch | TradeOff | WhatIf
"""What this program writes as JSON and reads again."""

STAYS = "What the job file holds stays, and so do signed revisions."


def age(data: dict[str, Any]) -> Age:
    """Say how old a file is, from its keys "version" and "rules" as far as they are there."""
    now = program_version()
    return age_of(str(data.get("version") or now), _rules(data), now)


def age_of_answer(answer: Answer) -> Age:
    """Say how old an answer is that could be read."""
    return age(_made(answer))


def made_by(data: dict[str, Any]) -> str:
    """Say what made a file and what reads it, both with their numbers."""
    made = f"Casewright {data['version']}, rules {_rules(data)}"
    made = made if data.get("version") else f"rules {_rules(data)}"
    ours = f"this is Casewright {program_version()}, rules {RULES}"
    return f"made by {'an' if age(data) == 'older' else 'a'} {age(data)} version ({made}; {ours})"


def answer_made_by(answer: Answer) -> str:
    """Say what made an answer that could be read."""
    return made_by(_made(answer))


def what_to_do(data: dict[str, Any], job: str = "JOB") -> str:
    """Say what to do with a file of another version that cannot be used as it is."""
    if age(data) == "newer":
        return "Read it with that version, or plan the job again with this one."
    return f"Plan the job again: casewright plan {job}. {STAYS}"


def not_a_good_plan(plan: Plan, first: str, job: str) -> str:
    """Say why a plan cannot be started from: `first` finding, and whether age may be behind it.

    `job` is the job file to be planned again, as far as it is known.
    """
    data = _made(plan)
    if age(data) == "same":
        return f"this is not a good plan ({first}); casewright verify shows all of it"
    return (
        f"this plan was {made_by(data)}, and the rules of today refuse it ({first})."
        f" {what_to_do(data, job or 'JOB')}{_held_in(plan)}"
    )


def _held_in(plan: Plan) -> str:
    """The holds of a plan as options, since those of the command line stand in no file else."""
    words = [f"--hold {quote(option_of_hold(hold, plan.unit))}" for hold in plan.job.holds]
    return f" Held in it, to be given again: {' '.join(words)}" if words else ""


def _made(answer: Answer) -> dict[str, Any]:
    source: Any = answer.plan if isinstance(answer, WhatIf) else answer
    if source is None:
        return {"rules": RULES}
    return {"version": getattr(source, "version", None), "rules": source.rules}


def _rules(data: dict[str, Any]) -> int:
    rules = data.get("rules", UNNUMBERED)
    return rules if isinstance(rules, int) else UNNUMBERED
