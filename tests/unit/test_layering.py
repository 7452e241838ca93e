"""Holds the import table of DEVELOPERS.md, by reading the source only."""

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
NOT_DATA = {
    "solver.cp_sat",
    "solver.listing.item_frames",
    "solver.plan.plan_frames",
    "solver.plan.saw_frames",
    "solver.work.work_frames",
}


@dataclass(frozen=True)
class Rule:
    package: str
    may: tuple[str, ...]
    data: bool
    """Whether data modules may be imported."""
    never: tuple[str, ...]


def modules() -> dict[str, Path]:
    """Every module of both packages by its dotted name."""
    found = {}
    for top in ("solver", "cli"):
        for path in (ROOT / top).rglob("*.py"):
            parts = path.relative_to(ROOT).with_suffix("").parts
            found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


MODULES = modules()
DATA = {
    name
    for name, path in MODULES.items()
    if path.parent in (ROOT / "solver", ROOT / "solver" / "carcass") and name not in NOT_DATA
}


def rules(text: str) -> dict[str, Rule]:
    """The rows of the import table."""
    section = text.split("<!-- import table -->")[1].split("<!-- end of import table -->")[0]
    found = {}
    for line in section.splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("| `"):
            package, may, never = cells
            words = [re.findall(r"`([\w.]+)`", cell) for cell in (package, may, never)]
            name, own = words[0][0], [] if words[0] == ["solver"] else words[0]
            found[name] = Rule(name, (*words[1], *own), "data modules" in may, tuple(words[2]))
    return found


RULES = rules((ROOT / "DEVELOPERS.md").read_text("utf-8"))


def within(module: str, packages: tuple[str, ...]) -> bool:
    return any(module == name or module.startswith(f"{name}.") for name in packages)


def is_allowed(module: str, rule: Rule) -> bool:
    return (rule.data and module in DATA) or within(module, rule.may)


def rule_of(module: str) -> Rule:
    return max(
        (rule for rule in RULES.values() if within(module, (rule.package,))),
        key=lambda rule: len(rule.package),
    )


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
    """The modules of one circle of imports, the first one named again at the end."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def broken(module: str, source: str) -> list[str]:
    """What a module imports against its rule."""
    rule = rule_of(module)
    return [
        f"{module} imports {name}"
        for _, name in imports(ast.parse(source))
        if name.split(".")[0] not in sys.stdlib_module_names
        and (within(name, rule.never) or not is_allowed(name, rule))
    ]


@pytest.mark.parametrize("module", sorted(MODULES))
def test_imports_follow_the_table(module: str) -> None:
    assert broken(module, MODULES[module].read_text("utf-8")) == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("cli.files.reading", "import ortools"),
        ("cli.files.reading", "from ortools.sat.python import cp_model"),
        ("solver.job.job", "from solver.layout import solve"),
        ("solver.layout.layout_engine", "from solver.cutting.problem import Panel"),
        ("solver.cutting.solve", "import pandas"),
        ("solver.checking.check", "from solver.cp_sat import cp_model"),
        ("solver.checking.check", "from solver import geometry"),
        ("solver.checking.check", "from solver.carcass.outline import boards_around"),
        ("solver.planning.plan_job", "import solver.checking.check"),
        ("solver.units", "import requests"),
        ("cli.bootstrap", "from cli.files.output import write_text"),
    ],
)
def test_an_import_against_the_table_is_found(module: str, source: str) -> None:
    assert len(broken(module, source)) == 1


def test_the_table_has_a_row_for_every_package() -> None:
    packages = {name for name in MODULES if MODULES[name].name == "__init__.py"}
    solver_packages = {name for name in packages if name.startswith("solver")}

    assert solver_packages | {"cli"} <= set(RULES)
    assert set(RULES) <= set(MODULES)


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
