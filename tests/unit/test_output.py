"""Files out: whole or not at all."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from cli.files.output import check_target, make_folder, write_bytes, write_text
from solver.errors import InputError


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_written_and_nothing_else_is_left_beside_it(tmp_path: Path) -> None:
    write_text(str(tmp_path / "plan.json"), "−½\n", force=False)

    assert (tmp_path / "plan.json").read_bytes() == "−½\n".encode()
    assert names(tmp_path) == ["plan.json"]


def test_a_dash_is_standard_output(capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    write_text("-", "−½\n", force=False)

    assert capsysbinary.readouterr().out == "−½\n".encode()


def test_an_existing_file_is_kept_without_force(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    path.write_text("old")

    with pytest.raises(InputError, match=r"plan\.json: this file exists; .*--force"):
        write_text(str(path), "new", force=False)

    assert path.read_text() == "old"
    assert names(tmp_path) == ["plan.json"]


def test_an_existing_file_is_replaced_with_force_and_keeps_its_mode(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    path.write_text("old")
    path.chmod(0o640)

    write_text(str(path), "new", force=True)

    assert path.read_text() == "new"
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_link_goes_on_pointing_where_it_did(tmp_path: Path) -> None:
    target, link = tmp_path / "real.json", tmp_path / "link.json"
    target.write_text("old")
    link.symlink_to(target)

    write_text(str(link), "new", force=True)

    assert link.is_symlink()
    assert target.read_text() == "new"


def test_a_device_is_written_to_and_not_replaced() -> None:
    write_text(os.devnull, "new", force=False)

    assert not Path(os.devnull).is_file()


@pytest.mark.parametrize("where", ["missing/plan.json", "file/plan.json"])
def test_a_missing_folder_is_an_input_error(tmp_path: Path, where: str) -> None:
    (tmp_path / "file").write_text("")

    with pytest.raises(InputError, match=r"folder does not exist|Not a directory"):
        write_text(str(tmp_path / where), "new", force=False)

    assert names(tmp_path) == ["file"]


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="this is a folder"):
        write_text(str(tmp_path), "new", force=True)


@pytest.mark.parametrize(
    ("code", "call"), [(errno.ENOSPC, "fsync"), (errno.EACCES, "replace"), (errno.EROFS, "open")]
)
def test_a_failure_of_the_disk_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, call: str
) -> None:
    path = tmp_path / "plan.json"
    path.write_text("old")

    def fail(*_: object, **__: object) -> None:
        raise OSError(code, os.strerror(code))

    place: object = os if call == "fsync" else Path
    monkeypatch.setattr(place, call, fail)
    with pytest.raises(InputError, match=os.strerror(code)):
        write_bytes(str(path), b"new", force=True)
    monkeypatch.undo()

    assert path.read_text() == "old"
    assert names(tmp_path) == ["plan.json"]


def test_an_interrupt_while_writing_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_bytes(str(tmp_path / "plan.json"), b"new", force=True)

    assert names(tmp_path) == []


def test_what_could_not_be_written_is_known_beforehand(tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text("old")

    check_target("-", force=False)
    check_target(str(tmp_path / "plan.json"), force=True)
    check_target(str(tmp_path / "new.json"), force=False)
    with pytest.raises(InputError, match="this file exists"):
        check_target(str(tmp_path / "plan.json"), force=False)


def test_a_folder_is_made_where_only_its_last_part_is_missing(tmp_path: Path) -> None:
    assert make_folder(str(tmp_path / "tables")).is_dir()
    assert make_folder(str(tmp_path / "tables")).is_dir()
    with pytest.raises(InputError, match="make that first"):
        make_folder(str(tmp_path / "a" / "b"))


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "tables").write_text("")

    with pytest.raises(InputError, match="this is a file"):
        make_folder(str(tmp_path / "tables"))


def test_a_name_that_the_system_refuses_is_an_input_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="cannot be written"):
        write_text(str(tmp_path / ("x" * 5000)), "new", force=False)
    with pytest.raises(InputError, match="cannot be written"):
        write_text("a\0b", "new", force=False)
