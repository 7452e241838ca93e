"""One browser for all tests of the client page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from cli.page.page_file import page_html
from solver.plan.plan import Plan
from tests.browsing import Watched, browser, watched

Opener = Callable[..., Watched]


@pytest.fixture(scope="session")
def chrome() -> Iterator[Browser]:
    with browser() as made:
        yield made


@pytest.fixture
def opened(chrome: Browser, tmp_path: Path) -> Iterator[Opener]:
    """Opens the page of a plan from its file; the words go to the browser context."""
    contexts = []

    def opener(plan: Plan, **words: Any) -> Watched:
        file = tmp_path / "page.html"
        file.write_text(page_html(plan), "utf-8")
        size = words.pop("size", (1280, 900))
        context = chrome.new_context(viewport={"width": size[0], "height": size[1]}, **words)
        context.set_default_timeout(8000)
        contexts.append(context)
        found = watched(context.new_page())
        found.page.goto(file.as_uri())
        return found

    yield opener
    for context in contexts:
        context.close()
