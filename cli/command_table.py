"""The commands by panel, each loaded when it is called, and the help that lists them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

import typer
import typer.main
from typer.core import TyperCommand, TyperGroup

PANELS: dict[str, tuple[str, ...]] = {
    "Plan": ("plan", "whatif", "tradeoff", "batch", "cut", "deflection", "demo"),
    "Look": ("show", "draw"),
    "Make": ("price", "buy", "steps", "papers", "freeze"),
    "On site": ("survey", "swing", "hang", "trim"),
    "Files": ("new", "check", "verify", "defaults", "schema"),
}
"""Each command is the function of its own name in the module of its own name in `cli.commands`."""

WIDEST = 108
"""Most columns of a help, however wide the terminal [-]: every first sentence is on one line."""
PLAIN: dict[str, Any] = {
    "add_completion": False,
    "pretty_exceptions_enable": False,
    "rich_markup_mode": None,  # plain help: the same on a screen and in a file, and at once
    "context_settings": {"help_option_names": ["-h", "--help"], "max_content_width": WIDEST},
}
"""How typer makes the program and each command: help is plain, and faults are left to us."""
EXAMPLE = "Example:"
"""Begins the last lines of a command's docstring: command lines, shown as they stand."""
ONE_LIST = 14
"""Most options that are listed under one heading [-]."""
HEADINGS: dict[str, tuple[str, ...]] = {
    "The case": (
        *("items", "inside", "outside", "opening", "shelves", "headroom", "rhythm", "prefer"),
        *("stepwise", "tallest", "shelf_style"),
    ),
    "What is there or decided already": (
        *("have", "hold", "thickness", "start", "option", "anew"),
    ),
    "The stock and the cuts": (
        *("sheet", "moulding", "kerf", "edge_trim", "margin", "mitre_allowance"),
        *("turn", "stages", "trimming", "first", "saw"),
    ),
    "What is shown and written": (
        *("take", "plan", "no_keep", "json", "csv", "xlsx", "force", "quiet", "every"),
    ),
    "The search": ("near", "advice", "time_limit", "seed"),
}
"""Where an option stands in the help of a command that has more, by parameter; else at the end."""
_TYPE = re.compile(r" <[^>]*>$")
_EXTRA = re.compile(r"\[default: ([^\];]+?)(?:\.0)?(?:; [^\]]*x[^\]]*)?\]")


def first_sentence(name: str) -> str:
    """Return the first sentence of a command's docstring, read from its source, not loaded."""
    source = (Path(__file__).parent / "commands" / f"{name}.py").read_text("utf-8")
    text = " ".join(source.partition(f"\ndef {name}(")[2].split('"""')[1].split())
    return text.partition(". ")[0].removesuffix(".") + "."


# typing has `override` from Python 3.12 on only.


class CommandHelp(TyperCommand):
    """A command whose help shows its example as it is typed, and many options under headings."""

    def collect_usage_pieces(self, ctx: Any) -> list[str]:  # type: ignore[explicit-override]
        """Return the words of the usage line, without the brackets of what must be given."""
        pieces = [str(piece) for piece in super().collect_usage_pieces(ctx)]
        return [piece.replace("{", "").replace("}", "") for piece in pieces]

    def format_help_text(self, ctx: Any, formatter: Any) -> None:  # type: ignore[explicit-override]
        """Write what the command does, then its example, a command line a line."""
        text, _, example = (self.help or "").partition(EXAMPLE)
        formatter.write_paragraph()
        with formatter.indentation():
            formatter.write_text(text.strip())
        with formatter.section("Example"):
            for line in example.split("\n"):
                formatter.write(f"{'':{formatter.current_indent}}{line.strip()}\n" if line else "")

    def format_options(self, ctx: Any, formatter: Any) -> None:  # type: ignore[explicit-override]
        """Write the arguments, then the options, under their headings where there are many."""
        given = [param for param in self.get_params(ctx) if param.get_help_record(ctx)]
        sections: dict[str, list[tuple[str, str]]] = {}
        for param in given:
            heading = heading_of(param, many=len(given) > ONE_LIST)
            words, text = param.get_help_record(ctx) or ("", "")
            sections.setdefault(heading, []).append(help_row(words, text))
        for heading, rows in sorted(sections.items(), key=lambda section: section[0] == "Options"):
            with formatter.section(heading):
                formatter.write_dl(rows)


def heading_of(param: Any, *, many: bool) -> str:
    """Return the heading under which a help lists a parameter; `many`: more than a list takes."""
    if param.param_type_name == "argument":
        return "Arguments"
    own = (heading for heading, names in HEADINGS.items() if many and param.name in names)
    return next(own, "Options")


def help_row(name: str, text: str) -> tuple[str, str]:
    """Return a row of a help without what its words and the usage line say already.

    Examples
    --------
    >>> help_row("JOB <str>", "A job file.  [required]")
    ('JOB', 'A job file.')
    >>> help_row("--seed N", "Seed.  [default: 1; 0<=x<=9]")
    ('--seed N', 'Seed.  [default: 1]')
    """
    text = _EXTRA.sub(r"[default: \1]", text)
    return _TYPE.sub("", name), text if name.startswith("-") else text.removesuffix("  [required]")


class CommandTable(Mapping[str, Any]):
    """The commands by name; looking one up loads its module."""

    def __init__(self, guarded: Callable[[Callable[..., Any]], Callable[..., Any]]) -> None:
        self._guarded = guarded
        self._names = [name for panel in PANELS.values() for name in panel]

    def __getitem__(self, name: str) -> Any:  # type: ignore[explicit-override]
        if name not in self._names:
            raise KeyError(name)
        program = typer.Typer(**PLAIN)
        module = self._guarded(import_module)(f"cli.commands.{name}")  # Ctrl-C may come here too
        program.command(name, cls=CommandHelp)(self._guarded(getattr(module, name)))
        return typer.main.get_command(program)

    def __iter__(self) -> Iterator[str]:  # type: ignore[explicit-override]
        return iter(self._names)

    def __len__(self) -> int:  # type: ignore[explicit-override]
        return len(self._names)


class PanelGroup(TyperGroup):
    """A group of commands whose help shows them in panels, each with its first sentence."""

    def list_commands(self, ctx: Any) -> list[str]:  # type: ignore[explicit-override]
        """Return the names, without loading a command."""
        return list(self.commands)

    def format_commands(self, ctx: Any, formatter: Any) -> None:  # type: ignore[explicit-override]
        """Write the panels, all with their second column at the same place."""
        widest = max(map(len, self.commands))
        for panel, names in PANELS.items():
            with formatter.section(panel):
                formatter.write_dl([(f"{name:<{widest}}", first_sentence(name)) for name in names])
