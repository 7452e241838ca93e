"""The wheel holds all that the commands need, and they need no network.

The whole of it, in empty environments of several Pythons, is `python -m tests.wheel`.
"""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.wheel.__main__ import built

NO_NETWORK = """
import socket, sys
class Refused(socket.socket):
    def __init__(self, *args, **kwargs):
        raise SystemExit("a socket was asked for")
socket.socket = Refused
socket.create_connection = socket.getaddrinfo = Refused
from cli.main import run
sys.argv = ["casewright", *sys.argv[1:]]
run()
"""
JOB = (
    '[job]\nunit = "in"\n[[case]]\nname = "a"\nwidth = 30\nheight = 60\nshelves = 2\n'
    '[[item]]\nname = "jug"\nwidth = 6\nheight = 9\ndepth = 4\ncount = 3\n'
)
COMMANDS = (
    ("new", "made.toml", "--yes"),
    ("defaults",),
    ("schema", "plan"),
    ("plan", "job.toml", "--no-near", "--json", "plan.json"),
    ("verify", "plan.json"),
    ("hang", "job.toml"),
    ("show", "plan.json", "-o", "page.html"),
    ("draw", "plan.json", "-o", "drawings"),
    ("papers", "plan.json", "-o", "papers"),
)
"""All that write something of their own from files that come with the program."""


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, unpacked where nothing of the checkout can be imported."""
    folder = tmp_path_factory.mktemp("wheel")
    with zipfile.ZipFile(built(folder)) as wheel:
        wheel.extractall(folder / "site")
    return folder / "site"


def test_every_command_runs_from_the_wheel_with_sockets_closed(
    unpacked: Path, tmp_path: Path
) -> None:
    (tmp_path / "job.toml").write_text(JOB, "utf-8")
    for command in COMMANDS:
        done = subprocess.run(
            [sys.executable, "-c", NO_NETWORK, *command],
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(unpacked)},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode in (0, 1), f"{' '.join(command)}: {done.stderr[-800:]}"
        assert "Traceback" not in done.stderr


def test_a_command_that_asked_for_a_socket_would_be_told(tmp_path: Path) -> None:
    script = NO_NETWORK.replace("from cli.main import run", "socket.create_connection(('x', 1))")
    done = subprocess.run([sys.executable, "-c", script], cwd=tmp_path, check=False)

    assert done.returncode == 1


def test_tests_and_fixtures_are_not_installed(unpacked: Path) -> None:
    assert {path.name for path in unpacked.iterdir() if not path.name.endswith("-info")} == {
        "cli",
        "solver",
    }
