"""Holds the table of folders of DEVELOPERS.md, by reading the source only."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = {"ortools", "numba", "pandas", "openpyxl"}
"""Libraries that only the modules named in the table may load."""


@dataclass(frozen=True)
class Row:
    """A row of the table: what its folders may import."""

    folders: tuple[str, ...]
    ours: tuple[str, ...]
    """Folders of ours; all rows above where the cell is left empty."""
    libraries: tuple[str, ...]


def modules() -> dict[str, Path]:
    """Every module of both packages by its dotted name."""
    found = {}
    for top in ("solver", "cli"):
        for path in (ROOT / top).rglob("*.py"):
            parts = path.relative_to(ROOT).with_suffix("").parts
            found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


MODULES = modules()


def rows(text: str) -> list[Row]:
    """The rows of the table, top to bottom: a folder may import those above its own."""
    section = text.split("<!-- import table -->")[1].split("<!-- end of import table -->")[0]
    found: list[Row] = []
    for line in section.splitlines():
        if not line.startswith("| `"):
            continue
        folders, _, ours, libraries = (
            tuple(re.findall(r"`([\w.]+)`", cell)) for cell in line.strip("|").split("|")
        )
        above = tuple(folder for row in found for folder in row.folders)
        found.append(Row(folders, ours or above, libraries))
    return found


TABLE = rows((ROOT / "DEVELOPERS.md").read_text("utf-8"))
FOLDERS = {folder: row for row in TABLE for folder in row.folders}


def folder_of(module: str) -> str:
    """The longest folder of the table that a module is in."""
    inside = [one for one in FOLDERS if module == one or module.startswith(f"{one}.")]
    return max(inside, key=len)


def is_allowed(module: str, imported: str) -> bool:
    """Whether the table lets a module import another one, or a library."""
    own = folder_of(module)
    row = FOLDERS[own]
    if imported.split(".")[0] in ("solver", "cli"):
        folder = folder_of(imported)
        return folder in (own, "solver") or folder in row.ours
    return imported.split(".")[0] in row.libraries


def imports(tree: ast.AST) -> Iterator[tuple[ast.stmt, str]]:
    """Every import of a file; `from package import module` names the module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            for alias in node.names:
                full = f"{base}.{alias.name}"
                yield node, full if full in MODULES else base


def circle(graph: dict[str, set[str]]) -> list[str]:
    """Modules that import each other in a circle; none where there is no circle."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def broken(module: str, source: str) -> list[str]:
    """What a module imports against the table."""
    return [
        f"{module} imports {name}"
        for _, name in imports(ast.parse(source))
        if name.split(".")[0] not in sys.stdlib_module_names and not is_allowed(module, name)
    ]


@pytest.mark.parametrize("module", sorted(MODULES))
def test_imports_follow_the_table(module: str) -> None:
    assert broken(module, MODULES[module].read_text("utf-8")) == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("cli.files.output", "import ortools"),
        ("cli.files.output", "from ortools.sat.python import cp_model"),
        ("cli.drawings.scene", "from cli.commands import draw"),
        ("solver.job.job", "from solver.intake.load import load"),
        ("solver.job.job", "from solver.plan.plan import Plan"),
        ("solver.layout.fit", "from solver.cutting.cutting_problem import Panel"),
        ("solver.cutting.bounds", "import pandas"),
        ("solver.checking.check", "from solver.layout import fit"),
        ("solver.checking.check", "from solver.carcass.outline import boards_around"),
        ("solver.planning.plan_job", "import solver.checking.check"),
        ("solver.units", "import requests"),
        ("cli.bootstrap", "from cli.files.output import write_text"),
    ],
)
def test_an_import_against_the_table_is_found(module: str, source: str) -> None:
    assert len(broken(module, source)) == 1


def test_the_table_has_every_folder_once() -> None:
    packages = {name for name in MODULES if MODULES[name].name == "__init__.py"}
    listed = [folder for row in TABLE for folder in row.folders]

    assert len(listed) == len(set(listed))
    assert {".".join(name.split(".")[:2]) for name in packages} <= set(listed)
    assert set(listed) <= set(MODULES)


def test_modules_import_each_other_in_no_circle() -> None:
    """Imports inside functions and for type checking count too."""
    graph = {
        module: {name for _, name in imports(ast.parse(path.read_text("utf-8"))) if name in MODULES}
        for module, path in MODULES.items()
    }

    assert circle(graph) == []


def test_a_circle_of_imports_is_found() -> None:
    assert circle({"a": {"b"}, "b": {"c"}, "c": {"b"}}) in (["b", "c", "b"], ["c", "b", "c"])


@pytest.mark.parametrize("module", sorted(MODULES))
def test_imports_are_absolute(module: str) -> None:
    tree = ast.parse(MODULES[module].read_text("utf-8"))
    relative = [n for n in ast.walk(tree) if isinstance(n, ast.ImportFrom) and n.level]

    assert relative == []


@pytest.mark.parametrize("module", sorted(MODULES))
def test_pandas_is_imported_inside_functions_only(module: str) -> None:
    tree = ast.parse(MODULES[module].read_text("utf-8"))
    typing_only = {
        statement
        for node in tree.body
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for statement in node.body
    }
    at_top = [node for node in tree.body if node not in typing_only]
    found = [name for node in at_top for _, name in _of_statement(node)]

    assert [name for name in found if name.split(".")[0] in ("pandas", "openpyxl")] == []


def _of_statement(node: ast.stmt) -> list[tuple[ast.stmt, str]]:
    return list(imports(node)) if isinstance(node, ast.Import | ast.ImportFrom) else []


CAMEL_CASE_API = re.compile(
    r"\.(?:New(?:Int|Bool|Interval|OptionalInterval)Var|Add(?:Hint|Assumption|BoolOr|BoolAnd"
    r"|Implication|AllDifferent|Element|MaxEquality|MinEquality|NoOverlap2?D?|Cumulative)?"
    r"|OnlyEnforceIf|Minimize|Maximize|Solve|Value|ObjectiveValue|BestObjectiveBound)\("
)


CP_SAT = sorted(name for name, path in MODULES.items() if "cp_model" in path.read_text("utf-8"))


@pytest.mark.parametrize("module", CP_SAT)
def test_the_old_names_of_the_cp_sat_interface_are_not_used(module: str) -> None:
    assert CAMEL_CASE_API.findall(MODULES[module].read_text("utf-8")) == []


def test_the_old_names_are_recognised() -> None:
    assert CP_SAT
    assert CAMEL_CASE_API.search("model.NewIntVar(0, 1, 'x')")
    assert CAMEL_CASE_API.search("model.AddHint(x, 1)")
    assert not CAMEL_CASE_API.search("model.new_int_var(0, 1, 'x')")
