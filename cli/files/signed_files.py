"""Signed revisions, each beside its job file: `alcove.signed-1.json` and so on."""

from __future__ import annotations

import json
import re
from pathlib import Path

from pydantic import ValidationError

from cli.files.output import write_text
from cli.files.reading import read_bytes
from solver.errors import InputError
from solver.plan.signed import Signed

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
    found = [
        int(match[1])
        for path in (folder.iterdir() if folder.is_dir() else ())
        if path.name.startswith(f"{stem}.signed-")
        and (match := _ENDING.fullmatch(path.name.removeprefix(stem)))
    ]
    return read_signed(str(signed_path(job, max(found)))) if found else None


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
