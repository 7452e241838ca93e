"""The versions fixed for the checks: all that is needed, within what pyproject.toml allows."""

from __future__ import annotations

import ast
import sys
from importlib import metadata

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.constraints import FILE, ROOT, asked, closure, faults, pins


def test_every_package_that_is_needed_has_one_version_that_is_allowed() -> None:
    wanted = asked()
    assert not faults(pins(FILE.read_text("utf-8")), wanted, closure(wanted))


def test_what_a_package_needs_is_followed_to_the_end() -> None:
    found = closure([Requirement("pandas")])
    assert {"pandas", "numpy", "python-dateutil"} <= set(found)
    assert "pytest" not in found
    assert found["pandas"] == metadata.version("pandas")
    with pytest.raises(metadata.PackageNotFoundError):
        closure([Requirement("no-package-of-this-name")])


def test_a_package_without_a_version_one_too_many_and_one_not_allowed_are_found() -> None:
    wanted = [Requirement("a>=2,<3"), Requirement("B_c>=1")]
    needed = {"a": "2.1", "b-c": "1.0", "d": "5"}
    assert not faults({"a": "2.1", "b-c": "1.0", "d": "4"}, wanted, needed)
    assert faults({"a": "2.1", "b-c": "1.0"}, wanted, needed) == ["d is needed and has no version"]
    assert faults({**needed, "e": "1"}, wanted, needed) == ["e has a version and is not needed"]
    (said,) = faults({**needed, "a": "3.0"}, wanted, needed)
    assert said.startswith("a 3.0 is not ")


@pytest.mark.parametrize("line", ["a>=1", "a==1.*", "a==1; python_version < '3.12'", "a"])
def test_a_line_that_does_not_fix_a_version_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match=r"wanted|unpack"):
        pins(f"# a head\n{line}\n")


def test_the_checks_are_installed_with_it() -> None:
    name = FILE.relative_to(ROOT)
    script = (ROOT / ".ci" / "run").read_text("utf-8")
    assert f"export PIP_CONSTRAINT={name}" in script
    assert script.index(str(name)) < script.index("cli.bootstrap")


@pytest.mark.parametrize("top", ["solver", "cli", "tests"])
def test_every_package_that_is_imported_is_asked_for(top: str) -> None:
    named = {canonicalize_name(one.name) for one in asked(to_run=top != "tests")}
    known = {path.name for path in ROOT.iterdir()} | sys.stdlib_module_names
    of_module = metadata.packages_distributions()
    for path in (ROOT / top).rglob("*.py"):
        for module in top_modules(path.read_text("utf-8")) - known:
            given = {canonicalize_name(name) for name in of_module.get(module, [])}
            assert given & named, f"{path}: {module} comes with {given or 'nothing'}"


def top_modules(text: str) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return {name.split(".")[0] for name in names}
