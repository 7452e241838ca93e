"""Papers to PDF: the data goes to the template as JSON, so that no text is read as markup."""

from __future__ import annotations

import json
from collections.abc import Sequence
from importlib.resources import files
from typing import Any

from cli.papers.blocks import Paper
from cli.papers.issue import Issue
from cli.tables.words import plain_name


def one_pdf(issue: Issue, paper: Paper) -> bytes:
    """Return one paper as a PDF."""
    return _set(issue, [paper], contents=False)


def all_pdf(issue: Issue, papers: Sequence[Paper]) -> bytes:
    """Return all papers as one PDF, contents first, pages numbered through."""
    return _set(issue, papers, contents=True)


def page_data(issue: Issue, papers: Sequence[Paper], *, contents: bool) -> dict[str, Any]:
    """Return what the template is given."""
    return {
        "page": issue.paper_size,
        "job": plain_name(issue.job.head.title),
        "option": plain_name(issue.option.name),
        "revision": issue.revision,
        "date": "" if issue.date is None else issue.date.isoformat(),
        "mark": f"casewright {issue.plan.version}, job {issue.plan.job_hash[:8]}",
        "contents": contents,
        "papers": [
            {
                "key": paper.key,
                "title": paper.title,
                "use": paper.use,
                "shop": paper.shop,
                "blocks": list(paper.blocks),
            }
            for paper in papers
        ],
    }


def _set(issue: Issue, papers: Sequence[Paper], *, contents: bool) -> bytes:
    import typst

    data = json.dumps(page_data(issue, papers, contents=contents), ensure_ascii=False)
    template = (files("cli.papers") / "papers.typ").read_bytes()
    made = typst.compile(
        template, format="pdf", sys_inputs={"data": data}, ignore_system_fonts=True, timestamp=0
    )
    assert isinstance(made, bytes)
    return made
