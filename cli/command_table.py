"""The commands by panel, each loaded when it is called, and the help that lists them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

import typer
import typer.main
from typer.core import TyperGroup

PANELS: dict[str, tuple[str, ...]] = {
    "Plan": ("plan", "whatif", "tradeoff", "batch", "cut", "deflection", "demo"),
    "Look": ("show", "draw"),
    "Make": ("price", "buy", "steps", "papers", "freeze"),
    "On site": ("survey", "swing", "hang", "trim"),
    "Files": ("new", "check", "verify", "defaults", "schema"),
}
"""Each command is the function of its own name in the module of its own name in `cli.commands`."""

PLAIN: dict[str, Any] = {
    "add_completion": False,
    "pretty_exceptions_enable": False,
    "rich_markup_mode": None,  # plain help: the same on a screen and in a file, and at once
    "context_settings": {"help_option_names": ["-h", "--help"]},
}
"""How typer makes the program and each command: help is plain, and faults are left to us."""


def first_sentence(name: str) -> str:
    """Return the first sentence of a command's docstring, read from its source, not loaded."""
    source = (Path(__file__).parent / "commands" / f"{name}.py").read_text("utf-8")
    text = " ".join(source.partition(f"\ndef {name}(")[2].split('"""')[1].split())
    return text.partition(". ")[0].removesuffix(".") + "."


# typing has `override` from Python 3.12 on only.


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
        program.command(name)(self._guarded(getattr(module, name)))
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
