"""Faults of files and folders: links, rights, full disks, files that change."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from tests.faults.fault import Fault, Given
from tests.faults.tomls import PLAIN

PLAN = ("plan", "job.toml", "--no-near")


def _lay(folder: Path) -> Path:
    job = folder / "job.toml"
    job.write_text(PLAIN, "utf-8")
    return job


def _link(folder: Path) -> Given:
    _lay(folder).rename(folder / "real.toml")
    (folder / "job.toml").symlink_to("real.toml")
    return Given(("check", "job.toml"), keep=("real.toml",))


def _loop(folder: Path) -> Given:
    (folder / "job.toml").symlink_to("job.toml")
    return Given(("check", "job.toml"))


def _folder(folder: Path) -> Given:
    (folder / "job.toml").mkdir()
    return Given(("check", "job.toml"))


def _outside(folder: Path) -> Given:
    (folder / "job.toml").write_text(
        PLAIN.replace("[job]", '[job]\nitems = "../list.csv"'), "utf-8"
    )
    return Given(("check", "job.toml"), keep=("job.toml",))


def _linked_outside(folder: Path) -> Given:
    (folder / "list.csv").symlink_to("/etc/hostname")
    (folder / "job.toml").write_text(PLAIN.replace("[job]", '[job]\nitems = "list.csv"'), "utf-8")
    return Given(("check", "job.toml"), keep=("job.toml",))


def _endless(_folder: Path) -> Given:
    return Given(("check", "endless.txt"))


def _device(folder: Path) -> Given:
    (folder / "endless.txt").symlink_to("/dev/zero")
    return _endless(folder)


def _full_device(folder: Path) -> Given:
    _lay(folder)
    return Given((*PLAN, "--json", "/dev/full"), keep=("job.toml",), new=("job.last-plan.json",))


def _there_already(folder: Path) -> Given:
    _lay(folder)
    (folder / "plan.json").write_text("mine", "utf-8")
    return Given((*PLAN, "--json", "plan.json"), keep=("job.toml", "plan.json"))


def _no_folder(folder: Path) -> Given:
    _lay(folder)
    return Given((*PLAN, "--json", "nowhere/plan.json"), keep=("job.toml",))


def _output_is_a_folder(folder: Path) -> Given:
    _lay(folder)
    (folder / "out").mkdir()
    return Given((*PLAN, "--json", "out"), keep=("job.toml",))


def _changing(folder: Path) -> Given:
    """The list is written anew, longer and shorter, while it is read."""
    path = folder / "list.txt"
    turns = [0]

    def rewrite() -> None:
        turns[0] += 1
        path.write_text("jug 6 x 9 x 4\n" * (1 + 2000 * (turns[0] % 3)), "utf-8")

    rewrite()
    return Given(("check", "list.txt"), meanwhile=rewrite)


def _read_only(folder: Path) -> Given:
    """A folder without the right to write, as another user where this one is root."""
    _lay(folder)
    folder.chmod(0o555)
    return Given(
        (*PLAN, "--json", "plan.json"), keep=("job.toml",), undo=lambda: folder.chmod(0o755)
    )


def _small_disk(folder: Path) -> Given:
    """A job on a disk of 64 kB that is full but for the job."""
    _lay(folder)
    room = os.statvfs(folder)
    (folder / "full").write_bytes(bytes(max(0, room.f_bavail * room.f_frsize)))
    return Given((*PLAN, "--json", "plan.json"), keep=("job.toml",), new=())


def _hostile_name(folder: Path) -> Given:
    name = "-rf $(touch hacked) \n.toml"
    shutil.move(_lay(folder), folder / name)
    return Given(("check", f"./{name}"), keep=(name,))


FAULTS: tuple[Fault, ...] = (
    Fault("files", "a link to the job", _link, (0,)),
    Fault("files", "a link to itself", _loop, (2,)),
    Fault("files", "a folder in its place", _folder, (2,), "this is a folder"),
    Fault("files", "a list outside the job's folder", _outside, (2,), "leads out of"),
    Fault("files", "a link that leads out of it", _linked_outside, (2,), "leads out of"),
    Fault("files", "a device that never ends", _device, (2,), "larger than 20 MB"),
    Fault("files", "a name like a command", _hostile_name, (0,)),
    Fault("files", "a list that changes while it is read", _changing, (0, 2)),
    Fault("output", "a device that is full", _full_device, (2,), "No space left"),
    Fault("output", "a file that is there", _there_already, (2,), "--force"),
    Fault("output", "no such folder", _no_folder, (2,), "make the folder first"),
    Fault("output", "a folder", _output_is_a_folder, (2,), "this is a folder"),
)
READ_ONLY = Fault("output", "a folder that is read only", _read_only, (2,), "cannot be written")
FULL_DISK = Fault("output", "a full disk", _small_disk, (2,), "No space left")
