"""All papers of an issue, in the order in which they are needed."""

from __future__ import annotations

from cli.papers.approval import approval
from cli.papers.assembly import assembly
from cli.papers.blocks import Paper
from cli.papers.buy import buy
from cli.papers.care_card import care_card
from cli.papers.change_order import change_paper
from cli.papers.cut_list import cut_list
from cli.papers.gaps import gaps
from cli.papers.hanging import hanging
from cli.papers.issue import Issue
from cli.papers.labels import labels
from cli.papers.marking_out import marking_out
from cli.papers.proposal import proposal
from cli.papers.sheet_pages import sheet_pages

MAKERS = (
    proposal,
    approval,
    buy,
    cut_list,
    sheet_pages,
    labels,
    marking_out,
    assembly,
    hanging,
    gaps,
    care_card,
)
"""From the proposal to the hung case."""


def every_paper(issue: Issue) -> list[Paper]:
    """Return all papers of the issue."""
    return [*change_paper(issue), *(make(issue) for make in MAKERS)]
