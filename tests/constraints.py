"""The versions that the checks are installed with: .ci/constraints.txt, from what is installed.

    python -m tests.constraints            what the file lacks, or has too much of
    python -m tests.constraints --write    writes it with the versions of this environment

To renew it, make a new environment without it on the oldest Python that is supported, install
into it (`pip install --editable '.[dev]'`), run the checks there, then write. What the oldest
Python can have the newer ones can have too, so one version does for all.
"""

from __future__ import annotations

import argparse
import sys
import tomllib
from collections.abc import Iterable, Iterator
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[1]
FILE = ROOT / ".ci" / "constraints.txt"
HEAD = """\
# What the checks are installed with, each version fixed; .ci/run gives it to pip as PIP_CONSTRAINT.
# For Python 3.11, 3.12 and 3.13. Without hashes: pip takes none beside an editable install.
# Renewed by `python -m tests.constraints --write`, which says how.
"""


def asked(*, to_run: bool = False) -> list[Requirement]:
    """What pyproject.toml asks for here: to run, to check and to build; or to run alone."""
    read = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    lines = [*read["project"]["dependencies"]]
    if not to_run:
        lines += read["project"]["optional-dependencies"]["dev"] + read["build-system"]["requires"]
    return [wanted for line in lines if holds(wanted := Requirement(line))]


def holds(wanted: Requirement, extra: str = "") -> bool:
    """Whether a requirement is one on this Python and system, with an extra of its package."""
    return wanted.marker is None or wanted.marker.evaluate({"extra": extra})


def closure(start: Iterable[Requirement]) -> dict[str, str]:
    """Name and installed version of all that is needed, and what that needs in turn.

    PackageNotFoundError where one of them is not installed.
    """
    found: dict[str, str] = {}
    done: set[tuple[str, str]] = set()
    todo = [(wanted.name, extra) for wanted in start for extra in ("", *sorted(wanted.extras))]
    while todo:
        name, extra = todo.pop()
        name = canonicalize_name(name)
        if (name, extra) in done:
            continue
        done.add((name, extra))
        found[name] = metadata.version(name)
        todo += needs(name, extra)
    return dict(sorted(found.items()))


def needs(name: str, extra: str) -> Iterator[tuple[str, str]]:
    """What an installed package needs, each with the extras that are asked of it."""
    for line in metadata.requires(name) or ():
        wanted = Requirement(line)
        if holds(wanted, extra):
            yield wanted.name, ""
            yield from ((wanted.name, more) for more in wanted.extras)


def pins(text: str) -> dict[str, str]:
    """Name and version of each line; ValueError where a line does not fix one version."""
    found: dict[str, str] = {}
    for line in text.splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        wanted = Requirement(line)
        (fixed,) = wanted.specifier
        if fixed.operator != "==" or "*" in fixed.version or wanted.marker:
            msg = f"{line}: NAME==VERSION is wanted"
            raise ValueError(msg)
        found[canonicalize_name(wanted.name)] = fixed.version
    return found


def faults(fixed: dict[str, str], wanted: list[Requirement], needed: dict[str, str]) -> list[str]:
    """What is wrong with the versions fixed: a package without one, or one that is not allowed."""
    lacking = [f"{name} is needed and has no version" for name in needed if name not in fixed]
    idle = [f"{name} has a version and is not needed" for name in fixed if name not in needed]
    outside = [
        f"{one.name} {fixed[name]} is not {one.specifier}"
        for one in wanted
        if (name := canonicalize_name(one.name)) in fixed
        and not one.specifier.contains(fixed[name], prereleases=True)
    ]
    return lacking + idle + outside


def main(arguments: list[str]) -> int:
    """Write the file, or say what is wrong with it."""
    parser = argparse.ArgumentParser(prog="python -m tests.constraints")
    parser.add_argument("--write", action="store_true")
    wanted = asked()
    needed = closure(wanted)
    if parser.parse_args(arguments).write:
        lines = [f"{name}=={version}\n" for name, version in needed.items()]
        FILE.write_text(HEAD + "".join(lines), "utf-8")
    found = faults(pins(FILE.read_text("utf-8")), wanted, needed)
    print("\n".join(found) or f"{len(needed)} packages, each with its version")
    return min(1, len(found))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
