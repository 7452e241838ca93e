"""Signed revisions, each beside its job file: `alcove.signed-1.json` and so on.

What a signed revision says is cut can be planned around, by `casewright plan --have`.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from shlex import quote

from pydantic import ValidationError

from cli.files.export import guarded_cell
from cli.files.output import write_text
from cli.files.reading import read_bytes
from cli.screen.wording import count
from solver.errors import InputError
from solver.intake.decision_checks import have_faults
from solver.job.have import Have
from solver.job.job import Job
from solver.plan.signed import Signed
from solver.units import TICKS_PER_MM, Ticks

_ENDING = re.compile(r"\.signed-(\d{1,4})\.json")


def named_after(job: str) -> Path:
    """Return what files of a job are named after: `alcove` of alcove.toml and alcove.plan.json."""
    path = Path(job).with_suffix("")
    return path.with_suffix("") if path.suffix in (".plan", ".last-plan") else path


def signed_path(job: str, revision: int) -> Path:
    """Return where a revision of a job is kept."""
    stem = named_after(job)
    return stem.with_name(f"{stem.name}.signed-{revision}.json")


def last_signed(job: str) -> Signed | None:
    """Return the last signed revision kept beside a job file or plan; None where there is none.

    Raises InputError where the file cannot be read.
    """
    stem, folder = named_after(job).name, Path(job).parent
    revisions = [
        int(match[1])
        for path in (folder.iterdir() if folder.is_dir() else ())
        if path.name.startswith(f"{stem}.signed-")
        and (match := _ENDING.fullmatch(path.name.removeprefix(stem)))
    ]
    return read_signed(str(signed_path(job, max(revisions)))) if revisions else None


def read_signed(path: str) -> Signed:
    """Read a signed revision.

    It is what was signed, so the rules of today are not held against it.
    """
    from solver.intake.load import read_json
    from solver.plan.signed import Signed

    data = read_bytes(path)
    try:
        signed = read_json(Signed, data)
        built = signed.built
    except (ValidationError, ValueError, KeyError):
        msg = "this is no signed revision as written by casewright freeze"
        raise InputError(msg, path) from None
    most = max(signed.cut_sheets, default=0), max(signed.cut_sticks, default=0)
    if most[0] > len(built.sheets) or most[1] > len(built.mouldings):
        msg = "it names sheets or sticks as cut that the signed option does not have"
        raise InputError(msg, path)
    return signed


def keep_signed(job: str, signed: Signed, *, force: bool) -> Path:
    """Write a revision beside its job and return where."""
    path = signed_path(job, signed.revision)
    data = signed.model_dump(mode="json", by_alias=True)
    del data["plan"]["timing"]
    data["plan"]["timing"] = {"seconds": 0}
    write_text(str(path), json.dumps(data, ensure_ascii=False, indent=1) + "\n", force=force)
    return path


HEADER = ("what", "name", "length", "width", "quantity", "material", "edges")


def already_cut(signed: Signed, job: Job) -> tuple[Have, ...]:
    """Return the parts that are cut from the stock of the signed revision, and its offcuts.

    A part that the job has no more, as where its case is gone, is a piece of its size; of a
    material that the job has no more, it is nothing.
    """
    return tuple(
        have
        for one in _listed(signed)
        if (have := one if _goes_with_job(job, one) else _as_piece(one))
        and _goes_with_job(job, have)
    )


def read_cut(path: str, job: Job) -> tuple[tuple[Have, ...], str]:
    """Return what is cut by a signed revision's file, and a line that says so.

    Raises InputError where the file is none, or nothing is cut yet.
    """
    signed = read_signed(path)
    cut = already_cut(signed, job)
    if not cut:
        msg = "nothing of this revision is cut yet; casewright freeze JOB --cut 1,2 says what is"
        raise InputError(msg, path)
    parts = sum(one.what == "cut" for one in cut)
    pieces = count(len(cut) - parts, "offcut")
    text = f"revision {signed.revision} of {signed.date}, cut by now: {count(parts, 'part')}"
    return cut, f"{path}: {text} and {pieces}; planned around them"


def reminder(job: str) -> str | None:
    """Say how to plan around what is cut, where a signed revision beside the job says it is."""
    try:
        signed = last_signed(job)
    except InputError:
        return None  # it is not asked for, so whoever asks for it is told
    if signed is None or not (signed.cut_sheets or signed.cut_sticks):
        return None
    path = signed_path(job, signed.revision)
    return (
        f"{path}: some stock of revision {signed.revision} is cut, and this plan is made as if it"
        f" were not. Around it: casewright plan {quote(job)} --have {quote(str(path))}"
    )


def already_cut_csv(signed: Signed, job: Job) -> str:
    """Return the same as a list that can be corrected by hand and read again."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(HEADER)
    for have in already_cut(signed, job):
        sizes = [_exact(size) for size in (have.length, have.width)]
        edges = "clean" if have.clean else ""
        row = (have.what, have.name or "", *sizes, "1", have.material or "", edges)
        rows.writerow([guarded_cell(cell) for cell in row])
    return text.getvalue()


def _listed(signed: Signed) -> Iterator[Have]:
    old = signed.built
    for number in signed.cut_sheets:
        sheet = old.sheets[number - 1]
        parts = {part.id: part for part in old.parts}
        for piece in sheet.pieces:
            part = parts[piece.part]
            yield Have(
                what="cut",
                name=part.id,
                length=part.length,
                width=part.width,
                material=part.material,
            )
        for offcut in sheet.offcuts:
            yield Have(
                what="offcut", length=offcut.length, width=offcut.width, material=sheet.material
            )
    for number in signed.cut_sticks:
        stick = old.mouldings[number - 1]
        for cut in stick.pieces:
            yield Have(what="cut", name=cut.part, length=cut.length, material=stick.stock)


def _as_piece(have: Have) -> Have:
    return have.model_copy(update={"what": "offcut", "name": None, "clean": True})


def _goes_with_job(job: Job, have: Have) -> bool:
    return not have_faults(job.model_copy(update={"have": (have,)}))


def _exact(ticks: Ticks | None) -> str:
    """Return a length [tick] exactly, as a list is read back."""
    return "" if ticks is None else f"{(Decimal(ticks) / TICKS_PER_MM).normalize():f} mm"
