"""Pictures of things: read from beside the job only, checked, and shown in the elevation."""

from __future__ import annotations

import base64
import struct
import zlib
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest

from cli.drawings.front_elevation import elevation
from cli.drawings.keys import key_marks
from cli.drawings.pages import Sheets, drawings_pdf, drawings_png
from cli.drawings.pictures import DOTS, LARGEST, jpeg_dots, read_pictures
from cli.drawings.shapes import Picture
from cli.drawings.svg import svg
from cli.papers.issue import Issue
from cli.papers.proposal import approval
from solver.errors import InputError
from solver.job.inventory import Item
from solver.job.job import Job
from solver.listing.read import read_listing
from solver.plan.plan import Plan
from tests.sample_plans import good_plan


def png(wide: int = 2, high: int = 3, *, real: bool = True) -> bytes:
    """A grey PNG, made by hand as ISO/IEC 15948 has it."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    rows = b"".join(b"\0" + b"\x80" * wide for _ in range(high)) if real else b""
    head = struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(rows))
        + chunk(b"IEND", b"")
    )


@pytest.fixture(scope="module")
def plan() -> Plan:
    return good_plan()


def with_picture(job: Job, name: str) -> Job:
    first, *others = job.items
    items = (first.model_copy(update={"picture": name}), *others)
    return job.model_copy(update={"items": items})


def read(plan: Plan, folder: Path, name: str) -> dict[str, Picture]:
    return read_pictures(with_picture(plan.job, name), str(folder / "job.toml"))


def test_a_picture_beside_the_job_is_read(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "jug.png").write_bytes(png())

    found = read(plan, tmp_path, "a/jug.png")

    assert {name: one.data for name, one in found.items()} == {plan.job.items[0].name: png()}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("../secret.png", "outside the job's folder"),
        ("/etc/hostname", "outside the job's folder"),
        ("none.png", "cannot be read"),
        (".", "cannot be read"),
        ("text.png", "neither PNG nor JPEG"),
        ("large.png", "make it smaller"),
        ("wide.png", "30001 x 1000 dots"),
        ("short.png", "damaged"),
        ("x\0y.png", "cannot be read"),
    ],
)
def test_what_is_no_picture_of_the_job_is_refused(
    plan: Plan, tmp_path: Path, name: str, said: str
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    (tmp_path / "secret.png").write_bytes(png())
    (folder / "text.png").write_text("<svg/>", encoding="utf-8")
    (folder / "large.png").write_bytes(png() + b"\0" * LARGEST)
    (folder / "wide.png").write_bytes(png(DOTS // 1000 + 1, 1000, real=False))
    (folder / "short.png").write_bytes(png()[:10])

    with pytest.raises(InputError, match=said):
        read(plan, folder, name)


def test_a_link_out_of_the_folder_is_refused(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "job").mkdir()
    (tmp_path / "secret.png").write_bytes(png())
    (tmp_path / "job" / "link.png").symlink_to(tmp_path / "secret.png")

    with pytest.raises(InputError, match="outside"):
        read(plan, tmp_path / "job", "link.png")


def test_the_elevation_shows_it_with_what_it_is(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "jug.png").write_bytes(png())
    case = plan.options[0].cases[0]
    name = plan.job.items[0].name
    standing = [
        thing for bay in case.bays for one in bay.openings for thing in one.items
        if thing.item == name and not thing.lying
    ]  # fmt: skip

    pictures = read(plan, tmp_path, "jug.png")
    scene = elevation(case, plan.unit, 10, key_marks(plan.job), pictures)
    drawn = list(ElementTree.fromstring(svg(scene)).iter())
    shown = [one for one in drawn if one.tag.endswith("image")]
    used = [one.get("href") for one in drawn if one.tag.endswith("use")]

    assert len(shown) == 1  # its data are written once
    assert used == [f"#{shown[0].get('id')}"] * len(standing)
    assert standing
    assert shown[0].get("href") == "data:image/png;base64," + base64.b64encode(png()).decode()
    assert shown[0][0].text == name
    sheets = Sheets("x", "", plan.unit, "a4")
    assert len(drawings_pdf([scene], sheets)) > len(
        drawings_pdf([elevation(case, plan.unit, 10, key_marks(plan.job))], sheets)
    )
    assert drawings_png([scene], sheets, 50)[0].startswith(b"\x89PNG")


def test_the_size_of_a_jpeg_is_that_of_its_frame() -> None:
    comment = b"\xff\xfe" + struct.pack(">H", 6) + b"text"
    frame = b"\xff\xc0" + struct.pack(">HBHHB", 11, 8, 30, 40, 1) + b"\1\x11\0"

    assert jpeg_dots(b"\xff\xd8" + comment + frame) == (40, 30)


def test_a_column_names_pictures_and_items_without_keep_their_form() -> None:
    listing = read_listing("name,w,h,d,photo\njug,4,6,4,jug.jpg\ncup,3,3,3,\n", "in")

    jug, cup = listing.items
    assert (jug.picture, cup.picture) == ("jug.jpg", None)
    assert "picture" not in cup.model_dump(mode="json")
    assert Item.model_validate(jug.model_dump(mode="json"), context={"unit": "mm"}) == jug


def test_the_drawing_for_approval_shows_pictures(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "jug.png").write_bytes(png())
    issue = Issue(plan, plan.options[0], "1", None)

    without = approval(issue)
    shown = approval(replace(issue, pictures=read(plan, tmp_path, "jug.png")))

    assert not any(b"<image" in data for _, data in without.pictures)
    assert any(b"<image" in data for _, data in shown.pictures)
