"""A job file to a Job: every fault of it at once, each with its line.

`spare` of [look] may list things that are expected: they are planned like things that are there,
under a name of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from pydantic import ValidationError

from cli.files.hold_option import kind_and_count
from cli.files.job_key_errors import Fault, control_faults, key_faults, shape_faults
from cli.files.job_value_errors import as_error, faults_of
from cli.files.quick_job import parse_shelves, parse_triple, quick_job
from cli.files.reading import read_bytes, read_inventory
from cli.files.toml_text import line_numbers, parse_toml
from solver.errors import InputError, ManyInputsError
from solver.intake.load import load
from solver.job.gone_keys import gone_notes, without_gone
from solver.job.inventory import Item, expected_name
from solver.job.job import Job
from solver.listing.line_readings import Listing
from solver.listing.read import read_listing
from solver.units import Unit

__all__ = ["JobFile", "load_job", "parse_shelves", "parse_triple", "quick_job", "read_job"]

NAME_MOST = 60
_LISTS = (".csv", ".tsv", ".txt", ".xlsx")


@dataclass(frozen=True)
class JobFile:
    """A job, the list of things read from beside it or pasted, and notes on keys that are gone."""

    job: Job
    listings: tuple[Listing, ...]
    notes: tuple[str, ...] = ()


def read_job(path: str, *, items: Listing | None = None) -> Job:
    """Read a job file; see :func:`load_job`."""
    return load_job(path, items=items).job


def load_job(
    path: str,
    *,
    items: Listing | None = None,
    settle: Callable[[Listing], Listing] = lambda listing: listing,
) -> JobFile:
    """Read a job file, with the things in it, beside it and pasted.

    Parameters
    ----------
    path
        A TOML file.
    items
        Further things, already read from a list.
    settle
        Answers the doubts of a list, as far as they can be answered.

    Returns
    -------
    JobFile
        The job with defaults filled in, and the lists that were read for it.

    Raises
    ------
    InputError
        Where the file cannot be read or breaks the rules of TOML; ManyInputsError with
        everything else that is wrong in it, sorted by line.
    """
    text = _text(path)
    raw = parse_toml(text, path)
    reader = _Reader(path, without_gone(raw), line_numbers(text))
    reader.check_shape()
    beside = reader.list_beside()
    listings = tuple(settle(listing) for listing in (beside, items) if listing is not None)
    for listing in listings:
        listing.raise_if_unreadable()
    return JobFile(reader.job(listings), listings, gone_notes(raw))


def _text(path: str) -> str:
    ending = Path(path).suffix.lower()
    if ending in _LISTS:
        msg = "this is a list of things; a job is a .toml file (casewright new writes one)"
        raise InputError(msg, path)
    data = read_bytes(path)
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        msg = "a letter is not in UTF-8; save the file as UTF-8"
        raise InputError(msg, f"{path} line {line}") from None


class _Reader:
    """One job file while it is read: its tables as written, and where each line is."""

    def __init__(self, path: str, raw: dict[str, Any], lines: Mapping[tuple[str | int, ...], int]):
        self.path = path
        self.raw = raw
        self.lines = lines
        self.strange: list[Fault] = []

    def check_shape(self) -> None:
        """Raise for faults that leave nothing to read; keep unknown keys for later."""
        shape = shape_faults(self.raw)
        self.strange = [*key_faults(self.raw), *control_faults(self.raw)]
        unit = self._unit_fault()
        if shape or unit:
            self._raise([*shape, *self.strange, *unit])

    def _unit_fault(self) -> list[Fault]:
        head = self.raw.get("job", {})
        unit = head.get("unit") if isinstance(head, dict) else None
        if unit in ("in", "mm"):
            return []
        given = "is missing" if unit is None else f"is {unit!r}"
        say = f'unit {given}; write unit = "in" or unit = "mm" under [job]'
        return [Fault(("job", "unit") if unit else ("job",), say)]

    def list_beside(self) -> Listing | None:
        """Read the list that `[job] items` names, in the folder of the job file or below."""
        head = dict(self.raw["job"])
        name, sheet = head.pop("items", None), head.pop("items_sheet", None)
        self.raw = {**self.raw, "job": head}
        for key, value in (("items", name), ("items_sheet", sheet)):
            if value is not None and not (isinstance(value, str) and value.strip()):
                self._raise([Fault(("job", key), "a text in quotes is wanted")])
        if name is None:
            return None
        target = str(self._beside(name))
        try:
            return read_inventory(target, head["unit"], sheet)
        except InputError as error:
            self._raise([Fault(("job", "items"), str(error))])

    def _beside(self, name: str) -> Path:
        """Return the path of a list; a relative one must stay in the job file's folder."""
        folder = Path(self.path).resolve().parent
        target = folder / name
        try:
            inside = Path(name).is_absolute() or target.resolve().is_relative_to(folder)
        except (OSError, ValueError, RuntimeError):
            inside = False
        if not inside:
            say = f"{name!r} leads out of the job file's folder; give the whole path, or move it"
            self._raise([Fault(("job", "items"), say)])
        return target if Path(name).is_absolute() else Path(self.path).parent / name

    def job(self, listings: Sequence[Listing]) -> Job:
        """Validate everything; raise with all faults at once."""
        own = self.raw.get("item", [])
        listed = [item for listing in listings for item in listing.items]
        faults = [*self.strange, *self._twice(listings)]
        data = self._with_expected({**self.raw, "item": [*own, *listed]}, own, listed)
        try:
            job = load(data, self.raw["job"]["unit"])
        except ValidationError as error:
            meant = {(*fault.spot[:-1], fault.meant) for fault in self.strange if fault.meant}
            invalid = faults_of(error, data)
            faults += [fault for fault in invalid if fault.spot not in meant]
        if faults:
            self._raise(faults)
        return job

    def _with_expected(
        self, data: dict[str, Any], own: Sequence[dict[str, Any]], listed: Sequence[Item]
    ) -> dict[str, Any]:
        """Take the things of a list `spare` for things of the job that are expected."""
        look = data.get("look", {})
        if not isinstance(look.get("spare"), list):
            return data
        try:
            more = expected_things(look["spare"], own, listed, self.raw["job"]["unit"])
        except InputError as error:
            self._raise([Fault(("look", "spare"), str(error))])
        rest = {key: value for key, value in look.items() if key != "spare"}
        return {**data, "look": rest, "item": [*data["item"], *more]}

    def _twice(self, listings: Sequence[Listing]) -> list[Fault]:
        """Things of the file and of lists must have different names."""
        seen = {str(item.get("name")).casefold() for item in self.raw.get("item", [])}
        faults = []
        for listing in listings:
            names = {item.name.casefold() for item in listing.items}
            faults += [
                Fault(("item",), f"{name[:NAME_MOST]!r} is in {listing.source} too; keep one")
                for name in sorted(seen & names)
            ]
            seen |= names
        return faults

    def _raise(self, faults: Sequence[Fault]) -> NoReturn:
        errors = [as_error(fault, self.raw, self.path, self.lines) for fault in faults]
        unique = {str(error): error for error in errors}
        ordered = sorted(unique.values(), key=_line_of)
        raise ordered[0] if len(ordered) == 1 else ManyInputsError(ordered)


def _line_of(error: InputError) -> int:
    _, _, line = (error.where or "").rpartition(" line ")
    return int(line) if line.isdigit() else 0


FORMS = 'such as ["4 x tall jug"] for a kind of the job, or ["4 x vase 6x12x6"] with sizes'


def expected_things(
    texts: Sequence[Any], own: Sequence[Mapping[str, Any]], listed: Sequence[Item], unit: Unit
) -> list[dict[str, Any] | Item]:
    """Return the things that are expected, as items of the job file or of a list.

    Parameters
    ----------
    texts
        What stands in the list `spare`.
    own, listed
        The things of the job file as written, and those of its lists.
    unit
        The unit of a size without one.

    Raises
    ------
    InputError
        Where a text is neither a kind of the job nor a thing with its sizes.
    """
    kinds: dict[str, Mapping[str, Any] | Item] = {item.name.casefold(): item for item in listed}
    kinds |= {str(item.get("name")).casefold(): item for item in own}
    return [_expected(text, kinds, unit) for text in texts]


def _expected(
    text: Any, kinds: Mapping[str, Mapping[str, Any] | Item], unit: Unit
) -> dict[str, Any] | Item:
    if not isinstance(text, str):
        msg = f"{text!r} is no text; {FORMS}"
        raise InputError(msg)
    name, count = kind_and_count(text, kinds)
    if name is None:
        return _marked(_read_thing(text, unit), None)
    return _marked(kinds[name], count or 1)


def _marked(item: Mapping[str, Any] | Item, count: int | None) -> dict[str, Any] | Item:
    """The thing under a name that says that it is expected."""
    if isinstance(item, Item):
        new: dict[str, Any] = {"name": expected_name(item.name), "expected": True}
        new["apart"] = _apart(item.apart, item.name)
        return item.model_copy(update=new | ({"count": count} if count else {}))
    name, apart = str(item.get("name")), item.get("apart")
    new = {"name": expected_name(name), "expected": True, "count": count or 1}
    return {**item, **new, **({"apart": _apart(apart, name)} if apart else {})}


def _apart(apart: Any, name: str) -> Any:
    """What stands apart from its own kind also does where it is expected."""
    is_list = isinstance(apart, list | tuple)
    return (*apart, expected_name(name)) if is_list and name in apart else apart


def _read_thing(text: str, unit: Unit) -> Item:
    items = read_listing(text, unit, "spare").items
    if len(items) != 1:
        msg = f"{text!r} is neither a kind of the job nor a thing with its sizes; {FORMS}"
        raise InputError(msg)
    return items[0]
