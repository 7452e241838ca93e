"""From a fresh clone to a running program, with nothing but Python and pip.

`python3 -m cli.bootstrap demo` plans the worked example, `python3 -m cli.bootstrap test`
runs every check. Both make .venv in the clone where it is missing and install into it
when pyproject.toml has changed. Only the standard library is used here.
"""

from __future__ import annotations

import hashlib
import importlib.util
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if sys.platform == "win32" else "bin")
STAMP = VENV / "casewright-installed"
"""Says what was installed last: the hash of pyproject.toml and the extra."""
LEAST = (3, 11)

CHECKS = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy",),
    ("pytest", "--numprocesses=auto", "--dist=loadfile"),
)
"""What `test` runs, in this order; each is a module of the environment."""

USAGE = "usage: python3 -m cli.bootstrap demo|test [OPTIONS of casewright demo, or of pytest]"


class BootstrapError(Exception):
    """Something is missing on this machine; the message says what to install."""


def main(arguments: list[str]) -> int:
    """Run one of the two commands; return its exit code."""
    if not arguments or arguments[0] not in ("demo", "test"):
        print(USAGE, file=sys.stderr)
        return 2
    command, *rest = arguments
    try:
        check_python()
        if command == "demo":
            prepare("")
            return run([str(BIN / "casewright"), "demo", *rest])
        prepare("dev")
        return run_checks(rest)
    except BootstrapError as error:
        print(f"bootstrap: {error}", file=sys.stderr)
        return 1


def check_python() -> None:
    """Raise BootstrapError where this Python is too old or cannot make environments."""
    if sys.version_info < LEAST:
        version = ".".join(map(str, sys.version_info[:2]))
        wanted = ".".join(map(str, LEAST))
        msg = f"Python {wanted} or newer is needed, this is {version} ({sys.executable})"
        raise BootstrapError(msg)
    missing = [name for name in ("venv", "ensurepip") if importlib.util.find_spec(name) is None]
    if missing:
        msg = (
            f"this Python lacks {' and '.join(missing)}; on Debian or Ubuntu:"
            " apt-get install python3-venv"
        )
        raise BootstrapError(msg)


def prepare(extra: str) -> None:
    """Make the environment where it is missing, and install where pyproject.toml has changed."""
    if not interpreter().exists():
        print(f"making {VENV}", file=sys.stderr)
        if run([sys.executable, "-m", "venv", "--clear", str(VENV)]) != 0:
            msg = f"{VENV} could not be made; see above"
            raise BootstrapError(msg)
    if is_installed(extra):
        return
    print(
        "installing what Casewright needs (once, and when pyproject.toml changes)", file=sys.stderr
    )
    target = f"{ROOT}[{extra}]" if extra else str(ROOT)
    pip = [str(interpreter()), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    if run([*pip, "--editable", target]) != 0:
        msg = "the packages could not be installed; see above (pip needs the network, or a mirror)"
        raise BootstrapError(msg)
    print("compiling the loops of the cutting search (once)", file=sys.stderr)
    run(
        [str(interpreter()), "-m", "solver.sticks.precompile"]
    )  # without it they compile when needed
    STAMP.write_text(stamp(extra), "utf-8")


def interpreter() -> Path:
    """Return the Python of the environment."""
    return BIN / ("python.exe" if sys.platform == "win32" else "python")


def stamp(extra: str) -> str:
    """Return what the stamp file says after an install with this extra."""
    digest = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    return f"{digest} {extra}\n"


def is_installed(extra: str) -> bool:
    """Whether the environment holds what is needed; the development extra holds all."""
    if not STAMP.exists():
        return False
    return STAMP.read_text("utf-8") in (stamp(extra), stamp("dev"))


def run_checks(pytest_options: list[str]) -> int:
    """Run every check, even after one has failed; return the first exit code that is not 0."""
    codes = []
    for module, *options in CHECKS:
        more = pytest_options if module == "pytest" else []
        print(f"== {' '.join([module, *options, *more])}", file=sys.stderr, flush=True)
        codes.append(run([str(interpreter()), "-m", module, *options, *more]))
    return next((code for code in codes if code), 0)


def run(command: list[str]) -> int:
    """Run a command in the clone and return its exit code."""
    return subprocess.run(command, cwd=ROOT, check=False).returncode  # noqa: S603 - no shell, own words


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
