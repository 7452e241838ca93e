"""The price as a client reads it: what is due, when, and what it is for."""

from __future__ import annotations

from cli.papers.issue import Issue
from cli.screen.wording import amount
from solver.costing.estimate import estimate
from solver.costing.revision_changes import TAX
from solver.plan.estimated import Estimate


def is_priced(made: Estimate) -> bool:
    """Whether there is a price to print; one without tax is, and says so."""
    return not [one for one in made.missing if one != TAX]


def totals(issue: Issue) -> dict[str, str | None]:
    """Return the price of each option by its name; None where something has no price."""
    texts: dict[str, str | None] = {}
    for option in issue.plan.options:
        if option.cases:
            priced = estimate(issue.job, option, issue.prices)
            texts[option.name] = (
                amount(priced.total, priced.currency) if is_priced(priced) else None
            )
    return texts


def price_rows(issue: Issue) -> list[tuple[str, str]]:
    """Return the price with and without tax, or a line to write it on."""
    priced = issue.estimate
    if not is_priced(priced):
        return [("Price", "")]
    taxes = [line for line in priced.sums if line.kind == "tax"]
    if not taxes:
        return [("Price, without tax", amount(priced.total, priced.currency))]
    rows = [
        (
            "Work and materials" if line.kind == "net" else line.what[0].upper() + line.what[1:],
            amount(line.amount, priced.currency),
        )
        for line in priced.sums
        if line.kind in ("net", "tax")
    ]
    return [*rows, ("Price", amount(priced.total, priced.currency))]


def payment_rows(issue: Issue) -> list[tuple[str, str]]:
    """Return what is due when; only the shares where the price is still to be written in."""
    priced = issue.estimate
    return [
        (
            f"Due {one.when}, {one.share:f} %",
            amount(one.amount, priced.currency) if is_priced(priced) else "",
        )
        for one in priced.payments
    ]


NOT_TOLD = ("contingency", "second person", "call-back")
"""Extras that are the maker's own reckoning."""


def included(issue: Issue) -> list[str]:
    """Return what of the often forgotten is in the price."""
    return [
        line.what
        for line in issue.estimate.extras
        if line.state != "none" and line.what not in NOT_TOLD
    ]


def not_included(issue: Issue) -> list[str]:
    """Return what is not in the price, so that nobody takes it for granted.

    What does not apply to the job at all is not named.
    """
    job = issue.job
    none = [
        f"{line.what.capitalize()}."
        for line in issue.estimate.extras
        if line.state == "none" and line.what in job.terms.extras and line.what not in NOT_TOLD
    ]
    glass = ["Glass and doors."] if job.ground.glass == "none" else []
    finish = ["Painting or finishing of the case."] if job.finished.kind == "none" else []
    return [
        *none,
        *glass,
        *finish,
        "Wiring, lighting, plumbing, heating; repair of damage that only shows when the work is"
        " opened up; permits.",
        "The things that are shown, and moving them.",
    ]
