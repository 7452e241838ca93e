"""All papers of an issue, in the order in which they are needed."""

from __future__ import annotations

from cli.papers.blocks import Paper
from cli.papers.care_card import care_card
from cli.papers.cut_list import cut_list
from cli.papers.issue import Issue
from cli.papers.labels import labels
from cli.papers.marking_out import marking_out

MAKERS = (cut_list, labels, marking_out, care_card)
"""From the proposal to the hung case."""


def every_paper(issue: Issue) -> list[Paper]:
    """Return all papers of the issue."""
    return [make(issue) for make in MAKERS]
