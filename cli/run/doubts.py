"""Doubts of a list: asked on a terminal, or taken as they most likely are where that is wanted."""

from __future__ import annotations

import sys

import typer

from cli.screen.wording import plain_name
from solver.listing.line_readings import Doubt, LineReading, Listing


def settled_doubts(listing: Listing, *, accept: bool) -> Listing:
    """Return the list with its doubts answered, as far as they can be here.

    With `accept` by the likeliest answer of each; else by who sits at the terminal. Piped, the
    list comes back as it is, and its doubts are an error that names all of them.
    """
    if accept:
        return listing.answered({line.number: _likeliest(line) for line in listing.doubtful})
    if not listing.doubtful or listing.unreadable or not _at_terminal():
        return listing
    return listing.answered({line.number: _asked(line) for line in listing.doubtful})


def _likeliest(line: LineReading) -> list[int]:
    return [0] * len(line.doubts)


def _at_terminal() -> bool:
    return sys.stdin.isatty() and sys.stderr.isatty()


def _asked(line: LineReading) -> list[int]:
    typer.echo(f"line {line.number}: {plain_name(line.text)}", err=True)
    return [_answer(doubt) for doubt in line.doubts]


def _answer(doubt: Doubt) -> int:
    """Ask one question; the answer is the index of its choice [-]."""
    typer.echo(f"  {plain_name(doubt.question)}", err=True)
    for number, choice in enumerate(doubt.choices, start=1):
        typer.echo(f"    {number}  {plain_name(choice.label)}", err=True)
    most = len(doubt.choices)
    if most < 2:
        return 0
    while True:
        given: int = typer.prompt(f"  1 to {most}", default=1, type=int, err=True)
        if 1 <= given <= most:
            return given - 1
        typer.echo(f"  {given} is none of them: 1 to {most}, or Ctrl-C to stop", err=True)
