"""Debian's Chromium for the tests of the client page, and what it was asked to load."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

REQUIRED = "CASEWRIGHT_BROWSER_TESTS"
"""Set to "required", a missing browser is a failure, not a reason to skip; .ci/run sets it."""
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PROGRAMS = Path(__file__).parents[1] / "cli" / "page" / "js"


def chromium() -> str:
    """Path of the browser; skips, or fails where the tests are required."""
    found = shutil.which("chromium")
    if found is None:
        reason = "no chromium on the path; on Debian: apt-get install chromium"
        if os.environ.get(REQUIRED) == "required":
            pytest.fail(reason)
        pytest.skip(reason)
    return found


@contextmanager
def browser() -> Iterator[Browser]:
    """A headless browser with a new, empty profile."""
    path = chromium()
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        yield made
        made.close()


@dataclass
class Watched:
    """A page, and all that it said on the console, threw, or asked for."""

    page: Page
    faults: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)


def watched(page: Page) -> Watched:
    """Watch a new page."""
    found = Watched(page)
    page.on("console", lambda message: found.faults.append(message.text))
    page.on("pageerror", lambda error: found.faults.append(str(error)))
    page.on("request", lambda request: found.requests.append(request.url))
    return found


def program(*names: str) -> str:
    """The page's program, as far as these files go."""
    return "".join((PROGRAMS / f"{name}.js").read_text("utf-8") for name in names)
